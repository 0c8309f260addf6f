import fc from "fast-check";
import { chiSquaredDistributionTable } from "simple-statistics";
import { chiSquareAbove, upperGamma } from "../../src/core/rectifier/incomplete-gamma";
import { knownGood } from "../../src/core/rectifier/known-good";
import { oneSidedFactor, twoSidedFactor } from "../../src/core/rectifier/tolerance-factor";
import { faultMessage, type Result } from "../../src/core/result";
import PRINTED from "./tolerance-factors.json";

type Row = readonly [n: number, coverage: number, confidence: number, k: number];
type Tables = Record<string, { title: string; rows: Record<string, Row[]> }>;
const twoSided = PRINTED["two-sided"] as unknown as Tables;
const oneSided = PRINTED["one-sided"] as unknown as Tables;

function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(faultMessage(result.fault));
  return result.value;
}
const two = (n: number, coverage: number, confidence: number) => value(twoSidedFactor(n, coverage, confidence));
const one = (n: number, coverage: number, confidence: number) => value(oneSidedFactor(n, coverage, confidence));
const GENERIC = { meter: 0, step: 0, spread: 0 };
const SEED = { seed: 20261125, numRuns: 40 };

describe("two-sided tolerance factors as printed", () => {
  for (const [table, rows] of Object.entries(twoSided["iso16269-6:2014"]!.rows)) {
    it.each(rows)(
      `[iso16269-6:2014 Table ${table}, n %d, coverage %d, confidence %d] %d, rounded up at four decimals`,
      (n, p, g, k) => {
        const exact = two(n, p, g);
        expect(exact).toBeLessThanOrEqual(k + 1e-7);
        expect(exact).toBeGreaterThan(k - 1.0001e-4);
      },
    );
  }
  const j5b = twoSided["meeker-hahn-escobar"]!.rows["J.5b"]!;
  it.each([...new Set(j5b.map(([n]) => n))])(
    "[Meeker, Hahn and Escobar, Table J.5b, n = %d] fifteen factors to half a last digit",
    (n) => {
      const rows = j5b.filter((row) => row[0] === n);
      expect(rows).toHaveLength(15);
      for (const [, p, g, k] of rows) expect(Math.abs(two(n, p, g) - k)).toBeLessThanOrEqual(0.000501);
    },
  );
  it.each(twoSided["berthouex-brown"]!.rows["21.1"]!)(
    "[STAT-08, Berthouex and Brown, Table 21.1, n %d, coverage %d, confidence %d] %d",
    (n, p, g, k) => {
      expect(Math.abs(two(n, p, g) - k)).toBeLessThanOrEqual(0.0101);
    },
  );
  it("[STAT-06, n 43, 90 % of parts, 99 % confidence] exact factor 2.2228", () =>
    expect(Math.abs(two(43, 0.9, 0.99) - 2.2228)).toBeLessThanOrEqual(0.0002));
  it("[STAT-05, NIST handbook 7.2.6.3] Howe's 2.2173 is the approximation: 0.25 % low of the exact factor", () => {
    const howe = Math.sqrt((42 * (1 + 1 / 43) * 1.6448536269514722 ** 2) / 23.650095);
    expect(Math.abs(howe - 2.2173)).toBeLessThanOrEqual(0.0001);
    expect(howe / two(43, 0.9, 0.99)).toBeCloseTo(0.9975, 4);
  });
  it("[STAT-05, NIST handbook 7.2.6.3] 97.07 ± k·0.0268: the exact interval holds Howe's 97.011 to 97.129 to its last digit but one", () => {
    const half = two(43, 0.9, 0.99) * 0.0268;
    expect(97.07 - half).toBeCloseTo(97.011, 2);
    expect(97.07 + half).toBeCloseTo(97.129, 2);
    expect(half).toBeGreaterThan(2.2173 * 0.0268);
  });
});

describe("one-sided tolerance factors as printed", () => {
  it.each(oneSided["montgomery-runger"]!.rows["XII"]!)(
    "[Montgomery and Runger, Table XII, n %d, coverage %d, confidence %d] %d",
    (n, p, g, k) => {
      expect(Math.abs(one(n, p, g) - k)).toBeLessThanOrEqual(0.000501);
    },
  );
  it.each([
    [5, 3.407, 4.203, 5.741],
    [10, 2.355, 2.911, 3.981],
    [20, 1.926, 2.396, 3.295],
  ])("[STAT-10, n = %d, 95 %% confidence] %d, %d, %d for 90, 95, 99 %%", (n, ...printed) => {
    [0.9, 0.95, 0.99].forEach((p, i) => expect(Math.abs(one(n, p, 0.95) - printed[i]!)).toBeLessThanOrEqual(0.001));
  });
  it("[US NRC table of one-sided factors, n 50, 0.95/0.95] 2.065", () =>
    expect(one(50, 0.95, 0.95)).toBeCloseTo(2.065, 3));
  it("[cross-check, scipy 1.17 non-central t] one-sided factors to eight digits", () => {
    for (const [n, p, g, k] of [
      [50, 0.95, 0.95, 2.064993417743975],
      [40, 0.9, 0.99, 1.9017259136134406],
      [2, 0.9, 0.9, 10.252714027862607],
      [2, 0.95, 0.95, 26.25967398303447],
      [2, 0.99, 0.99, 185.6169586032112],
    ] as const) {
      expect(Math.abs(one(n, p, g) / k - 1)).toBeLessThan(1e-8);
    }
  });
  it("[statistics course, tolerance example: n 40, 90 %, 99 % confidence] 1.9017 by non-central t", () =>
    expect(one(40, 0.9, 0.99)).toBeCloseTo(1.9017, 4));
});

