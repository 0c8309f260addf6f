import { conform, decide, guardedBy } from "../../src/core/judgement/conformance";
import { readingUncertainty, type MeterRange } from "../../src/core/judgement/meter";
import { normalChance } from "../../src/core/judgement/normal";
import { minus, propagate, rectangular, rootSumSquares, type Uncertain } from "../../src/core/judgement/uncertain";

const near = (value: number, expected: number, within: number) =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(within);

describe("uncertainty of a reading", () => {
  it("[UNC-01] GUM example: ±(14e-6·V + 2e-6·range) gives u 8.7 µV, with 12 µV type A 15 µV", () => {
    const a = 14e-6 * 0.928571 + 2e-6 * 1;
    near(a * 1e6, 15, 0.05);
    near(rectangular(a) * 1e6, 8.7, 0.1);
    near(rootSumSquares(rectangular(a), 12e-6) * 1e6, 15, 0.5);
  });

  it("[UNC-02] hand-held meter at 100 V: u 0.030 V, U 0.05 V at k 1.65", () => {
    const u = rootSumSquares(0.001, rectangular(0.011), rectangular(0.05));
    near(u, 0.03, 0.002);
    near(1.65 * u, 0.05, 0.002);
  });

  it("[UNC-04] ±(0.5 % + 2 counts), 12.60 V on 0.01 V: u 0.0479 V", () => {
    const range: MeterRange = { of: "dc volts", upTo: 20, percent: 0.5, counts: 2, resolution: 0.01 };
    const u = readingUncertainty(12.6, range);
    expect(Math.abs(u / 0.0479 - 1)).toBeLessThanOrEqual(0.005);
  });

  it("[JCGM 100 F.2.2.1] resolution δx alone: u = 0.29 δx", () => {
    const digital: MeterRange = { of: "dc volts", upTo: 20, percent: 0, counts: 0, resolution: 1 };
    near(readingUncertainty(5, digital), 0.29, 0.005);
  });
});

describe("[UNC-06] GUM H.2, correlated inputs", () => {
  const inputs: Uncertain[] = [
    { value: 4.999, u: 0.0032 },
    { value: 19.661e-3, u: 9.5e-6 },
    { value: 1.04446, u: 7.5e-4 },
  ];
  const r = [
    [1, -0.36, 0.86],
    [-0.36, 1, -0.65],
    [0.86, -0.65, 1],
  ];
  const rows: [string, (...x: number[]) => number, number, number][] = [
    ["R", (v, i, p) => (v! / i!) * Math.cos(p!), 127.732, 0.071],
    ["X", (v, i, p) => (v! / i!) * Math.sin(p!), 219.847, 0.295],
    ["Z", (v, i) => v! / i!, 254.26, 0.236],
  ];
  it.each(rows)("%s", (_, formula, value, u) => {
    const result = propagate(formula, inputs, (i, j) => r[i]![j]!);
    near(result.value, value, 0.0006);
    near(result.u, u, 0.002);
  });
});

describe("[UNC-08] GUM H.3, a calibration line as a formula of its eleven readings", () => {
  const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
  const mean = (x: readonly number[]) => x.reduce((s, v) => s + v, 0) / x.length;
  const line = (y: readonly number[]) => {
    const mt = mean(t);
    const slope =
      t.reduce((s, ti, i) => s + (ti - mt) * (y[i]! - mean(y)), 0) / t.reduce((s, ti) => s + (ti - mt) ** 2, 0);
    return { slope, at: (temp: number) => mean(y) + slope * (temp - mt) };
  };
  const fit = line(b);
  const s = Math.sqrt(b.reduce((sum, bi, i) => sum + (bi - fit.at(t[i]!)) ** 2, 0) / (b.length - 2));
  const readings = b.map((value) => ({ value, u: s }));
  it.each<[string, (y: number[]) => number, number, number, number, number]>([
    ["y1 at 20 °C", (y) => line(y).at(20), -0.1712, 0.00005, 0.0029, 0.00005],
    ["y2, slope", (y) => line(y).slope, 0.00218, 0.000005, 0.00067, 0.000005],
    ["b at 30 °C", (y) => line(y).at(30), -0.1494, 0.0001, 0.0041, 0.0001],
  ])("%s", (_, formula, value, within, u, uWithin) => {
    const result = propagate((...y) => formula(y), readings);
    near(result.value, value, within);
    near(result.u, u, uWithin);
  });
  it("s 0.0035", () => near(s, 0.0035, 0.00005));
});

