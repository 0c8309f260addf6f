import fc from "fast-check";
import { linearRegression } from "simple-statistics";
import { dateOrderAmong, dayOfYear, isoDate, parseDate } from "../../../src/core/fleet/dates";
import { robustSlope } from "../../../src/core/fleet/robust-slope";
import { trend } from "../../../src/core/fleet/trend";
import { faultMessage } from "../../../src/core/result";

// 36 monthly values, x = 0…35.
const SALES = [
  266.0, 145.9, 183.1, 119.3, 180.3, 168.5, 231.8, 224.5, 192.8, 122.9, 336.5, 185.9, 194.3, 149.5, 210.1, 273.3, 191.4,
  287.0, 226.0, 303.6, 289.9, 421.6, 264.5, 342.3, 339.7, 440.4, 315.9, 439.3, 401.3, 437.4, 575.5, 407.6, 682.0, 475.3,
  581.3, 646.9,
];
const MONTHS = SALES.map((_, i) => i);

describe("robust slope", () => {
  const line = robustSlope(MONTHS, SALES, 0.95)!;
  it("[STAT-12, S and its variance] 440 and 5390", () => {
    expect(line.s).toBe(440);
    expect(line.varianceOfS).toBe(5390);
  });
  it("[STAT-12, Z] 5.980", () => expect(Math.abs(line.z - 5.98)).toBeLessThanOrEqual(0.001));
  it("[STAT-12, slope] 11.509375", () => expect(line.slope / 11.509375).toBeCloseTo(1, 9));
  it("[STAT-12, tau] 0.6984", () => expect(line.s / 630).toBeCloseTo(0.6984, 4));
  it("[cross-check least squares] interval holds the ordinary slope of well-behaved data", () => {
    const { m } = linearRegression(MONTHS.map((x, i) => [x, SALES[i]!]));
    expect(line.low).toBeLessThan(m);
    expect(line.high).toBeGreaterThan(m);
  });
  it("[property] an exact line gives its slope and intercept, in any order", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 5, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.shuffledSubarray([0, 1, 2, 3, 5, 8, 13, 21], { minLength: 4 }),
        (a, b, xs) => {
          const l = robustSlope(
            xs,
            xs.map((x) => a * x + b),
            0.9,
          )!;
          expect(l.slope).toBeCloseTo(a, 8);
          expect(l.intercept).toBeCloseTo(b, 6);
        },
      ),
      { seed: 7 },
    );
  });
  it("[property] a quarter of wild points does not move it far", () => {
    const y = MONTHS.map((x, i) => 2 * x + (i % 4 === 0 ? 900 : 0));
    expect(robustSlope(MONTHS, y, 0.9)!.slope).toBeCloseTo(2, 6);
  });
  it("says nothing of points at one place", () => expect(robustSlope([3, 3, 3], [1, 2, 3], 0.9)).toBeUndefined());
});

describe("trend of one machine", () => {
  const at = (month: number) => 46000 + month * 30.44;
  const must = (...args: Parameters<typeof trend>) => {
    const t = trend(...args);
    if (!t.ok) throw new Error(faultMessage(t.fault));
    return t.value;
  };
  it("dates the crossing of a falling cranking voltage, with its band", () => {
    const t = must(
      Array.from({ length: 10 }, (_, i) => ({ day: at(i), value: 11 - 0.05 * i + (i % 2 ? 0.01 : -0.01) })),
      9.6,
    );
    expect(t.state).toBe("falling");
    // 11 − 0.05·k = 9.6 at k = 28 months.
    expect(Math.abs(t.crosses! - at(28))).toBeLessThan(30);
    expect(t.crossesEarliest!).toBeLessThan(t.crosses!);
    expect(t.crossesLatest!).toBeGreaterThan(t.crosses!);
  });
  it("sees through a temperature swing that hides the fade", () => {
    const visits = Array.from({ length: 12 }, (_, i) => {
      const temperature = 20 + 15 * Math.sin(i * 2.1);
      return { day: at(i), value: 10.5 - 0.02 * i + 0.03 * (temperature - 20), temperature };
    });
    expect(must(visits, undefined).perYear).toBeCloseTo(-0.24, 2);
    expect(
      must(
        visits.map(({ day, value }) => ({ day, value })),
        undefined,
      ).state,
    ).toBe("steady");
  });
  it("compares like season with like over years", () => {
    const visits = Array.from({ length: 36 }, (_, i) => ({
      day: at(i),
      value: 12.6 - 0.004 * i + 0.2 * Math.cos((2 * Math.PI * i * 30.44) / 365.2425),
    }));
    const t = must(visits, undefined);
    expect(t.allowedFor).toContain("like season");
    expect(t.perYear).toBeCloseTo(-0.048, 2);
    expect(t.state).toBe("falling");
  });
  it("does not call three visits a trend, nor a flat line", () => {
    expect(
      must(
        [1, 2, 3].map((i) => ({ day: at(i), value: -i })),
        0,
      ).state,
    ).toBe("not enough visits");
    expect(
      must(
        [1, 2, 3, 4, 5].map((i) => ({ day: at(i), value: 12.5 })),
        11,
      ).state,
    ).toBe("steady");
  });
  it("gives no date for a line that moves away from the limit", () => {
    const t = must(
      Array.from({ length: 8 }, (_, i) => ({ day: at(i), value: 11 + 0.1 * i })),
      9.6,
    );
    expect([t.state, t.crosses]).toEqual(["rising", undefined]);
  });
  it("says that temperature does nothing where it does, not the noise of its fractions", () => {
    const volts = [12.78, 12.72, 12.72, 12.71, 12.72, 12.69, 12.71, 12.7, 12.67, 12.66, 12.63, 12.64, 12.65, 12.61];
    const warmth = [22, 24, 23, 21, 22, 23, 23, 21, 23, 21, 21, 23, 21, 20];
    const t = must(
      volts.map((value, i) => ({ day: 45296 + 28 * i, value, temperature: warmth[i]! })),
      12.3,
    );
    expect(t.allowedFor).toMatch(/^referred to 22 °C at 0 per °C/u);
  });
  it("refuses a confidence that is none", () => expect(trend([], 1, 3).ok).toBe(false));
});