describe("the machinery behind the factors", () => {
  it("[cross-check, simple-statistics chi-square table] upper shares to its printed digits", () => {
    for (const [degrees, row] of Object.entries(chiSquaredDistributionTable)) {
      for (const [share, x] of Object.entries(row)) {
        const above = chiSquareAbove(x as number, Number(degrees));
        const wide =
          chiSquareAbove((x as number) - 0.006, Number(degrees)) -
          chiSquareAbove((x as number) + 0.006, Number(degrees));
        expect(Math.abs(above - Number(share))).toBeLessThanOrEqual(wide + 1e-12);
      }
    }
  });
  it.each([
    [1, 2, Math.exp(-2)],
    [2, 3, 4 * Math.exp(-3)],
    [3, 1, 2.5 * Math.exp(-1)],
  ])("[closed form, integer shape] Q(%d, %d)", (a, x, expected) => expect(upperGamma(a, x)).toBeCloseTo(expected, 12));
  it.each([
    [25000, 25000, 0.4991589556391113],
    [0.5, 0.5, 0.31731050786291115],
  ])("[cross-check, scipy 1.17 gammaincc] Q(%d, %d)", (a, x, expected) =>
    expect(Math.abs(upperGamma(a, x) - expected)).toBeLessThan(1e-9),
  );
  it("[cross-check, scipy 1.17 quadrature of the same integral] factors to nine digits", () => {
    for (const [n, p, g, k] of [
      [2, 0.95, 0.95, 36.519214612],
      [3, 0.95, 0.95, 9.788752403],
      [43, 0.9, 0.99, 2.222825174],
      [1000, 0.95, 0.95, 2.036114278],
      [50000, 0.95, 0.95, 1.970236164],
    ] as const) {
      expect(Math.abs(two(n, p, g) / k - 1)).toBeLessThan(5e-9);
    }
  });
  it("[iso16269-6:2014 Annex F, last rows, n = ∞] with very many readings the factor is the normal quantile", () => {
    for (const [p, k] of [
      [0.9, 1.6449],
      [0.95, 1.96],
      [0.99, 2.5759],
    ] as const)
      expect(Math.abs(two(1_000_000, p, 0.5) - k)).toBeLessThan(1e-4);
  });
  it("[property] more parts, less coverage or less confidence: a smaller factor; two sides need more than one", () => {
    const share = fc.double({ min: 0.6, max: 0.995, noNaN: true });
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 300 }), share, share, (n, p, g) => {
        expect(two(n + 1, p, g)).toBeLessThan(two(n, p, g));
        expect(two(n, p, g)).toBeLessThan(two(n, p + 0.004, g));
        expect(two(n, p, g)).toBeLessThan(two(n, p, g + 0.004));
        expect(one(n, p, g)).toBeLessThan(two(n, p, g));
      }),
      SEED,
    );
  });
  it.each([
    [1, 0.9, 0.9],
    [2.5, 0.9, 0.9],
    [5, 1, 0.9],
    [5, 0.9, 0.2],
    [Number.NaN, 0.9, 0.9],
    [5, Number.NaN, 0.9],
  ])("n %d, coverage %d, confidence %d is refused", (n, p, g) => {
    expect(twoSidedFactor(n, p, g).ok).toBe(false);
    expect(oneSidedFactor(n, p, g).ok).toBe(false);
  });
});

describe("mean and deviation of known-good readings", () => {
  const alternating = (first: number, low: number, high: number) => [
    first,
    ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
  ];
  it.each<[string, number[], number, number, number]>([
    ["NumAcc1", [10000001, 10000003, 10000002], 10000002, 1, 1e-12],
    ["NumAcc2", alternating(1.2, 1.1, 1.3), 1.2, 0.1, 1e-11],
    ["NumAcc3", alternating(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 1e-8],
    ["NumAcc4", alternating(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 1e-7],
  ])("[NIST StRD %s, from memory] certified mean and standard deviation", (_, readings, mean, deviation, digits) => {
    const found = value(knownGood(readings, GENERIC));
    expect(Math.abs(found.mean / mean - 1)).toBeLessThan(1e-14);
    expect(Math.abs(found.deviation! / deviation - 1)).toBeLessThan(digits);
  });
});