describe("conformance", () => {
  it("[UNC-09] one-sided limit −5.40 V, read −5.47 V, u 0.05 V: 0.919", () => {
    near(conform(-5.47, 0.05, { high: -5.4 }), 0.919, 0.001);
  });

  it.each([
    [10, 1 - 0.01242],
    [10.5, 1 - 0.1057],
    [12, 1 - 0.9938],
  ])("[UNC-11] N(%p, 0.4) in 9 to 11: %p", (mean, chance) => {
    near(conform(mean, 0.4, { low: 9, high: 11 }), chance, 0.0001);
  });
  it("[UNC-11] at 10.5: 0.00009 below, 0.10565 above", () => {
    near(1 - conform(10.5, 0.4, { low: 9 }), 0.00009, 0.000005);
    near(1 - conform(10.5, 0.4, { high: 11 }), 0.10565, 0.00001);
  });

  it("[UNC-12] global risks with limits ±2σ of the process and test u σ/4: 0.0080 and 0.0149", () => {
    const limits = { low: -2, high: 2 };
    const u = 0.25;
    const step = 0.001;
    let falseAccept = 0;
    let falseReject = 0;
    for (let t = -8; t < 8; t += step) {
      const middle = t + step / 2;
      const share = normalChance(t + step) - normalChance(t);
      // The chance that a unit at `middle` reads within the limits is the same normal integral.
      const accepted = conform(middle, u, limits);
      if (Math.abs(middle) > 2) falseAccept += share * accepted;
      else falseReject += share * (1 - accepted);
    }
    near(falseAccept, 0.008, 0.0002);
    near(falseReject, 0.0149, 0.0002);
  });

  it("[UNC-15] guard band of 2u: at most 2.3 % risk at the acceptance limit; none: 50 %", () => {
    const u = 0.05;
    near(1 - conform(9.6 + 2 * u, u, { low: 9.6 }), 0.0228, 0.001);
    near(1 - conform(9.6, u, { low: 9.6 }), 0.5, 0.001);
  });

  it.each([
    [0.0017, "pass"],
    [0.002, "pass"],
    [0.0025, "unsure"],
    [0.00401, "fail"],
  ] as const)("[UNC-17] error limit ±0.003, U 0.001: %p is %s", (error, state) => {
    // A hair inside, since the acceptance limit itself is a tie in binary.
    expect(decide(conform(error - 1e-9, 0.0005, { low: -0.003, high: 0.003 }), guardedBy(2))).toBe(state);
  });

  it.each([
    [9.79, "fail"],
    [9.9, "unsure"],
    [10.1, "unsure"],
    [10.21, "pass"],
  ] as const)("[UNC-18] limit 10, guard 0.2: %p is %s (both conditional answers are unsure here)", (value, state) =>
    expect(decide(conform(value, 0.1, { low: 10 }), guardedBy(2))).toBe(state),
  );

  // Abramowitz & Stegun, Handbook of Mathematical Functions, Table 26.1
  it.each([
    [0.5, 0.6914624612740131],
    [1, 0.8413447460685429],
    [1.96, 0.9750021048517795],
    [2, 0.9772498680518208],
    [3, 0.9986501019683699],
    [-4, 3.167124183311998e-5],
  ])("[Abramowitz & Stegun 26.1, P(%p)] %p", (z, chance) => near(normalChance(z), chance, 1e-15));
});

it("[JCGM 100 5.1.3] shorted leads are taken away with their own uncertainty", () => {
  const { value, u } = minus({ value: 0.6, u: 0.06 }, { value: 0.2, u: 0.08 });
  near(value, 0.4, 1e-12);
  near(u, 0.1, 1e-12);
});
