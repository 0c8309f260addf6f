import Big from "big.js";
import Decimal from "decimal.js";
import fc from "fast-check";
import type { Block, Cell } from "../../../src/core/cell";
import { quoteFromCells } from "../../../src/core/quote/quote-from-cells";
import { readPriceList, decimalOf } from "../../../src/core/quote/price-list";
import { isOutdated, quote, type QuotedVerdict } from "../../../src/core/quote/quote";
import { readTerms } from "../../../src/core/quote/terms";
import { faultMessage } from "../../../src/core/result";

const PRICES: Block = [
  [
    "Part number",
    "Description",
    "Use",
    "Condition",
    "Fits",
    "Cost",
    "Price",
    "Margin",
    "Core charge",
    "Deposit",
    "Stock",
    "Lead days",
    "Superseded by",
  ],
  ["RR-100", "Regulator-rectifier", "regulator-rectifier", "new", "Ridge 450", 60, 119.9, "", 15, "", 0, 4, "RR-110"],
  [
    "RR-110",
    "Regulator-rectifier, later kind",
    "regulator-rectifier",
    "new",
    "Ridge 450",
    60,
    "124,90",
    "",
    15,
    "",
    2,
    4,
    "",
  ],
  ["RR-110", "Regulator-rectifier", "regulator-rectifier", "rebuilt", "Ridge 450", 40, 79.5, "", "", "", 1, "", ""],
  ["B-14", "Battery 14 Ah", "battery", "", "any", 52, "", "35 %", "", 5, 3, "", ""],
  ["CN-3", "Connector, three ways", "connector", "", "", "", 8.35, "", "", "", 10, "", ""],
  ["T-6", "Ring terminal", "terminal", "", "", "", 1.15, "", "", "", 50, "", ""],
];
const TERMS: Block = [
  ["Labour rate", 95],
  ["Diagnosis minutes", 30],
  ["Shop supplies", "5 %"],
  ["Shop supplies, at most", 12],
  ["Tax on parts", "7 %"],
  ["Tax on labour", "7 %"],
  ["Currency", "USD"],
  ["Machine", "Ridge 450"],
  ["Part number", "RR-100"],
];
const faulty: QuotedVerdict = {
  part: "regulator-rectifier",
  state: "faulty",
  sentence: "The regulator-rectifier is faulty.",
};

function made(verdict: QuotedVerdict, prices = PRICES, terms = TERMS) {
  const [list, known] = [readPriceList(prices), readTerms(terms)];
  if (!list.ok) throw new Error(faultMessage(list.fault));
  if (!known.ok) throw new Error(faultMessage(known.fault));
  const result = quote(verdict, list.value, known.value);
  if (!result.ok) throw new Error(faultMessage(result.fault));
  return result.value;
}

