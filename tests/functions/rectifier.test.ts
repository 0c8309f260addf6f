import { rectifierFunctions as chg } from "../../src/functions/rectifier";
import type { Cell } from "../../src/core/cell";

const text = (cell: Cell | undefined) => (typeof cell === "object" && cell !== null ? cell.message : cell);
const CASE: Cell[][] = [
  [0.121, "124 mV", ".119"],
  ["0,503 V", 0.498, 0.506],
  ["OL", "O.L", "open"],
  ["OL", "OL", "∞"],
];

describe("DIODES in cells", () => {
  it("the case: unproven by itself, serviceable with the kind or with a known-good part", () => {
    const [upper, lower, upperReverse, lowerReverse, part] = chg.DIODES(CASE) as [
      Cell[],
      Cell[],
      Cell[],
      Cell[],
      Cell[],
    ];
    expect([upper, lower, upperReverse, lowerReverse]).toEqual([
      Array(3).fill("conducts"),
      Array(3).fill("conducts"),
      Array(3).fill("blocks"),
      Array(3).fill("blocks"),
    ]);
    expect(part[0]).toBe("unproven");
    expect(part[2]).toMatch(/known-good part/);
    const known = chg.DIODES(CASE, [["Upper bank in parallel with control circuits"]]);
    expect(known[0]).toEqual(Array(3).fill("parallel path"));
    expect(known[4]).toEqual([
      "serviceable",
      expect.stringMatching(/hide behind the parallel path/),
      expect.any(String),
    ]);
    expect(chg.DIODES(CASE, [["unknown"]], CASE)[4]![0]).toBe("serviceable");
    expect(chg.DIODES(CASE, [[""]], [...CASE, ...CASE, ...CASE])[4]![0]).toBe("serviceable");
    expect(chg.DIODES(CASE, [[""]], [CASE.flat()])[4]![0]).toBe("serviceable");
  });
  it("blocks below each other, each with its own kind", () => {
    const out = chg.DIODES([...CASE, ...CASE], [["parallel path"], [""]]);
    expect(out).toHaveLength(10);
    expect([out[4]![0], out[9]![0]]).toEqual(["serviceable", "unproven"]);
  });
  it("single phase: two columns, reason and next step share a cell", () => {
    const out = chg.DIODES([
      [0.5, 0.51],
      [0.5, 0.5],
      ["OL", "OL"],
      ["OL", ""],
    ]);
    expect(out).toHaveLength(5);
    expect(out[3]).toEqual(["blocks", "not read"]);
    expect(out[4]).toEqual(["unproven", "Not read: lower reverse B. Next: Read lower reverse B."]);
  });
  it("nothing read: not read, never an error", () => {
    const out = chg.DIODES(Array.from({ length: 4 }, () => ["", null, " "]));
    expect(out.slice(0, 4).flat()).toEqual(Array(12).fill("not read"));
    expect(out[4]).toEqual(["not read", "", ""]);
  });
  it("a phase of zeros may be blanks that the host made zeros: suspect, never faulty; one zero too few is a reading", () => {
    const part = (c: Cell) =>
      chg.DIODES([
        [0.5, 0.5, 0],
        [0.5, 0.5, 0],
        ["OL", "OL", 0],
        ["OL", "OL", c],
      ])[4]!;
    expect(part(0)).toEqual([
      "suspect",
      expect.stringMatching(/^Phase C stands as 0 in all four rows/),
      expect.stringMatching(/write 0.001/),
    ]);
    expect(part(0.001)[0]).toBe("faulty");
    expect(
      chg.DIODES([
        [0.5, 0, 0],
        [0.5, 0.5, 0],
        ["OL", 0.001, 0],
        ["OL", "OL", 0],
      ])[4]![0],
    ).toBe("faulty");
  });
  it("temperature, test current and the shop's meter count", () => {
    const hot: Cell[][] = [
      [0.34, 0.35, 0.34],
      [0.33, 0.34, 0.34],
      ["OL", "OL", "OL"],
      ["OL", "OL", "OL"],
    ];
    const state = (...more: unknown[]) =>
      chg.DIODES(hot, [["plain diodes"]], [[""]], ...(more as [Cell[][], Cell, Cell]))[4]![0];
    expect(state([[""]], "", "")).toBe("unproven");
    expect(state([[""]], "185 °F", "")).toBe("serviceable");
    expect(state([[""]], [["85 °C"]], [["1 mA"]])).toBe("serviceable");
    expect(state([["Diode check", 0.3, 1, 2, 0.001]], 85, "")).toBe("unproven");
  });
  it("bad input: one sentence that names the cell", () => {
    const message = (...given: unknown[]) => text((chg.DIODES as (...g: unknown[]) => Cell[][])(...given)[0]![0]);
    expect(
      message([
        [0.5, 0.5, "about half"],
        [0.5, 0.5, 0.5],
        ["OL", "OL", "OL"],
        ["OL", "OL", "OL"],
      ]),
    ).toMatch(/^upper forward C: "about half" cannot be read; enter a number in V, or OL for over-range\.$/);
    expect(
      message([
        [0.5, 520, 0.5],
        [0.5, 0.5, 0.5],
        ["OL", "OL", "OL"],
        ["OL", "OL", "OL"],
      ]),
    ).toMatch(/^upper forward B: 520 V is not possible; enter 0 to 4 V\.$/);
    expect(message([[0.5, 0.5, 0.5]])).toMatch(/^block: a range of 1 × 3 cells does not fit; give 4 rows/);
    expect(message(CASE, [["bridge of sighs"]])).toMatch(
      /^kind: "bridge of sighs" cannot be read; enter one of: plain diodes/,
    );
    expect(message(CASE, [["plain"], ["plain"]])).toMatch(/^kind: 2 cells does not fit/);
    expect(
      message(CASE, "", [
        [0.5, 0.5],
        [0.5, 0.5],
        ["OL", "OL"],
        ["OL", "OL"],
      ]),
    ).toMatch(/known-good parts: 2 phases does not fit; give 3 phases/);
    expect(message(CASE, "", "", "", 900)).toMatch(/temperature: 900 °C is not possible/);
    expect(message(CASE, "", "", "", "", "50 A")).toMatch(/test current: 50000 mA is not possible/);
  });
  it("50,000 parts in one call, one a row, blanks and text among them", () => {
    const good: Cell[] = [0.52, 0.51, 0.52, 0.5, 0.5, 0.5, "OL", "OL", "OL", "OL", "OL", "OL"];
    const shorted: Cell[] = [0.52, 0, 0.52, 0.5, 0.5, 0.5, "OL", 0.001, "OL", "OL", "OL", "OL"];
    const rows = Array.from({ length: 50_000 }, (_, i) =>
      i % 10 === 3 ? good.map(() => "") : i % 10 === 5 ? ["?", ...good.slice(1)] : i % 10 === 7 ? shorted : good,
    );
    const out = chg.DIODES(rows, [["plain"]], [good, good, good]);
    expect(out).toHaveLength(50_000);
    expect(out[0]).toHaveLength(15);
    const count = (state: Cell) => out.filter((row) => row[12] === state).length;
    expect([count("serviceable"), count("faulty"), count("not read")]).toEqual([35_000, 5000, 5000]);
    expect(out.filter((row) => typeof row[12] === "object" && typeof row[0] === "object")).toHaveLength(5000);
  });
});

