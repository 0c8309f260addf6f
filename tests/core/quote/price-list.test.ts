import type { Block } from "../../../src/core/cell";
import { isPriceHeader } from "../../../src/core/quote/price-columns";
import { readPriceList } from "../../../src/core/quote/price-list";
import { readTerms } from "../../../src/core/quote/terms";
import { faultMessage } from "../../../src/core/result";
import { QUOTE_COLUMNS } from "../../../src/core/quote/quote-columns";
import { faulty, made, TERMS } from "./shop";

/** A list as a supplier sends it: its own headers, and no word of what a part is for. */
const SUPPLIERS: Block = [
  [
    "Part #",
    "Desc.",
    "Fitment",
    "Our cost",
    "List price",
    "Price",
    "Core (refundable)",
    "Qty. on hand",
    "Lead time (days)",
  ],
  ["RR-100", "Regulator-rectifier", "Ridge 450", 60, 139, 119.9, 15, "12 pcs", "4 d"],
  ["ST-7", "Stator assembly", "Ridge 700", 88, 199, 189, "", "0", "5 days"],
];

describe("a shop's own price list", () => {
  it("is read with the headers that suppliers use, the plainest name of a price first", () => {
    const list = readPriceList(SUPPLIERS);
    if (!list.ok) throw new Error("refused");
    expect(list.value.parts.map((p) => [p.partNumber, p.price?.toFixed(2), p.stock, p.leadDays, p.fits])).toEqual([
      ["RR-100", "119.90", 12, 4, ["Ridge 450"]],
      ["ST-7", "189.00", 0, 5, ["Ridge 700"]],
    ]);
    expect(list.value.parts[0]!.coreCharge?.toFixed(2)).toBe("15.00");
  });

  const priced = (...headers: string[]): Block => [
    ["Part number", "Use", ...headers],
    ["ST-1", "stator", ...headers.map((_, i) => 119 - 19 * i)],
  ];
  const refusalOf = (header: string, currency: string) => {
    const list = readPriceList(priced(header), currency);
    return list.ok ? "" : faultMessage(list.fault);
  };

  it("refuses prices with tax in them, which would be asked for twice, and takes those without beside them", () => {
    for (const header of [
      "Price (incl. VAT)",
      "Price incl. VAT",
      "Price inc GST",
      "Precio (IVA incluido)",
      "List price with sales tax",
    ])
      expect([header, refusalOf(header, "EUR")]).toEqual([
        header,
        `prices, price: "${header}" cannot be read; enter amounts without tax.`,
      ]);
    for (const header of ["Price (excl. VAT)", "Price excl. VAT", "Price ex GST", "Precio sin IVA", "Price net"])
      expect([header, refusalOf(header, "EUR")]).toEqual([header, ""]);
    const both = readPriceList(priced("Price (incl. VAT)", "Price (excl. VAT)"), "EUR");
    expect(both.ok && both.value.parts[0]!.price?.toFixed(2)).toBe("100.00");
  });

  it("refuses prices whose header names another currency than the terms, and knows their own in it", () => {
    for (const header of ["Price (USD)", "Price USD", "Price $", "Price [£]"])
      expect([header, refusalOf(header, "EUR")]).toEqual([
        header,
        `prices, price: "${header}" cannot be read; enter amounts in EUR, or set the currency in the terms.`,
      ]);
    for (const header of ["Price (EUR)", "Price EUR", "Price €", "Price (€)", "Price (each)", "PRICE"])
      expect([header, refusalOf(header, "EUR")]).toEqual([header, ""]);
  });

  it("finds a part that is for nothing named by its number alone, and says how others would be found", () => {
    const byNumber = made(faulty, SUPPLIERS);
    expect(byNumber.alternatives[0]!.lines[0]).toMatchObject({ kind: "part", partNumber: "RR-100" });
    // The number in the terms is a regulator's: it is sold for none.
    const unknown = made({ part: "stator", state: "faulty", sentence: "" }, SUPPLIERS);
    expect(unknown.alternatives[0]!.lines.some(({ kind }) => kind === "part")).toBe(false);
    expect(unknown.issues).toEqual([
      "No line says what its part is for: add a column Use (stator, battery, fuse), or name part numbers in the terms.",
    ]);
  });

  it("takes a part whose description says nothing by the number that the job has for it", () => {
    const bare: Block = [
      ["P/N", "Item", "Retail"],
      ["RR-100", "Assy, 3 ph", 119.9],
    ];
    const partOf = (terms: Block) => made(faulty, bare, terms).alternatives[0]!.lines[0]?.partNumber;
    expect(partOf([["Part number", "RR-100"]])).toBeUndefined();
    expect(partOf([["Regulator part number", "RR-100"]])).toBe("RR-100");
  });

  it("names what it lists for other machines where nothing fits this one", () => {
    const [header, ...rows] = SUPPLIERS;
    const withUse: Block = [
      [...header!, "Use"],
      ...rows.map((row, i) => [...row, ["regulator-rectifier", "stator"][i]!]),
    ];
    const { alternatives } = made({ part: "stator", state: "faulty", sentence: "" }, withUse, TERMS);
    expect(alternatives[0]!.missing).toContain(
      "ST-7: listed for Ridge 700; check the fit, then name its part number in the terms",
    );
  });

  it("names a word that is no use once, and finds its parts by their number as where none is given", () => {
    const groups: Block = [
      ["Part no", "Group", "Price"],
      ["X-1", "Electrical", 5],
      ["ST-9", "Electrical", 150],
      ["F-1", "fuse", 2],
    ];
    const list = readPriceList(groups);
    if (!list.ok) throw new Error("refused");
    expect(list.value.issues).toEqual([
      expect.stringMatching(/^Line 1 below the header, use: "Electrical" is none of/),
    ]);
    const stator = made({ part: "stator", state: "faulty", sentence: "" }, groups, [["Stator part number", "ST-9"]]);
    expect(stator.alternatives[0]!.lines[0]).toMatchObject({ kind: "part", partNumber: "ST-9" });
  });

  it("takes dashes and n/a of a list as blank", () => {
    const list = readPriceList([
      ["Part no", "Use", "Condition", "Fits", "Price", "Core", "Stock", "Superseded by"],
      ["ST-1", "stator", "n/a", "-", "12,50 €", "-", "n/a", "-"],
    ]);
    expect(list).toMatchObject({ ok: true, value: { issues: [] } });
    if (list.ok) expect(list.value.parts[0]).toMatchObject({ condition: "new", fits: [] });
    if (list.ok) expect(list.value.parts[0]!.supersededBy).toBeUndefined();
  });

  // 100 / (1 − 0.35) = 153.85: the definition of a margin of the selling price.
  it("reads a margin of a column in percent as such", () => {
    const priceAt = (header: string, margin: number | string) => {
      const list = readPriceList([
        ["Part no", "Use", "Cost", header],
        ["ST-1", "stator", 100, margin],
      ]);
      return list.ok ? list.value.parts[0]!.price?.toFixed(2) : undefined;
    };
    expect([priceAt("Margin (%)", 35), priceAt("Margin", "35 %"), priceAt("Margin (%)", 0.35)]).toEqual(
      Array(3).fill("153.85"),
    );
    expect(priceAt("Margin", 35)).toBeUndefined();
  });

  it("sells no part at a price of zero, and takes what goes with it as the list has it", () => {
    const { alternatives } = made({ part: "stator", state: "faulty", sentence: "" }, [
      ["Part no", "Use", "Price"],
      ["ST-1", "stator", 0],
      ["G-1", "gasket", 0],
    ]);
    expect(alternatives[0]!.missing).toContain("ST-1: no price in the list");
    expect(alternatives[0]!.lines.map(({ kind, partNumber }) => [kind, partNumber])).toContainEqual([
      "material",
      "G-1",
    ]);
  });

  it("invents no price from one in another currency", () => {
    const block = [
      ["Part no", "Use", "Price", "Core charge", "Stock"],
      ["F-1", "fuse", "€ 2,30", "", "5 PCS"],
      ["F-2", "fuse", "$ 2.30", "", ""],
      ["F-3", "fuse", "2.30", "EUR 9", ""],
    ];
    const list = readPriceList(block, "USD");
    if (!list.ok) throw new Error("the list cannot be read");
    const { parts, issues } = list.value;
    expect(parts.map(({ price, coreCharge, stock }) => [price?.toFixed(2), coreCharge?.toFixed(2), stock])).toEqual([
      [undefined, undefined, 5],
      ["2.30", undefined, undefined],
      ["2.30", undefined, undefined],
    ]);
    expect(issues.join(" ")).toMatch(
      /Line 1 below the header, price: "€ 2,30" is not in USD; enter it in that, or set the currency in the terms\./u,
    );
    expect(issues.join(" ")).toMatch(/Line 3 below the header, core charge: "EUR 9" is not in USD/u);
    const euros = readPriceList(block, "EUR");
    expect(euros).toMatchObject({ ok: true, value: { issues: [expect.stringContaining('"$ 2.30" is not in EUR')] } });
  });

  it("leaves the shop's rates in its own currency, wherever it is named", () => {
    for (const [rate, currency, good] of [
      ["€ 80", "EUR", true],
      ["€ 80", "USD", false],
      ["80", "USD", true],
    ] as const) {
      const terms = readTerms([
        ["Labour rate", rate],
        ["Currency", currency],
      ]);
      expect(terms.ok || faultMessage(terms.fault)).toEqual(
        good || 'terms, labour rate: "€ 80" cannot be read; enter an amount in USD, or set the currency.',
      );
    }
  });

  it("is told from other lists with part numbers", () => {
    expect(isPriceHeader(SUPPLIERS[0]!)).toBe(true);
    expect(isPriceHeader(["Item #", "Description", "Retail"])).toBe(true);
    expect(isPriceHeader(QUOTE_COLUMNS)).toBe(false);
    expect(isPriceHeader(["Part number", "Cost"])).toBe(false);
  });
});
