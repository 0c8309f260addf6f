import { chargingFunctions as CHG } from "../../src/functions/charging";
import { isCellError } from "../../src/core/cell";

const MACHINE = [
  ["Battery type", "agm"],
  ["Battery capacity", 14],
  ["Rated output", 400],
  ["Rated output at", 5000],
  ["No-load AC, nominal", 95],
  ["No-load AC, nominal at", 5000],
  ["Regulator works by", "shunt"],
  ["Load with lights on, nominal", 14],
  ["Rested voltage", 12.7],
];
const column = (...values: unknown[]) => values.map((value) => [value]);

describe("charging functions in cells", () => {
  it("[BAND] three cells side by side, blanks stay blank, one call for many rows", () => {
    expect(CHG.BAND([["agm"]])).toEqual([[13.5, 14.4, 15]]);
    const rows = CHG.BAND(column("agm", "", "flooded"), [[45]]);
    expect(rows[1]).toEqual(["", "", ""]);
    expect(rows[0]![0]).toBeLessThan(13.5);
    expect(rows).toHaveLength(3);
  });
  it("[BAND] a blank speed that arrives as 0 is no speed", () => {
    expect(CHG.BAND([["agm"]], [[25]], MACHINE, [[0]], [[0]])).toEqual(CHG.BAND([["agm"]], [[25]], MACHINE));
  });
  it("[BAND] faults carry their sentence", () => {
    const [[cell]] = CHG.BAND([["agm"]], [[900]]) as [[{ error: string; message: string }]];
    expect(cell).toMatchObject({ error: "#VALUE!", message: expect.stringContaining("−60 to 90 °C") as string });
    const [[word]] = CHG.BAND([["nicad"]]) as [[{ message: string }]];
    expect(word.message).toContain("flooded");
  });

  it("[OUTPUT] volts, amps, band and what limits, per speed", () => {
    const [slow, fast, blank] = CHG.OUTPUT(MACHINE, column(800, 5000, ""));
    expect(slow![4]).toBe("machine");
    expect(fast![4]).toBe("regulator");
    expect(fast![0]).toBeGreaterThan(slow![0] as number);
    expect(blank).toEqual(["", "", "", "", ""]);
  });
  it("[OUTPUT, CURVE, BREAKEVEN, BUDGET, RIPPLE, HEAT] no machine, no guess", () => {
    for (const rows of [
      CHG.OUTPUT([[null]], [[3000]]),
      CHG.CURVE([[""]], [[3000]]),
      CHG.BREAKEVEN([[null]]),
      CHG.BUDGET([[null]]),
      CHG.RIPPLE([[null]], [[3000]]),
      CHG.HEAT([[null]], [[3000]]),
    ]) {
      expect(rows[0]![0]).toMatchObject({
        error: "#VALUE!",
        message: expect.stringContaining("machine is missing") as string,
      });
    }
  });
  it("[OUTPUT] machine data that cannot be are refused with the range", () => {
    const [[cell]] = CHG.OUTPUT([["Poles", 0]], [[3000]]) as [[{ message: string }]];
    expect(cell.message).toBe("Poles: 0 is not possible; enter 2 to 60.");
  });
  it.each([
    ["negative ohms", ["Winding resistance, lowest", -0.1], "−0.1 Ω is not possible; enter 0 to 100 Ω."],
    ["5 kV at idle", ["No-load AC, nominal", 5000], "5000 V AC is not possible; enter 2 to 400 V AC."],
    ["a band upside down", ["Regulated voltage, lowest", 16], "is above the highest"],
  ])("[every charging function] %s is refused in words", (_, row, words) => {
    const machine = [...MACHINE.filter(([label]) => label !== row[0]), ["Regulated voltage, highest", 15], row];
    for (const block of [
      CHG.BAND([["agm"]], [[25]], machine),
      CHG.RUNNING([[12.7]], [[13.4]], [[14.3]], [["agm"]], [[25]], machine),
      CHG.OUTPUT(machine, [[3000]]),
      CHG.CURVE(machine, [[3000]]),
      CHG.BREAKEVEN(machine),
      CHG.BUDGET(machine),
      CHG.RIPPLE(machine, [[3000]]),
      CHG.HEAT(machine, [[3000]]),
    ]) {
      expect(block[0]![0]).toMatchObject({ error: "#VALUE!", message: expect.stringContaining(words) as string });
    }
  });

  it("[CURVE] rows that chart: speed first, band round the likely voltage", () => {
    const rows = CHG.CURVE(MACHINE, column(600, 1200, 2400, 4800));
    expect(rows.map((row) => row[0])).toEqual([600, 1200, 2400, 4800]);
    for (const [, low, likely, high, amps] of rows as number[][]) {
      expect(low!).toBeLessThanOrEqual(likely!);
      expect(likely!).toBeLessThanOrEqual(high!);
      expect(Number.isFinite(amps)).toBe(true);
    }
  });
  it("[BREAKEVEN] strong, likely, weak; too much load is refused in words", () => {
    const [low, likely, high] = CHG.BREAKEVEN(MACHINE)[0] as number[];
    expect(low!).toBeLessThan(likely!);
    expect(likely!).toBeLessThan(high!);
    expect(isCellError(CHG.BREAKEVEN(MACHINE, [[80]])[0]![0])).toBe(true);
  });
  it("[RUNNING] state, rise, states of both, reason", () => {
    const [row] = CHG.RUNNING([[12.7]], [[13.4]], [[14.3]], [["agm"]]);
    expect(row!.slice(0, 1)).toEqual(["pass"]);
    expect(row![1]).toBeCloseTo(1.6, 9);
    expect(row!.slice(2, 4)).toEqual(["pass", "pass"]);
    expect(CHG.RUNNING([[""]], [[""]], [[""]], [["agm"]])[0]!.slice(0, 4)).toEqual([
      "not read",
      "",
      "not read",
      "not read",
    ]);
  });
  it("[BUDGET] loads in amps and watts, with duty and ride", () => {
    const watts = CHG.BUDGET(MACHINE, column("54 W"), [[0.5]], [[4000, 30]])[0]!;
    const amps = CHG.BUDGET(MACHINE, column(4), [[0.5]], [["4000 rpm", "30 min"]])[0]!;
    expect(watts).toEqual(amps);
    expect(amps[3]).toBeCloseTo(2, 9);
    const [[shape]] = CHG.BUDGET(MACHINE, column(4, 5, 6), column(1, 1)) as [[{ message: string }]];
    expect(shape.message).toContain("duty");
  });
  it("[HEAT, iec60028 copper] stator heat is the phase current's in the hot winding; drops are the current's", () => {
    const machine = [...MACHINE, ["Winding resistance, lowest", 0.6], ["Winding resistance, highest", 0.6]];
    const rows = CHG.HEAT(machine, column(1000, 3000, 6000, "")) as number[][];
    expect(rows[3]).toEqual(["", "", "", "", "", "", "", ""]);
    // Wye: half of it a winding, at 20 °C surroundings and 68 K above them.
    const hot = 0.3 * (1 + 0.00393 * 68);
    for (const [regulator, stator, held, rectifier, phase, , bplus, ground] of rows.slice(0, 3)) {
      expect(Math.abs(stator! / (3 * phase! ** 2 * hot) - 1)).toBeLessThan(0.02);
      // Two devices in the path, each between 0.3 and 1.3 V.
      expect(regulator!).toBeGreaterThan(0.6 * rectifier!);
      expect(regulator!).toBeLessThan(2.6 * ((3 * phase!) / 2));
      expect(bplus! / ground!).toBeCloseTo(2, 6);
      expect(held!).toBeGreaterThanOrEqual(0);
      expect(held!).toBeLessThanOrEqual(1);
    }
  });
  it("[HEAT, common practice] held back, a shunt regulator heats the stator more than a series one", () => {
    const series = MACHINE.map(([label, value]) => [label, label === "Regulator works by" ? "series" : value]);
    expect(CHG.HEAT(MACHINE, [[5000]], [[5]])[0]![1]).toBeGreaterThan(1.2 * CHG.HEAT(series, [[5000]], [[5]])[0]![1]);
  });
  it("[RIPPLE] a level alone condemns nothing", () => {
    const [row] = CHG.RIPPLE(MACHINE, [[4000]], [[""]], [[1.5]]);
    expect(row!.slice(0, 3).every((cell) => typeof cell === "number")).toBe(true);
    expect(row![5]).toBe("unsure");
  });
});
