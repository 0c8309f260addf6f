import { statorFunctions as chg } from "../../src/functions/stator";
import type { Cell } from "../../src/core/cell";

const text = (cell: Cell | undefined) => (typeof cell === "object" && cell !== null ? cell.message : cell);
const round = (cells: Cell[] | undefined) =>
  cells!.map((cell) => (typeof cell === "number" ? Number(cell.toPrecision(3)) : cell));
const MACHINE: Cell[][] = [
  ["No-load AC, nominal", "60 V"],
  ["No-load AC, nominal at", 3000],
  ["No-load AC, tolerance", 15],
  ["Winding resistance, lowest", 0.4],
  ["Winding resistance, highest", 0.6],
  ["Winding resistance, stated at", 20],
  ["Smallest step of the ohmmeter", 0.001],
];

describe("stator functions in cells", () => {
  it("BALANCE, VPERKRPM, LINEARITY, FREQUENCY, OHMSAT take numbers and text with units", () => {
    expect(round(chg.BALANCE([[460]], [["455 V"]], [["440"]])[0])).toEqual([0.0258]);
    expect(round(chg.BALANCE([["0.5 ohm"]], [[0.5]], [["500 mΩ"]])[0])).toEqual([0]);
    expect(chg.VPERKRPM([["61.5 VAC"]], [["3 krpm"]])).toEqual([[20.5]]);
    expect(chg.LINEARITY([[41]], [[2000]], [[102.5]], [[5000]])[0]![0]).toBeCloseTo(0, 12);
    expect(chg.FREQUENCY([[375]], [[16]])).toEqual([[50]]);
    expect(round(chg.OHMSAT([["600 mΩ"]], [["140 °F"]])[0])).toEqual([0.519]);
    expect(chg.OHMSAT([[0.5]], [[20]], [[20]])).toEqual([[0.5]]);
  });
  it("blank in, blank out; judgements say not read", () => {
    expect(chg.BALANCE([[460]], [[""]], [[440]])).toEqual([[""]]);
    expect(chg.VPERKRPM([[""]], [[3000]])).toEqual([[""]]);
    expect(chg.FREQUENCY([[null]], [[16]])).toEqual([[""]]);
    expect(chg.OHMSAT([[""]], [[20]])).toEqual([[""]]);
    expect(chg.WINDINGS([[""]], [[1]], [[1]], [["wye"]])).toEqual([["", "", "", ""]]);
    expect(chg.STATORAC([[""]], [[""]], [[""]], [[3000]])).toEqual([["not read", "", "", "", "", ""]]);
    expect(chg.STATOROHMS([[""]], [[""]], [[""]])).toEqual([["not read", "", "", "", "", "", ""]]);
    expect(chg.INSULATION([[""]], [[20]])).toEqual([["not read", "", "", "", ""]]);
  });
  it("STATORAC with and without the machine's figure", () => {
    expect(round(chg.STATORAC([[60]], [[60.2]], [[59.9]], [[3000]], MACHINE)[0]!.slice(0, 5))).toEqual([
      "pass",
      0.00278,
      20,
      51,
      69,
    ]);
    expect(round(chg.STATORAC([[60]], [[60.2]], [[59.9]], [[3000]])[0]!.slice(0, 5))).toEqual([
      "unsure",
      0.00278,
      20,
      "",
      "",
    ]);
    expect(round(chg.STATORAC([[49]], [[58.3]], [[49.8]], [[3000]])[0]!.slice(0, 5))).toEqual([
      "fail",
      0.113,
      17.5,
      "",
      "",
    ]);
    expect(
      chg.STATORAC([[60]], [[""]], [[""]], [[3000]], [...MACHINE, ["Alternator", "single-phase"]])[0]!.slice(0, 2),
    ).toEqual(["pass", ""]);
    expect(chg.STATORAC([[60]], [[60]], [[60]], [[""]], MACHINE)[0]![0]).toBe("unsure");
    expect(chg.STATORAC([[60]], [[60]], [[""]], [[3000]], MACHINE)[0]).toMatchObject({
      0: "unsure",
      5: expect.stringMatching(/Not every pair was read/),
    });
  });
  it("STATOROHMS: leads, temperature, machine, open windings", () => {
    expect(round(chg.STATOROHMS([[0.3]], [[0.3]], [[0.3]], [[0.1]], [[20]])[0]!.slice(0, 5))).toEqual([
      "unsure",
      0.2,
      0.2,
      0.2,
      expect.closeTo(0, 12),
    ]);
    expect(
      round(chg.STATOROHMS([["0.502 Ω"]], [[0.503]], [[0.502]], [[0.002]], [["68 °F"]], MACHINE)[0]!.slice(0, 5)),
    ).toEqual(["pass", 0.5, 0.501, 0.5, 0.00133]);
    const open = chg.STATOROHMS([["OL"]], [[0.7]], [["OL"]], [[0.1]], [[20]])[0]!;
    expect(open.slice(0, 4)).toEqual(["fail", "OL", expect.closeTo(0.6, 9), "OL"]);
    expect(open[6]).toMatch(/Terminal A has no path/);
  });
  it("WINDINGS: delta, wye, open; digits leave room", () => {
    expect(chg.WINDINGS([[8]], [[5]], [[9]], [["star"]])).toEqual([[6, 2, 3, ""]]);
    expect(round(chg.WINDINGS([[8]], [[5]], [[9]], [["Δ"]])[0]!.slice(0, 3))).toEqual([12, 6, 18]);
    expect(chg.WINDINGS([["OL"]], [[0.8]], [["OL"]], [["wye"]])[0]).toEqual([
      "open",
      0.4,
      0.4,
      expect.stringMatching(/Winding or lead A is open/),
    ]);
    expect(round(chg.WINDINGS([[0.7]], [[0.3]], [[0.3]], [["delta"]])[0]!.slice(0, 3))).toEqual(["open", 0.35, 0.35]);
    expect(round(chg.WINDINGS([[1.76]], [[0.88]], [[0.88]], [["delta"]])[0]!.slice(0, 3))).toEqual([
      "open",
      0.88,
      0.88,
    ]);
  });
  it("INSULATION: state, 40 °C, minimum, index", () => {
    expect(chg.INSULATION([[50]], [[20]])[0]!.slice(0, 4)).toEqual(["pass", 12.5, 5, ""]);
    expect(chg.INSULATION([["OL"]], [[""]])[0]!.slice(0, 4)).toEqual(["pass", "", 5, ""]);
    expect(text(chg.INSULATION([["12 mohm"]], [[20]])[0]![0])).toMatch(/can be read in two ways; write milliohm/);
    expect(chg.INSULATION([["12 megohm"]], [[20]])[0]![0]).toBe("fail");
    const [, , , index, reason] = chg.INSULATION([[300]], [[40]], [["form-wound"]], [[450]], [["F"]])[0]!;
    expect(index).toBe(1.5);
    expect(reason).toMatch(/Polarization index 1.50, IEEE 43 asks 2 of class F/);
  });
  it("bad input: one sentence that names the argument", () => {
    expect(text(chg.BALANCE([[0]], [[0]], [[0]])[0]![0])).toMatch(/^unbalance: three readings of zero/);
    expect(text(chg.BALANCE([["a lot"]], [[1]], [[1]])[0]![0])).toMatch(/^a: "a lot" cannot be read/);
    expect(text(chg.VPERKRPM([[60]], [[0]])[0]![0])).toMatch(/^rpm: 0 rpm is not possible; enter 1 to 20000 rpm\.$/);
    expect(text(chg.FREQUENCY([[3000]], [[7]])[0]![0])).toMatch(
      /^poles: "7" cannot be read; enter an even number from 2 to 60: poles, not pairs\.$/,
    );
    expect(text(chg.OHMSAT([[1]], [[900]])[0]![0])).toMatch(
      /^temperature: 900 °C is not possible; enter −40 to 250 °C\.$/,
    );
    expect(text(chg.WINDINGS([[3]], [[1]], [[1]], [["wye"]])[0]![0])).toMatch(
      /^line readings: A–B reads more than the other two together/,
    );
    expect(text(chg.WINDINGS([[3]], [[1]], [[1]], [["zigzag"]])[0]![0])).toMatch(
      /^connection: "zigzag" cannot be read; enter one of: delta, wye\.$/,
    );
    expect(text(chg.STATOROHMS([["0.4 mohm"]], [[1]], [[1]])[0]![0])).toMatch(
      /^reading A–B: .*can be read in two ways; write milliohm/,
    );
    expect(text(chg.STATORAC([[1]], [[1]], [[1]], [[3000]], [["No-load AC, nominal", "plenty"]])[0]![0])).toMatch(
      /No-load AC, nominal: "plenty" cannot be read/,
    );
    expect(text(chg.INSULATION([[5]], [[20]], [["basket"]])[0]![0])).toMatch(
      /^winding: "basket" cannot be read; enter one of: random-wound/,
    );
  });
  it("50,000 rows in one call, blanks and text among them", () => {
    const column = (at: (i: number) => Cell): Cell[][] =>
      Array.from({ length: 50_000 }, (_, i) => [i % 10 === 3 ? "" : i % 10 === 7 ? "?" : at(i)]);
    const ac = chg.STATORAC(
      column((i) => 60 + (i % 5) / 10),
      [[60]],
      [[60]],
      [[3000]],
      MACHINE,
    );
    expect(ac).toHaveLength(50_000);
    expect(ac.filter((row) => typeof row[0] === "object")).toHaveLength(5000);
    expect(ac.filter((row) => row[0] === "pass")).toHaveLength(40_000);
    expect(
      chg
        .BALANCE(
          column(() => 1),
          [[1]],
          [[1.1]],
        )
        .filter(([cell]) => typeof cell === "number"),
    ).toHaveLength(40_000);
    const ohms = chg.STATOROHMS(
      column(() => 0.5),
      [[0.5]],
      [[0.5]],
      [[0]],
      [[20]],
      MACHINE,
    );
    expect(ohms.filter((row) => row[0] === "unsure" || row[0] === "pass")).toHaveLength(45_000);
    expect(
      chg
        .WINDINGS(
          column(() => 1),
          [[1]],
          [[1]],
          [["delta"]],
        )
        .filter((row) => row[0] === ""),
    ).toHaveLength(5000);
    expect(
      chg
        .INSULATION(
          column(() => 100),
          [[20]],
        )
        .filter((row) => row[0] === "pass"),
    ).toHaveLength(40_000);
    expect(
      chg
        .OHMSAT(
          column(() => 1),
          [[20]],
        )
        .filter(([cell]) => cell === 1),
    ).toHaveLength(40_000);
  });
});
