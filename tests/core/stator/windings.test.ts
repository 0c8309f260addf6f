import fc from "fast-check";
import { lineReadings, windingsFrom, type Connection, type LineReading } from "../../../src/core/stator/windings";
import { patternOf } from "../../../src/core/stator/winding-pattern";
import { copperFactor, ohmsAtTemperature } from "../../../src/core/stator/winding-temperature";
import { faultMessage, type Result } from "../../../src/core/result";

const message = (result: Result<unknown>) => (result.ok ? "no fault" : faultMessage(result.fault));
function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(message(result));
  return result.value;
}
const SEED = { seed: 20261125 };
const ohm = fc.double({ min: 0.05, max: 50, noNaN: true });
const connection = fc.constantFrom<Connection>("delta", "wye");

describe("windings from line readings", () => {
  it("[property] round trip: windings → line readings → windings, delta and wye", () => {
    fc.assert(
      fc.property(ohm, ohm, ohm, connection, (a, b, c, joined) => {
        const found = value(windingsFrom(...lineReadings([a, b, c], joined), joined)).windings;
        [a, b, c].forEach((printed, i) => expect((found[i] as number) / printed).toBeCloseTo(1, 4));
      }),
      SEED,
    );
  });
  it("[cross-check] a delta and its equivalent wye read alike between every two terminals", () => {
    fc.assert(
      fc.property(ohm, ohm, ohm, (a, b, c) => {
        const lines = lineReadings([a, b, c], "delta");
        const wye = value(windingsFrom(...lines, "wye")).windings as readonly [number, number, number];
        lineReadings(wye, "wye").forEach((line, i) => expect(line / lines[i]!).toBeCloseTo(1, 6));
        // Kennelly: each wye arm is the product of its two legs over the sum of all.
        expect(wye[0] / ((a * c) / (a + b + c))).toBeCloseTo(1, 4);
      }),
      SEED,
    );
  });
  it("an open leg of a delta leaves 2 : 1 : 1", () => {
    const lines = lineReadings([Infinity, 0.6, 0.6], "delta");
    expect(lines).toEqual([expect.closeTo(1.2, 12), expect.closeTo(0.6, 12), expect.closeTo(0.6, 12)]);
    const found = value(windingsFrom(...lines, "delta", 0.01));
    expect(found.windings).toEqual(["open", expect.closeTo(0.6, 9), expect.closeTo(0.6, 9)]);
    expect(found.open).toEqual({ leg: "A–B" });
    expect(value(windingsFrom(0.6, 0.6, 1.2, "delta", 0.01)).windings).toEqual([
      expect.closeTo(0.6, 9),
      expect.closeTo(0.6, 9),
      "open",
    ]);
    expect(value(windingsFrom(0.7, 1.3, 0.6, "delta", 0.01)).windings).toEqual([
      expect.closeTo(0.7, 9),
      "open",
      expect.closeTo(0.6, 9),
    ]);
  });
  it("the same readings in a wye are a winding without resistance", () => {
    expect(value(windingsFrom(1.2, 0.6, 0.6, "wye", 0.01))).toMatchObject({
      windings: [expect.closeTo(0.6, 9), expect.closeTo(0.6, 9), 0],
      note: expect.stringMatching(/Winding C has no resistance left/),
    });
  });
  it("two OL: the terminal that both share is open", () => {
    expect(value(windingsFrom("OL", 0.8, "OL", "wye"))).toMatchObject({
      windings: ["open", 0.4, 0.4],
      open: { terminal: "A" },
    });
    expect(value(windingsFrom("OL", "OL", 0.8, "wye"))).toMatchObject({
      windings: [0.4, "open", 0.4],
      open: { terminal: "B" },
    });
    expect(value(windingsFrom(0.8, "OL", "OL", "delta"))).toMatchObject({
      windings: ["unknown", "unknown", "unknown"],
      open: { terminal: "C" },
      note: expect.stringMatching(/Three like legs of 1.2 Ω would read 0.8 Ω at A–B/),
    });
  });
  it("three OL tell nothing but breaks or missing contact; one OL and one over the sum are impossible", () => {
    expect(value(windingsFrom("OL", "OL", "OL", "wye")).windings).toEqual(["unknown", "unknown", "unknown"]);
    expect(message(windingsFrom("OL", 0.8, 0.8, "delta"))).toMatch(/A–B reads OL while both its terminals conduct/);
    expect(message(windingsFrom(3, 1, 1, "wye"))).toMatch(
      /^line readings: A–B reads more than the other two together, which no three windings do; clean/,
    );
    expect(message(windingsFrom(1, 1, 3, "delta"))).toMatch(/C–A reads more/);
    expect(message(windingsFrom(0, 0, 0, "delta"))).toMatch(/no larger than/);
  });
});

