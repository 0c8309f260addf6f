import Decimal from "decimal.js";
import type { Block, Cell } from "../../../src/core/cell";
import { quoteFromCells } from "../../../src/core/quote/quote-from-cells";
import { faultMessage } from "../../../src/core/result";
import { PRICES, TERMS } from "./shop";

describe("a quote as cells", () => {
  const cells = (verdict: Block, ...rest: [Block?, Block?, string?]): Cell[][] | string => {
    const r = quoteFromCells(verdict, rest[0] ?? PRICES, rest[1] ?? TERMS, { alternative: rest[2] ?? "" });
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
    expect(out.filter((r) => r[0] === "way").map((r) => [r[2], r[7]])).toEqual([
      ["1. Replace regulator-rectifier, new", ""],
      ["2. Replace regulator-rectifier, rebuilt", "quoted here"],
    ]);
    for (const r of out) expect(r).toHaveLength(8);
  });
  it("prints what the smallest coin adds, so that net, tax and rounding are the total", () => {
    const terms = [...TERMS, ["Smallest coin", 0.05]];
    const out = cells([["regulator-rectifier", "faulty"]], PRICES, terms) as Cell[][];
    const of = (kind: string) => new Decimal((out.find((r) => r[0] === kind)?.[5] as number | undefined) ?? 0);
    // 293.79 worked by hand above; to the next 0.05.
    expect([of("rounding").toNumber(), of("total").toNumber()]).toEqual([0.01, 293.8]);
    expect(of("net").plus(of("tax")).plus(of("rounding")).toNumber()).toBe(of("total").toNumber());
  });
  it("tells a few of the faults of a long price list, and how many more there are", () => {
    const long = (count: number) => [
      ["Part number", "Use", "Price", "Stock"],
      ...Array.from({ length: count }, (_, i) => [`P-${i}`, "fuse", 2, -1]),
    ];
    const told = (count: number, language: string) => {
      const r = quoteFromCells([["stator", "faulty"]], long(count), TERMS, { language });
      return r.ok ? r.value.slice(-6).map((row) => [row[0], row[2]]) : [];
    };
    expect(told(300, "en").map(([kind]) => kind)).toEqual(Array(6).fill("price list"));
    expect(told(300, "en").at(-1)).toEqual(["price list", "295 more"]);
    expect(told(300, "es").at(-1)![1]).toBe("295 más");
    expect(told(5, "en").at(-1)![1]).toMatch(/^Line 5 below the header, stock: -1/u);
  });
  it("takes what is known of the job over the shop's terms", () => {
    const r = quoteFromCells([["regulator-rectifier", "faulty"]], PRICES, TERMS, {
      job: [
        ["Warranty", "second failure in a month"],
        ["Machine", ""],
      ],
    });
    expect(r.ok && r.value.find((line) => line[0] === "total")![5]).toBe(0);
  });
  it("takes the faults from the causes, and every way where their cells are blank", () => {
    const verdict: Block = [["wiring", "faulty", 0.97, "Wiring: faulty (97 %)."]];
    const ways = (causes: Block) => {
      const r = quoteFromCells(verdict, PRICES, TERMS, { causes });
      return r.ok ? r.value.filter((line) => line[0] === "way").map((line) => line[2]) : faultMessage(r.fault);
    };
    expect(
      ways([
        ["Worn or sulfated battery and resistance in a phase connector", "battery and wiring", 0.6, "", ""],
        ["Resistance in a phase connector", "wiring", 0.3, "", ""],
        ["Main fuse or B+ lead open", "wiring", 0.02, "", ""],
      ]),
    ).toEqual(["1. Renew the phase connector"]);
    for (const nothing of [[[""]], [["not read", "", ""]], [["Weak rotor", "rotor", 0.9]]] as Block[])
      expect(ways(nothing)).toHaveLength(4);
    expect(ways([["Bad luck", "wiring", 0.9]])).toMatch(/^causes: "Bad luck, 0.9" cannot be read; enter the cells of/u);
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
    [
      "a warranty without its reason",
      [["stator", "faulty"]],
      undefined,
      [["Warranty", "yes"]],
      undefined,
      /terms, warranty: "yes".*the reason/,
    ],
    ["an unknown alternative", [["regulator-rectifier", "faulty"]], undefined, undefined, "9", /a number from 1 to 2/],
  ];
  it.each(refused)("refuses %s and says what to enter", (_, verdict, prices, terms, way, message) => {
    expect(cells(verdict, prices, terms, way)).toMatch(message);
  });
});