describe("dates as cells hold them", () => {
  // Worksheet day 45000 is 2023-03-15 (the host's own 1900 date system).
  it.each([
    [45000, 45000],
    ["2023-03-15", 45000],
    ["15.3.2023", 45000],
    ["3/15/2023", 45000],
    ["15/3/2023", 45000],
    ["2023-03-15 10:30", 45000],
    ["2023-03-15T10:30:00Z", 45000],
    ["2023/3/15", 45000],
    ["15/03/23", 45000],
    ["15.3.23", 45000],
    ["3/15/2023 2:05 PM", 45000],
    ["15 Mar 2023", 45000],
    ["15-Mar-23", 45000],
    ["March 15, 2023", 45000],
    ["15th March 2023", 45000],
    ["15 de marzo de 2023", 45000],
    ["15 mars 2023", 45000],
    ["15. März 2023", 45000],
    ["15 juin 2023", 45092],
    ["15 juil. 2023", 45122],
    ["20230315", 45000],
    [20230315, 45000],
    ["15/Mar/2023", 45000],
    ["Wed 15 Mar 2023", 45000],
    ["Wednesday, March 15, 2023", 45000],
    ["miércoles, 15 de marzo de 2023", 45000],
    ["mié. 15/03/2023", 45000],
  ])("%p", (cell, day) => {
    expect(parseDate(cell, "date")).toEqual({ ok: true, value: day });
  });
  it.each([
    ["3/4/2023", "ambiguous"],
    ["3/4/23", "ambiguous"],
    ["2023-02-30", "not-understood"],
    ["13/13/2023", "not-understood"],
    ["45/99/2023", "not-understood"],
    ["15 Foo 2023", "not-understood"],
    ["23-03-15", "ambiguous"],
    ["before 15 Mar 2023", "not-understood"],
    ["20231315", "not-understood"],
    [99999999, "not-understood"],
    ["15 M 2023", "not-understood"],
    ["soon", "not-understood"],
    [3, "not-understood"],
    [true, "not-understood"],
  ])("%p is refused", (cell, code) => {
    expect(parseDate(cell, "date")).toMatchObject({ ok: false, fault: { code } });
  });
  it("reads a column's dates by those that can be read in one way alone", () => {
    expect(dateOrderAmong(["3/4/2023", "", 45000, "13/2/2023", "1/1/2023"])).toBe("day first");
    expect(dateOrderAmong(["3/4/2023", "2/13/2023 10:30"])).toBe("month first");
    expect(dateOrderAmong(["13/2/2023", "2/13/2023"])).toBeUndefined();
    expect(dateOrderAmong(["3/4/2023", "2023-03-15", "15.3.2023"])).toBeUndefined();
    expect(parseDate("3/4/2023", "date", "day first")).toEqual({ ok: true, value: 45019 });
    expect(parseDate("3/4/2023", "date", "month first")).toEqual({ ok: true, value: 44989 });
    // A date that says for itself which number is the day is read so.
    expect(parseDate("15/3/2023", "date", "month first")).toEqual({ ok: true, value: 45000 });
  });
  it("round-trips through ISO text", () => {
    fc.assert(
      fc.property(fc.integer({ min: 30000, max: 73000 }), (day) =>
        expect(parseDate(isoDate(day), "date")).toEqual({ ok: true, value: day }),
      ),
      { seed: 3 },
    );
  });
  it("counts the day of the year from its first day", () => expect(dayOfYear(45000)).toBe(73));
});