describe("what unequal readings point to", () => {
  const short = (r: number, s: number) => r * (1 - s);
  it.each<[string, readonly [number, number, number], Connection | undefined, RegExp]>([
    [
      "shorted turns in winding A of a wye",
      lineReadings([short(0.4, 0.2), 0.4, 0.4], "wye"),
      "wye",
      /B–C reads high: turns of winding A shorted/,
    ],
    [
      "the same, connection not known",
      lineReadings([0.4, 0.4, short(0.4, 0.2)], "wye"),
      undefined,
      /A–B reads high: turns of winding C shorted in a wye/,
    ],
    [
      "shorted turns in leg C–A of a delta",
      lineReadings([0.9, 0.9, short(0.9, 0.3)], "delta"),
      "delta",
      /C–A reads low: turns of winding C–A shorted/,
    ],
    ["resistance at terminal B", [0.9, 0.9, 0.6], "wye", /C–A reads low: resistance at terminal B/],
    [
      "an open leg",
      lineReadings([0.6, Infinity, 0.6], "delta"),
      "delta",
      /B–C reads twice the other two: its winding is open/,
    ],
    [
      "an open leg, connection not known",
      lineReadings([0.6, 0.6, Infinity], "delta"),
      undefined,
      /C–A reads twice the other two: an open winding in a delta, winding B shorted in a wye/,
    ],
    ["like readings", [0.6, 0.605, 0.6], "wye", /^$/],
    ["a reading above the other two together", [2, 0.6, 0.6], "delta", /A–B reads more than the other two together/],
  ])("%s", (_, lines, joined, words) => expect(patternOf(lines, joined, 0.002)).toMatch(words));
  it.each<[readonly [LineReading, LineReading, LineReading], RegExp]>([
    [["OL", 0.7, "OL"], /Terminal A has no path to the others/],
    [["OL", "OL", "OL"], /No path between any two terminals/],
    [["OL", 0.7, 0.7], /A–B reads more than the other two together/],
  ])("%p", (lines, words) => expect(patternOf(lines, undefined, 0.01)).toMatch(words));
  it("a coarse meter names no pattern that it cannot see", () => {
    expect(patternOf([0.3, 0.2, 0.3], "delta", 0.12)).toBe("");
    expect(patternOf([0.2, 0.1, 0.1], "delta", 0.12)).toBe("");
  });
});

describe("copper", () => {
  it("[property] there and back again; hotter is more", () => {
    const celsius = fc.double({ min: -40, max: 250, noNaN: true });
    fc.assert(
      fc.property(ohm, celsius, celsius, (r, t, to) => {
        expect(value(ohmsAtTemperature(value(ohmsAtTemperature(r, t, to)), to, t)) / r).toBeCloseTo(1, 9);
        if (Math.abs(to - t) > 1e-6) expect(copperFactor(t, to) > 1).toBe(to > t);
      }),
      SEED,
    );
  });
  it.each([
    [-41, 20],
    [251, 20],
    [20, 300],
    [Number.NaN, 20],
  ])("%d °C to %d °C is refused", (t, to) =>
    expect(message(ohmsAtTemperature(1, t, to))).toMatch(/enter −40 to 250 °C/),
  );
});