describe("KNOWNGOOD in cells", () => {
  it("five parts: interval, count, mean, deviation, factor, words", () => {
    const [row] = chg.KNOWNGOOD([[0.5], ["0.51 V"], ["520 mV"], [0.53], [0.54], [""]]);
    expect(row!.slice(0, 6).map((cell) => Number((cell as number).toPrecision(3)))).toEqual([
      0.44, 0.6, 5, 0.52, 0.0158, 5.08,
    ]);
    expect(row![6]).toBe("tolerance interval of 5 known-good parts (95 % of parts, 95 % confidence)");
  });
  it("one part: stated spread, no factor; none: blank", () => {
    expect(chg.KNOWNGOOD([[0.5]])[0]).toEqual([
      0.45,
      0.55,
      1,
      0.5,
      "",
      "",
      "reading by reading against 1 known-good part",
    ]);
    expect(chg.KNOWNGOOD([["", null]])).toEqual([["", "", "", "", "", "", ""]]);
  });
  it("any reading of the catalogue, with its unit and meter", () => {
    const [row] = chg.KNOWNGOOD([["0.52 ohm", 0.52, 0.52]], "", "", "Winding resistance, A–B");
    expect(row![0]).toBeLessThan(0.52);
    expect((row![1] as number) - (row![0] as number)).toBeGreaterThan(0.1);
    expect(chg.KNOWNGOOD([[12.4, 12.5, 12.6]], "90 %", 0.99, "rested voltage")[0]![5]).toBeCloseTo(18.782, 3);
  });
  it("bad input: one sentence", () => {
    const message = (...given: unknown[]) => text((chg.KNOWNGOOD as (...g: unknown[]) => Cell[][])(...given)[0]![0]);
    expect(message([["OL", 0.5]])).toMatch(/numbers only/);
    expect(message([[0.5]], 1)).toMatch(/coverage: 1 is not possible; enter 0.5 to 0.9999/);
    expect(message([[0.5]], "", "", "colour")).toMatch(/reading: "colour" cannot be read/);
    expect(message([["high"]])).toMatch(/"high" cannot be read/);
  });
  it("50,000 readings in one call, blanks among them", () => {
    const column: Cell[][] = Array.from({ length: 50_000 }, (_, i) => [i % 10 === 3 ? "" : 0.5 + (i % 7) / 1000]);
    expect(chg.KNOWNGOOD(column)[0]!.slice(2, 4)).toEqual([45_000, expect.closeTo(0.503, 4)]);
  });
});
