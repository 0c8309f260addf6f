import fc from "fast-check";
import { findSteps } from "../../../../src/core/fleet/history/step";
import { Random } from "../../../../src/tools/simulation/random";

const places = (n: number) => Array.from({ length: n }, (_, i) => i * 30);

describe("steps of a series", () => {
  it("finds the visit from which a new battery cranks, and how much better", () => {
    const y = [10.2, 10.1, 10.0, 9.9, 9.75, 9.6, 9.5, 10.9, 10.85, 10.9, 10.8, 10.85];
    const [step, ...more] = findSteps(places(12), y, 0.05);
    expect(more).toEqual([]);
    expect(step!.at).toBe(7);
    expect(step!.size).toBeGreaterThan(1.2);
    expect(step!.size).toBeLessThan(1.6);
  });
  it("finds two", () => {
    const random = new Random(3);
    const y = places(24).map((_, i) => (i < 8 ? 10 : i < 16 ? 11.5 : 9) + random.normal(0, 0.05));
    expect(findSteps(places(24), y, 0.02).map(({ at }) => at)).toEqual([8, 16]);
  });
  it("a steady slope, a wild value and too few points are none", () => {
    const slope = places(20).map((x, i) => 11 - 0.002 * x + (i % 2 ? 0.01 : -0.01));
    expect(findSteps(places(20), slope, 0.02)).toEqual([]);
    const wild = slope.map((v, i) => (i === 9 ? v + 3 : v));
    expect(findSteps(places(20), wild, 0.02)).toEqual([]);
    expect(findSteps(places(5), [1, 1, 9, 9, 9], 0.1)).toEqual([]);
  });
  it("white noise gives a step in fewer than two of a hundred series", () => {
    const random = new Random(17);
    for (const n of [12, 24, 36]) {
      const x = places(n);
      let steps = 0;
      for (let k = 0; k < 1000; k++)
        steps +=
          findSteps(
            x,
            x.map(() => random.normal(10, 0.1)),
            0.02,
          ).length > 0
            ? 1
            : 0;
      expect(steps).toBeLessThan(20);
    }
  });
  it("[property] shifted and scaled series step at the same places", () => {
    const random = new Random(9);
    const y = places(14).map((_, i) => (i < 7 ? 10 : 11) + random.normal(0, 0.05));
    const at = findSteps(places(14), y, 0.02).map((s) => s.at);
    expect(at).toEqual([7]);
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 0.1, max: 20, noNaN: true }),
        (shift, scale) => {
          const moved = y.map((v) => v * scale + shift);
          expect(findSteps(places(14), moved, 0.02 * scale).map((s) => s.at)).toEqual(at);
        },
      ),
      { seed: 4, numRuns: 50 },
    );
  });
});
