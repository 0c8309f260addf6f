import fc from "fast-check";
import { knownGood } from "../../../src/core/rectifier/known-good";

const options = { meter: 0.007, step: 0.001, spread: 0.05 };
function interval(readings: readonly number[], more = {}) {
  const result = knownGood(readings, { ...options, ...more });
  if (!result.ok) throw new Error(result.fault.code);
  return result.value;
}

describe("known-good parts", () => {
  it("one part: its reading with the stated spread, count shown", () => {
    const one = interval([0.52]);
    expect(one.low).toBeCloseTo(0.47, 12);
    expect(one.high).toBeCloseTo(0.57, 12);
    expect(one).toMatchObject({ count: 1, mean: 0.52, words: "reading by reading against 1 known-good part" });
    expect(one.factor).toBeUndefined();
    expect(one.deviation).toBeUndefined();
  });
  it("two parts: from the lower to the higher, with the spread", () => {
    const two = interval([0.5, 0.54]);
    expect([two.low, two.high]).toEqual([expect.closeTo(0.45, 12), expect.closeTo(0.59, 12)]);
    expect(two.deviation).toBeCloseTo(0.04 / Math.SQRT2, 12);
  });
  it("[iso16269-6 Table F.5 arithmetic, n = 5] mean ± 5.0769·s, the step of the display in s", () => {
    const readings = [0.5, 0.51, 0.52, 0.53, 0.54];
    const s = Math.hypot(Math.sqrt(0.00025), 0.001 / Math.sqrt(12));
    const five = interval(readings);
    expect(five.high - 0.52).toBeCloseTo(5.0769 * s, 5);
    expect(0.52 - five.low).toBeCloseTo(5.0769 * s, 5);
    expect(five.words).toBe("tolerance interval of 5 known-good parts (95 % of parts, 95 % confidence)");
  });
  it("three identical readings do not make a width of zero, and nothing is narrower than the meter", () => {
    const same = interval([0.52, 0.52, 0.52]);
    expect(same.high - same.low).toBeCloseTo(0.014, 12);
    expect(interval([0.52, 0.52, 0.52], { meter: 0 }).high).toBeGreaterThan(0.52);
    expect(interval([0.52], { spread: 0 }).high).toBeCloseTo(0.527, 12);
  });
  it("no reading and impossible shares are refused", () => {
    expect(knownGood([], options)).toMatchObject({ ok: false, fault: { code: "missing" } });
    expect(knownGood([1, 2, 3], { ...options, coverage: 1 })).toMatchObject({
      ok: false,
      fault: { code: "outside-range" },
    });
  });
  const SEED = { seed: 20261125 };
  const readings = fc.array(fc.double({ min: 0.1, max: 2, noNaN: true }), { minLength: 1, maxLength: 30 });
  it("[property] one or two readings lie inside, the order does not matter, a shift shifts it", () => {
    fc.assert(
      fc.property(readings, fc.double({ min: -1, max: 1, noNaN: true }), (all, by) => {
        const found = interval(all);
        if (all.length < 3) for (const one of all) expect(one >= found.low && one <= found.high).toBe(true);
        expect(interval([...all].reverse()).high).toBeCloseTo(found.high, 9);
        expect(interval(all.map((one) => one + by)).low).toBeCloseTo(found.low + by, 6);
        expect(found.count).toBe(all.length);
      }),
      SEED,
    );
  });
  it("[property] more parts of the same spread: a narrower interval", () => {
    const spread = (n: number) => Array.from({ length: n }, (_, i) => 0.5 + (i % 2 === 0 ? 0.01 : -0.01));
    const widths = [4, 6, 10, 20, 40, 100].map((n) => interval(spread(n)).high - interval(spread(n)).low);
    for (let i = 1; i < widths.length; i++) expect(widths[i]!).toBeLessThan(widths[i - 1]!);
  });
});
