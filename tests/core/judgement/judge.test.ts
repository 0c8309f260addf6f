import fc from "fast-check";
import { conform, decide, decideReading, GUARDED, ruleAt } from "../../../src/core/judgement/conformance";
import { judge, judgeNumber } from "../../../src/core/judgement/judge";
import { normalChance } from "../../../src/core/judgement/normal";
import type { Limit } from "../../../src/core/judgement/types";

const volts = { label: "Load-test voltage", unit: "V", decimals: 2, meter: "dc volts" } as const;
const table = { from: "published", source: "common-practice", words: "load-test table at 21 °C" } as const;
const atLeast: Limit = { low: 9.6, origin: table };

/** Φ by the Taylor series of erf: slow and independent. */
function phiBySeries(z: number): number {
  let term = z;
  let sum = z;
  for (let n = 1; n < 400; n++) {
    term *= (-z * z) / (2 * n);
    sum += term / (2 * n + 1);
  }
  return 0.5 + sum / Math.sqrt(2 * Math.PI);
}

describe("normal chance", () => {
  it("[cross-check: Taylor series of erf] agrees to 1e-12 from −5 to 5", () => {
    for (let z = -5; z <= 5; z += 0.125) expect(Math.abs(normalChance(z) - phiBySeries(z))).toBeLessThan(1e-12);
  });
  it("[property] rises, mirrors, and ends at 0 and 1", () => {
    fc.assert(
      fc.property(fc.double({ min: -40, max: 40, noNaN: true }), (z) => {
        expect(normalChance(z)).toBeLessThanOrEqual(normalChance(z + 0.01));
        expect(normalChance(z) + normalChance(-z)).toBeCloseTo(1, 14);
      }),
      { seed: 7 },
    );
    expect(normalChance(-Infinity)).toBe(0);
    expect(normalChance(Infinity)).toBe(1);
    expect(normalChance(Number.NaN)).toBeNaN();
  });
});

describe("judging one reading", () => {
  it("writes ohms of a million and more as a meter's megohm range shows them [1 MΩ = 10⁶ Ω]", () => {
    const ohms = { label: "Winding A to ground", unit: "Ω", decimals: 0, meter: "ohms" } as const;
    const { reason } = judgeNumber(ohms, 2e7, 1e5, { low: 5e6, origin: table });
    expect(reason).toContain("20 MΩ meets the limit of at least 5 MΩ");
    expect(judgeNumber(ohms, 999_000, 1e4, { low: 5e6, origin: table }).reason).toContain("999000 Ω");
  });
  it("passes, fails and is unsure on the guarded rule, and says why", () => {
    const pass = judge(volts, { kind: "number", value: 9.9 }, atLeast);
    expect(pass).toMatchObject({
      state: "pass",
      reason: "Load-test voltage 9.90 V meets the limit of at least 9.60 V (load-test table at 21 °C).",
    });
    const fail = judge(volts, { kind: "number", value: 9.2 }, atLeast);
    expect(fail).toMatchObject({
      state: "fail",
      reason: "Load-test voltage 9.20 V misses the limit of at least 9.60 V (load-test table at 21 °C).",
    });
    const close = judge(volts, { kind: "number", value: 9.62 }, atLeast);
    expect(close.state).toBe("unsure");
    expect(close.reason).toMatch(/too close to decide with ±0\.079 V/);
  });

  it("blank is not read, without a limit nothing passes, a word is not judged", () => {
    expect(judge(volts, undefined, atLeast).state).toBe("not read");
    expect(judge(volts, { kind: "number", value: 12 }, undefined)).toMatchObject({
      state: "unsure",
      reason: expect.stringContaining("no sourced limit"),
    });
    expect(judge(volts, { kind: "choice", value: "yes" }, atLeast).state).toBe("unsure");
  });

  it("an unknown condition: passes by the strict limit, fails by the lenient one, else unsure", () => {
    const limit: Limit = { ...atLeast, lenient: { low: 9.3 } };
    expect([9.8, 9.45, 9.0].map((v) => judgeNumber(volts, v, 0.03, limit).state)).toEqual(["pass", "unsure", "fail"]);
    const neverFails: Limit = { ...atLeast, lenient: {} };
    expect(judgeNumber(volts, 5, 0.03, neverFails).state).toBe("unsure");
  });

  it("an uncertain limit adds to the reading's uncertainty", () => {
    expect(judgeNumber(volts, 9.7, 0.03, atLeast).state).toBe("pass");
    expect(judge(volts, { kind: "number", value: 9.7 }, { ...atLeast, u: 0.2 }).state).toBe("unsure");
  });

  it("judges over-range and one-sided readings by what they prove", () => {
    const ohms = { label: "Winding", unit: "Ω", decimals: 2, meter: "ohms" } as const;
    const winding: Limit = { low: 0.28, high: 0.42, origin: table };
    expect(judge(ohms, { kind: "overload" }, winding).state).toBe("fail");
    expect(judge(ohms, { kind: "overload" }, { low: 1e6, origin: table }).state).toBe("pass");
    expect(judge(ohms, { kind: "overload" }, { low: 1e9, origin: table }).state).toBe("unsure");
    expect(judge(ohms, { kind: "above", value: 5e7 }, { low: 1e6, origin: table }).state).toBe("pass");
    expect(judge(ohms, { kind: "below", value: 0.5 }, winding).state).toBe("unsure");
    expect(judge(ohms, { kind: "below", value: 0.2 }, winding).state).toBe("fail");
  });

  it("[property] a reading between its limits never fails, however poor the meter", () => {
    for (const u of [0.001, 0.1, 1, 30, 1e6]) {
      for (const value of [9.01, 9.5, 10, 10.99])
        expect(decideReading(value, u, { low: 9, high: 11 })).not.toBe("fail");
      // Under a chance of 5 % that it conforms, and yet nothing speaks against it.
      if (u >= 30) expect(conform(10, u, { low: 9, high: 11 })).toBeLessThan(0.05);
    }
    expect(decideReading(10 + 1 + 1.7 * 0.1, 0.1, { low: 9, high: 11 })).toBe("fail");
    expect(decideReading(10 + 1 + 1.6 * 0.1, 0.1, { low: 9, high: 11 })).toBe("unsure");
  });
  it("[property] farther inside is never less sure; wider limits never lower the chance", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.double({ min: 0.001, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 5, noNaN: true }),
        (value, u, widen) => {
          expect(conform(value + widen, u, { low: 9.6 })).toBeGreaterThanOrEqual(
            conform(value, u, { low: 9.6 }) - 1e-15,
          );
          const narrow = conform(value, u, { low: 9, high: 10 });
          expect(conform(value, u, { low: 9 - widen, high: 10 + widen })).toBeGreaterThanOrEqual(narrow - 1e-15);
          expect(narrow).toBeGreaterThanOrEqual(0);
          expect(narrow).toBeLessThanOrEqual(1);
        },
      ),
      { seed: 11 },
    );
  });

  it("both edges of the rule, and an exact comparison where there is no uncertainty", () => {
    expect([0.95, 0.949, 0.051, 0.05].map((c) => decide(c, GUARDED))).toEqual(["pass", "unsure", "unsure", "fail"]);
    expect(decide(0.9, ruleAt(0.9))).toBe("pass");
    expect([9.59, 9.6, 9.61].map((v) => conform(v, 0, { low: 9.6 }))).toEqual([0, 1, 1]);
  });
});
