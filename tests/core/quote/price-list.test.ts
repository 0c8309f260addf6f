import type { Block } from "../../../src/core/cell";
import { isPriceHeader } from "../../../src/core/quote/price-columns";
import { readPriceList } from "../../../src/core/quote/price-list";
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

  it("still refuses a use that is none", () => {
    const list = readPriceList([
      ["Part no", "Use", "Price"],
      ["X-1", "engine", 5],
    ]);
    expect(list).toMatchObject({
      ok: true,
      value: { parts: [], issues: [expect.stringMatching(/use: "engine" is none of/)] },
    });
  });

  it("is told from other lists with part numbers", () => {
    expect(isPriceHeader(SUPPLIERS[0]!)).toBe(true);
    expect(isPriceHeader(["Item #", "Description", "Retail"])).toBe(true);
    expect(isPriceHeader(QUOTE_COLUMNS)).toBe(false);
    expect(isPriceHeader(["Part number", "Cost"])).toBe(false);
  });
});