describe("a quote from a verdict", () => {
  it("sells a proven part, follows superseded-by, and puts new and rebuilt side by side", () => {
    const { kind, alternatives } = made(faulty);
    expect(kind).toBe("repair");
    expect(alternatives.map((a) => a.name)).toEqual([
      "Replace regulator-rectifier, new",
      "Replace regulator-rectifier, rebuilt",
    ]);
    expect(alternatives[0]!.lines.map((l) => [l.kind, l.partNumber, l.net.toFixed(2), l.note])).toEqual([
      ["part", "RR-110", "124.90", "in stock"],
      ["core charge", "RR-110", "15.00", ""],
      ["material", "CN-3", "8.35", "in stock"],
      ["labour", "", "76.00", "hours by common practice"],
      ["testing", "", "47.50", "30 min"],
      ["supplies", "", "3.80", ""],
    ]);
    // 124.90 + 15.00 + 8.35 + 76.00 + 47.50 + 3.80, worked by hand; tax 7 % line by line, none on the core charge.
    expect(alternatives[0]!.net.toFixed(2)).toBe("275.55");
    expect(alternatives[0]!.tax.toFixed(2)).toBe("18.24");
    expect(alternatives[0]!.total.toFixed(2)).toBe("293.79");
  });
  it.each(["suspect", "unproven"] as const)(
    "does not sell a part that is only %s: the further check is quoted",
    (state) => {
      const { kind, reason, alternatives } = made({
        ...faulty,
        state,
        nextCheck: { label: "Diode check", minutes: 12 },
      });
      expect(kind).toBe("further check");
      expect(reason).toMatch(/not proven, so it is not sold/);
      expect(alternatives).toHaveLength(1);
      expect(alternatives[0]!.lines.map((l) => [l.kind, l.net.toFixed(2)])).toEqual([
        ["testing", "47.50"],
        ["further check", "19.00"],
      ]);
    },
  );
  it("quotes no part where no fault was found", () => {
    const result = made({ state: "serviceable", sentence: "No fault found." });
    expect(result.kind).toBe("none");
    expect(result.alternatives[0]!.lines.map((l) => l.kind)).toEqual(["testing"]);
  });
  it("prices a joint as labour and material, repair beside replacement, and names what has no price", () => {
    const { alternatives } = made({ part: "wiring", state: "faulty", sentence: "Joint." });
    expect(alternatives.map((a) => [a.name, a.missing])).toEqual([
      ["Renew the joint", []],
      ["Replace the cable run", ["cable: no row in the price list"]],
    ]);
  });
  it("works out a price from cost and margin of the selling price, and asks the deposit", () => {
    const { alternatives } = made({ part: "battery", state: "faulty", sentence: "" });
    expect(alternatives[0]!.lines.slice(0, 2).map((l) => [l.kind, l.net.toFixed(2)])).toEqual([
      ["part", "80.00"],
      ["deposit", "5.00"],
    ]);
  });
  it("never chooses between two prices", () => {
    const twice = [...PRICES, ["B-14", "Battery 14 Ah", "battery", "new", "", "", 99, "", "", "", "", "", ""]];
    const { alternatives, issues } = made({ part: "battery", state: "faulty", sentence: "" }, twice);
    expect(issues).toEqual(["Rows 5 and 8: B-14 (new) has two prices; keep one."]);
    expect(alternatives[0]!.missing).toContain("B-14: two prices in the list");
    expect(alternatives[0]!.lines.some((l) => l.kind === "part")).toBe(false);
  });
  it("prices warranty work at zero with its reason", () => {
    const { alternatives } = made(faulty, PRICES, [...TERMS, ["Warranty", "part failed within 12 months"]]);
    const charged = alternatives[0]!.lines.filter((l) => !l.net.eq(0)).map((l) => l.kind);
    expect(charged).toEqual(["core charge"]);
    expect(alternatives[0]!.lines[0]!.note).toBe("Warranty: part failed within 12 months");
  });
  it("marks a quote as outdated when part or state of the verdict changed", () => {
    expect(isOutdated(faulty, { ...faulty })).toBe(false);
    expect(isOutdated(faulty, { ...faulty, state: "suspect" })).toBe(true);
    expect(isOutdated(faulty, { part: "stator", state: "faulty" })).toBe(true);
  });
  it("a superseded loop ends", () => {
    const loop = [
      PRICES[0]!,
      ["A", "", "battery", "", "", "", 10, "", "", "", "", "", "B"],
      ["B", "", "battery", "", "", "", 11, "", "", "", "", "", "A"],
    ];
    expect(made({ part: "battery", state: "faulty", sentence: "" }, loop).alternatives.length).toBeGreaterThan(0);
  });
});

