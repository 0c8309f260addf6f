import fc from "fast-check";
import { scaleOver } from "../../src/pane/charts/scale";

describe("the scale of a chart", () => {
  it("[property] holds every value, runs the right way and has a few round ticks", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 8 }),
        (values) => {
          const scale = scaleOver(values, [80, 290]);
          const inside = values.every((value) => scale.at(value) >= 80 - 1e-6 && scale.at(value) <= 290 + 1e-6);
          return (
            inside &&
            scale.to > scale.from &&
            scale.ticks.length >= 2 &&
            scale.ticks.length <= 12 &&
            scale.at(scale.from) === 80 &&
            scale.at(scale.to) === 290
          );
        },
      ),
      { seed: 5, numRuns: 400 },
    );
  });

  it("does not invent room below zero for what cannot be negative", () => {
    expect(scaleOver([0, 0.4], [0, 100]).from).toBe(0);
    expect(scaleOver([-0.2, 0.4], [0, 100]).from).toBeLessThan(-0.2);
  });

  it("equal values still get a scale", () => {
    const scale = scaleOver([12.6, 12.6], [0, 100]);
    expect(scale.at(12.6)).toBeGreaterThan(20);
    expect(scale.at(12.6)).toBeLessThan(80);
  });

  it("ticks carry the decimals their step needs", () => {
    expect(scaleOver([13.2, 13.9], [0, 100]).decimals).toBe(1);
    expect(scaleOver([1000, 5000], [0, 100]).decimals).toBe(0);
  });
});
