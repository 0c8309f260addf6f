import { wiringFunctions as chg } from "../../src/functions/wiring";
import type { Cell } from "../../src/core/cell";

const text = (cell: Cell | undefined) => (typeof cell === "object" && cell !== null ? cell.message : cell);

describe("wiring functions in cells", () => {
  it("takes sizes as printed, lengths in any unit, kinds by name or class", () => {
    expect(chg.WIREOHMS([["10 AWG"]], [["1000 ft"]])[0]![0]).toBeCloseTo(0.9989, 3);
    expect(chg.WIREOHMS([["2.5 mm²"]], [[1000]], [[""]], [["class 5 tinned"]])[0]![0]).toBeCloseTo(8.21, 9);
    expect(chg.WIREOHMS([["2 mm²"]], [[1000]], [[20]], [["ISO 6722"]])[0]![0]).toBeCloseTo(9.42, 9);
  });
  it("blank in, blank out; a joint that was not read says so", () => {
    expect(chg.WIREOHMS([[""]], [[3]])).toEqual([[""]]);
    expect(chg.DROP([["10 AWG"]], [[3]], [[""]])).toEqual([[""]]);
    expect(chg.JOINT([[""]], [[10]])).toEqual([["", "", "", "not read", ""]]);
  });
  it("takes the allowed drop as volts or as a run", () => {
    const state = (allowed: Cell) => chg.JOINT([["150 mV"]], [[20]], [[allowed]])[0]![3];
    expect(["", 0.2, "0.2 V", "connection", "ground run", "B+ run"].map(state)).toEqual([
      "fail",
      "pass",
      "pass",
      "fail",
      "pass",
      "pass",
    ]);
    expect(text(chg.JOINT([[0.1]], [[20]], [["the brown one"]])[0]![0])).toMatch(
      /allowed: "the brown one" cannot be read; enter one of: connection, B\+ run/,
    );
    expect(text(chg.JOINT([[0.1]], [[20]], [[900]])[0]![0])).toMatch(/allowed: 900 V is not possible/);
  });
  it("50,000 rows in one call, blanks and text among them", () => {
    const column: Cell[][] = Array.from({ length: 50_000 }, (_, i) => [
      i % 10 === 3 ? "" : i % 10 === 7 ? "loose" : 0.02 + (i % 20) / 100,
    ]);
    const out = chg.JOINT(column, [[18]], [["connection"]]);
    expect(out).toHaveLength(50_000);
    expect(out.filter((row) => row[3] === "not read")).toHaveLength(5000);
    expect(out.filter((row) => typeof row[3] === "object")).toHaveLength(5000);
    expect(chg.DROP([["10 AWG"]], column, [[20]]).filter(([cell]) => typeof cell === "number")).toHaveLength(40_000);
  });
});