describe("a quote as cells", () => {
  const cells = (verdict: Block, ...rest: [Block?, Block?, string?, Block?]): Cell[][] | string => {
    const r = quoteFromCells(verdict, rest[0] ?? PRICES, rest[1] ?? TERMS, rest[2] ?? "", rest[3] ?? [[""]]);
    return r.ok ? r.value : faultMessage(r.fault);
  };
  it("is blank while there is no verdict", () => {
    expect(cells([["not read", "", "", ""]])).toEqual([[""]]);
    expect(cells([["", "", "", ""]])).toEqual([[""]]);
  });
  it("adds up as printed, and shows the other way", () => {
    const out = cells([["regulator-rectifier", "faulty", 0.97, "Proven."]], undefined, undefined, "2") as Cell[][];
    const lines = out.slice(2).filter((r) => typeof r[3] === "number");
    const net = out.find((r) => r[2] === "Net")![5];
    expect(lines.reduce((t, r) => t.plus(r[5] as number), new Decimal(0)).toNumber()).toBe(net);
    expect(out.find((r) => r[0] === "other way")![2]).toBe("Replace regulator-rectifier, new");
    for (const r of out) expect(r).toHaveLength(8);
  });
  const refused: [string, Block, Block | undefined, Block | undefined, string | undefined, RegExp][] = [
    ["a foreign part", [["gearbox", "faulty"]], undefined, undefined, undefined, /verdict, part: "gearbox"/],
    ["a foreign state", [["stator", "bad"]], undefined, undefined, undefined, /verdict, state: "bad"/],
    [
      "prices without part numbers",
      [["stator", "faulty"]],
      [
        ["Use", "Price"],
        ["stator", 3],
      ],
      undefined,
      undefined,
      /part number is missing/,
    ],
    [
      "a wrong rate",
      [["stator", "faulty"]],
      undefined,
      [["Labour rate", "abc"]],
      undefined,
      /terms, labour rate: "abc"/,
    ],
    [
      "a tax of seven",
      [["stator", "faulty"]],
      undefined,
      [["Tax on parts", 7]],
      undefined,
      /share such as 0.07 or 7 %/,
    ],
    ["an unknown alternative", [["regulator-rectifier", "faulty"]], undefined, undefined, "9", /a number from 1 to 2/],
  ];
  it.each(refused)("refuses %s and says what to enter", (_, verdict, prices, terms, way, message) => {
    expect(cells(verdict, prices, terms, way)).toMatch(message);
  });
});

describe("amounts", () => {
  it.each([
    ["12.50", "12.5"],
    ["12,50", "12.5"],
    ["1'234.50", "1234.5"],
    ["1.234,50", "1234.5"],
    ["1,234.50", "1234.5"],
    ["$ 12.50", "12.5"],
    ["35 %", "0.35"],
    ["EUR 7", "7"],
    [".5", "0.5"],
  ])("%s", (typed, expected) => {
    expect(decimalOf(typed)?.toFixed()).toBe(expected);
  });
  it.each(["abc", "1,234", "12..5", "", "1-2"])("%p is not guessed", (typed) => {
    expect(decimalOf(typed)).toBeUndefined();
  });
});

describe("[cross-check decimal.js] totals", () => {
  it("of a thousand random quotes add up to the cent, line by line", () => {
    const cents = fc.integer({ min: 0, max: 500000 }).map((c) => c / 100);
    const rate = fc.integer({ min: 0, max: 2500 }).map((r) => r / 10000);
    fc.assert(
      fc.property(
        cents,
        cents,
        cents,
        rate,
        rate,
        rate,
        fc.integer({ min: 0, max: 300 }),
        fc.constantFrom("line", "total"),
        fc.constantFrom("half up", "half even"),
        (price, core, labour, tp, tl, sup, minutes, on, rounding) => {
          const { alternatives } = made(
            faulty,
            [PRICES[0]!, ["X", "", "regulator-rectifier", "", "", "", price, "", core, "", "", "", ""]],
            [
              ["Labour rate", labour],
              ["Tax on parts", tp],
              ["Tax on labour", tl],
              ["Shop supplies", sup],
              ["Diagnosis minutes", minutes],
              ["Tax figured on", on],
              ["Rounding", rounding],
            ],
          );
          const a = alternatives[0]!;
          const mode = rounding === "half up" ? Decimal.ROUND_HALF_UP : Decimal.ROUND_HALF_EVEN;
          const cent = (x: Decimal) => x.toDecimalPlaces(2, mode);
          const D = (x: number | Big) => new Decimal(x.toString());
          const labourNet = cent(D(labour).times("0.8"));
          const testing = cent(D(labour).times(minutes).div(60));
          const supplies = cent(labourNet.times(sup));
          const net = D(price).plus(core).plus(labourNet).plus(testing).plus(supplies);
          expect(a.net.toFixed(2)).toBe(net.toFixed(2));
          const tax =
            on === "line"
              ? [
                  [D(price), tp],
                  [labourNet, tl],
                  [testing, tl],
                  [supplies, tp],
                ].reduce((t, [n, r]) => t.plus(cent((n as Decimal).times(r as number))), new Decimal(0))
              : cent(D(price).plus(supplies).times(tp)).plus(cent(labourNet.plus(testing).times(tl)));
          expect(a.tax.toFixed(2)).toBe(tax.toFixed(2));
          expect(a.total.toFixed(2)).toBe(net.plus(tax).toFixed(2));
        },
      ),
      { numRuns: 1000, seed: 20260 },
    );
  });
});
