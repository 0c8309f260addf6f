import { meterFromCells } from "../../../src/core/judgement/meter-from-cells";
import {
  rangeFor,
  readingUncertainty,
  topOf,
  TYPICAL_HANDHELD,
  uncertaintyOf,
  withOhmStep,
} from "../../../src/core/judgement/meter";
import { METER_WORDS } from "../../../src/core/judgement/meter-words";
import { faultMessage } from "../../../src/core/result";

const number = (value: number, resolution?: number) => ({
  kind: "number" as const,
  value,
  ...(resolution === undefined ? {} : { resolution }),
});

describe("meters", () => {
  it("every function of a meter is read by its label", () => {
    const functions = new Set(TYPICAL_HANDHELD.ranges.map((range) => range.of));
    expect(functions.size).toBe(11);
    for (const of of functions) {
      const read = meterFromCells([[METER_WORDS[of].label, 1, 0.5, 2, 0.001]]);
      if (!read.ok) throw new Error(faultMessage(read.fault));
      expect(read.value.ranges).toEqual([{ of, upTo: 1, percent: 0.5, counts: 2, resolution: 0.001 }]);
    }
  });

  it("takes the smallest range that holds the reading, and the largest for what none holds", () => {
    expect(rangeFor(TYPICAL_HANDHELD, "dc volts", 12.6).resolution).toBe(0.01);
    expect(rangeFor(TYPICAL_HANDHELD, "dc volts", -0.3).resolution).toBe(0.001);
    expect(rangeFor(TYPICAL_HANDHELD, "dc volts", 5000).upTo).toBe(1000);
    expect(topOf(TYPICAL_HANDHELD, "ohms")).toBe(2e7);
    expect(
      (["dc volts", "ac volts", "diode", "clamp amps", "milliamps"] as const).map((of) => topOf(TYPICAL_HANDHELD, of)),
    ).toEqual([1000, 750, 2, 1000, 20000]);
  });

  it("reads a Settings sheet, header and units included, and keeps typical figures for the rest", () => {
    const meter = meterFromCells([
      ["Function", "Up to", "± %", "± counts", "Smallest step"],
      ["DC volts", "60 V", "0.1 %", 2, "10 mV"],
      ["mA", 400, 1, 3, 0.1],
      ["", "", "", "", ""],
    ]);
    if (!meter.ok) throw new Error(faultMessage(meter.fault));
    expect(meter.value.ranges).toEqual([
      { of: "dc volts", upTo: 60, percent: 0.1, counts: 2, resolution: 0.01 },
      { of: "milliamps", upTo: 400, percent: 1, counts: 3, resolution: 0.1 },
    ]);
    expect(rangeFor(meter.value, "ohms", 0.3)).toEqual(rangeFor(TYPICAL_HANDHELD, "ohms", 0.3));
    // ±(0.1 % + 2 counts) and half of the last digit
    expect(uncertaintyOf(number(12.6), meter.value, "dc volts")).toBeCloseTo(
      Math.hypot(0.0326 / Math.sqrt(3), 0.005 / Math.sqrt(3)),
      12,
    );
  });

  it.each<[unknown[][], RegExp]>([
    [[["DC volts", 60, 0.1, 2]], /a range of 4 columns does not fit; give five/],
    [[["volume", 60, 0.1, 2, 0.01]], /meter, row 1: "volume" cannot be read; enter one of: dc volts/],
    [[["ohms", "", 0.1, 2, 0.1]], /meter, row 1, up to is missing; enter a number in Ω/],
    [[["ohms", 200, 80, 2, 0.1]], /± %: 80 % is not possible; enter 0 to 50 %/],
    [[["ohms", 200, 0.8, "two", 0.1]], /± counts: "two" cannot be read/],
  ])("refuses %j with the row and the column named", (rows, message) => {
    const meter = meterFromCells(rows as (string | number)[][]);
    expect(meter.ok ? "read" : faultMessage(meter.fault)).toMatch(message);
  });

  it("[property] a coarser last digit never makes a reading surer", () => {
    const range = rangeFor(TYPICAL_HANDHELD, "dc volts", 12.6);
    for (const [fine, coarse] of [
      [0.01, 0.1],
      [0.1, 1],
    ] as const) {
      expect(readingUncertainty(12.6, range, coarse)).toBeGreaterThan(readingUncertainty(12.6, range, fine));
    }
  });

  it("the usual instruments beside a meter: thermometer ±(1 % + 2 °C), speed held to 3 %, a hydrometer read to its mark", () => {
    const a = (of: Parameters<typeof rangeFor>[1], value: number) => {
      const { percent, counts, resolution } = rangeFor(TYPICAL_HANDHELD, of, value);
      return (percent / 100) * value + counts * resolution;
    };
    expect(a("temperature", 20)).toBeCloseTo(2.2, 12);
    expect(a("tachometer", 5000)).toBeCloseTo(160, 12);
    expect(a("hydrometer", 1.265)).toBeCloseTo(0.005, 12);
    expect(a("clamp amps", 20)).toBeCloseTo(0.7, 12);
    expect(a("clamp amps", 400)).toBeCloseTo(11, 12);
    expect(a("milliamps", 10)).toBeCloseTo(0.12, 12);
  });

  it("believes the digits that were read over the assumed step, not over the shop's own sheet", () => {
    expect(uncertaintyOf(number(0.35), TYPICAL_HANDHELD, "ohms")).toBeLessThan(
      uncertaintyOf(number(0.3), TYPICAL_HANDHELD, "ohms"),
    );
    expect(uncertaintyOf(number(0.35, 0.01), TYPICAL_HANDHELD, "ohms")).toBeLessThan(0.02);
    const noted = withOhmStep(TYPICAL_HANDHELD, 0.1);
    expect(uncertaintyOf(number(0.35, 0.01), noted, "ohms")).toBeGreaterThan(0.1);
    expect(rangeFor(noted, "ohms", 5000)).toEqual(rangeFor(TYPICAL_HANDHELD, "ohms", 5000));
    expect(withOhmStep(TYPICAL_HANDHELD, undefined)).toBe(TYPICAL_HANDHELD);
  });
});
