import { batteryFunctions as chg } from "../../src/functions/battery";
import type { Cell } from "../../src/core/cell";

const text = (cell: Cell | undefined) => (typeof cell === "object" && cell !== null ? cell.message : cell);

describe("battery functions in cells", () => {
  it("text with a unit equals the number; a decimal comma is read", () => {
    for (const typed of [12.6, "12.6", "12.6 V", "12,6", "12600 mV"])
      expect(chg.SOC([[typed]], [["flooded"]])).toEqual(chg.SOC([[12.6]], [["flooded"]]));
    expect(chg.LOADLIMIT([["70F"]])).toEqual([[9.6]]);
    expect(chg.DRAINDAYS([["14 Ah"]], [["100 %"]], [["50%"]], [["0.03 A"]])).toEqual(
      chg.DRAINDAYS([[14]], [[1]], [[0.5]], [[30]]),
    );
  });

  it("blank in, blank out; judging functions say not read", () => {
    for (const blank of ["", null, undefined, [[""]]]) {
      expect(chg.SOC(blank as Cell[][], [["agm"]])).toEqual([[""]]);
      expect(chg.LOADTEST(blank as Cell[][], [[150]], [[300]], [[15]])).toEqual([["not read", "", "", ""]]);
      expect(chg.CELLSPREAD(blank as Cell[][])).toEqual([["not read", "", "", ""]]);
    }
    expect(chg.GRAVITY([[1.25]], [[""]])).toEqual([[""]]);
  });

  it("a range keeps its shape, blanks and text among the readings", () => {
    const out = chg.SOC(
      [
        [12.65, ""],
        ["low", 11.89],
        [900, 12.06],
      ],
      [["flooded"]],
    );
    expect(out.map((row) => row.map(text))).toEqual([
      [1, ""],
      ['volts: "low" cannot be read; enter a number in V.', 0],
      ["volts: 900 V is not possible; enter 0 to 20 V.", 0.25],
    ]);
  });

  it("50,000 rows in one call, a tenth of them blank and a tenth text", () => {
    const column: Cell[][] = Array.from({ length: 50_000 }, (_, i) => [
      i % 10 === 3 ? "" : i % 10 === 7 ? "low" : 11.9 + (i % 70) / 100,
    ]);
    const soc = chg.SOC(column, [["flooded"]]);
    const band = chg.SOCBAND(column, [["agm"]], [[5]]);
    const test = chg.LOADTEST(column, [[150]], [[300]], [[15]], [[20]], [[12.7]]);
    expect([soc.length, band.length, test.length]).toEqual([50_000, 50_000, 50_000]);
    expect(soc.filter(([cell]) => cell === "")).toHaveLength(5000);
    expect(soc.filter(([cell]) => typeof cell === "number")).toHaveLength(40_000);
    expect(test.filter(([state]) => state === "pass")).toHaveLength(40_000);
    expect(test.filter(([state]) => state === "not read")).toHaveLength(5000);
  });

  it("names the argument, what came and what is expected", () => {
    const message = (cells: Cell[][]) => text(cells[0]![0]);
    expect(message(chg.SOC([[12.6]], [["nickel"]]))).toBe(
      'type: "nickel" cannot be read; enter one of: flooded, calcium, agm, gel, lithium.',
    );
    expect(message(chg.SOC([[12.6]], [["agm"]], [[""]], [[""]], [[8]]))).toBe(
      'nominal: "8 V" cannot be read; enter 6 or 12.',
    );
    expect(message(chg.SOC([[12.6]], [["agm"]], [["0.9 kohm"]]))).toMatch(
      /^temperature: "0.9 kohm" cannot be read; enter a number in °C/,
    );
    expect(message(chg.RUNTIME([[70]], [[20]], [[3.5]], [[7]]))).toBe("k: 7 is not possible; enter 1 to 2.");
    expect(
      message(
        chg.SOC(
          [
            [12.6, 12.5],
            [1, 2],
          ],
          [["agm"], ["gel"], ["agm"]],
        ),
      ),
    ).toMatch(/does not fit/);
  });

  it("a nominal voltage of a blank cell that arrives as 0 is blank", () => {
    expect(chg.SOC([[12.45]], [["flooded"]], [[""]], [[""]], [[0]])).toEqual([[0.75]]);
    expect(chg.RESTVOLTS([[0.5]], [["flooded"]], [["6 V"]])).toEqual([[6.12]]);
  });
});
