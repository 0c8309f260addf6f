import fc from "fast-check";
import { judgeBalance, unbalance } from "../../../src/core/stator/balance";
import { AC_BALANCE } from "../../../src/core/stator/no-load-ac";
import { departureFromLine, electricalFrequency, voltsPerThousand } from "../../../src/core/stator/output";
import { faultMessage, type Result } from "../../../src/core/result";

function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(faultMessage(result.fault));
  return result.value;
}
const message = (result: Result<unknown>) => (result.ok ? "no fault" : faultMessage(result.fault));
const SEED = { seed: 20261125 };
const positive = fc.double({ min: 0.01, max: 500, noNaN: true });
const judged = (readings: readonly [number, number, number], u: number) =>
  judgeBalance("No-load AC", readings.map((one) => ({ value: one, u })) as never, AC_BALANCE);

describe("unbalance", () => {
  it("three zeros have none: refused, not divided by", () =>
    expect(message(unbalance(0, 0, 0))).toMatch(/^unbalance: three readings of zero have no unbalance/));
  it("one live phase of three is 200 %", () => expect(value(unbalance(60, 0, 0))).toBeCloseTo(2, 12));
  it("[property] order and scale do not matter; between 0 and 2", () => {
    fc.assert(
      fc.property(positive, positive, positive, fc.double({ min: 0.1, max: 50, noNaN: true }), (a, b, c, k) => {
        const found = value(unbalance(a, b, c));
        expect(value(unbalance(c, a, b))).toBeCloseTo(found, 9);
        expect(value(unbalance(k * a, k * b, k * c))).toBeCloseTo(found, 9);
        expect(found).toBeGreaterThanOrEqual(0);
        expect(found).toBeLessThanOrEqual(2 + 1e-12);
      }),
      SEED,
    );
  });
});

describe("balance, judged", () => {
  it.each([
    [[60, 60.2, 59.9], 0.1, "pass"],
    [[60, 60, 56], 0.1, "unsure"],
    [[60, 60, 52], 0.1, "fail"],
    [[60, 60, 58.6], 0.3, "unsure"],
    [[0.1, 61.9, 0.1], 0.1, "fail"],
  ] as const)("%p V with u %d V: %s", (readings, u, state) => {
    const { judged: one } = judged(readings, u);
    expect(one.state).toBe(state);
    expect(one.reason).toMatch(/NEMA MG 1/);
  });
  it("a meter too coarse to tell neither passes nor fails, however the readings fall", () => {
    for (const readings of [
      [0.2, 0.2, 0.2],
      [0.2, 0.3, 0.2],
      [0.1, 0.2, 0.3],
    ] as const)
      expect(judged(readings, 0.12).judged.state).toBe("unsure");
    expect(judged([0.2, 0.2, 0.2], 0.12).judged.reason).toMatch(
      /the three readings agree, but such readings tell nothing below \d+ % apart/,
    );
  });
  it("[jcgm100 5.1.2, one of three like readings against their mean] resolves 2·√(2/3)·u/mean", () => {
    expect(judged([60, 60, 60], 0.3).resolves).toBeCloseTo((2 * Math.sqrt(2 / 3) * 0.3) / 60, 5);
  });
  it("three deviations are looked at, so a fail asks for three times the proof: 5 % of 3, not 5 %", () => {
    // Deviation 10 %: beyond 5 % with a chance of about 97 % at u = 1.85 V, of more than 99 % at 1 V.
    expect(judged([60, 60, 51.4286], 1.85).judged.state).toBe("unsure");
    expect(judged([60, 60, 51.4286], 1).judged.state).toBe("fail");
  });
  it("names the pair that deviates most and by how much", () => {
    const { worst, unbalance: share, judged: one } = judged([60, 60, 52], 0.1);
    expect(worst).toBe(2);
    expect(share).toBeCloseTo(0.093, 3);
    expect(one.reason).toMatch(/C–A lies 9.3 % below the mean, more than 5 %/);
  });
  it("an offset common to all readings weighs on the mean and not on the differences", () => {
    const readings = [1.2, 1.2, 1.21].map((one) => ({ value: one, u: 0 })) as never;
    const without = judgeBalance("ohms", readings, AC_BALANCE);
    const withLeads = judgeBalance("ohms", readings, AC_BALANCE, { offset: { value: 1, u: 0.02 } });
    expect(without.judged.state).toBe("pass");
    expect(withLeads.unbalance).toBeCloseTo(0.02 / 0.61, 12);
    expect(withLeads.judged.state).toBe("unsure");
  });
  it("[property] the state follows the three readings, not their order; finer meters never turn pass into fail", () => {
    fc.assert(
      fc.property(positive, positive, positive, fc.double({ min: 1e-4, max: 0.2, noNaN: true }), (a, b, c, share) => {
        const u = share * Math.max(a, b, c);
        const states = [judged([a, b, c], u), judged([b, c, a], u), judged([c, b, a], u)].map(
          (one) => one.judged.state,
        );
        expect(new Set(states).size).toBe(1);
        if (states[0] === "pass") expect(judged([a, b, c], u / 4).judged.state).not.toBe("fail");
      }),
      SEED,
    );
  });
});

describe("output and frequency", () => {
  it("standstill has no output per 1000 rpm", () =>
    expect(message(voltsPerThousand(0, 0))).toMatch(/^rpm: 0 rpm is not possible; enter 1 to 20000 rpm\.$/));
  it("[property] what is proportional departs by nothing, and the departure is what was put in", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 40, noNaN: true }),
        fc.integer({ min: 500, max: 9000 }),
        fc.integer({ min: 500, max: 9000 }),
        fc.double({ min: -0.3, max: 0.3, noNaN: true }),
        (perThousand, n1, n2, off) => {
          const v1 = (perThousand * n1) / 1000;
          expect(value(departureFromLine(v1, n1, ((perThousand * n2) / 1000) * (1 + off), n2))).toBeCloseTo(off, 9);
          expect(value(voltsPerThousand(v1, n1))).toBeCloseTo(perThousand, 9);
        },
      ),
      SEED,
    );
  });
  it("no output at the first speed is refused", () =>
    expect(message(departureFromLine(0, 1000, 50, 3000))).toMatch(/zero volts have no line/));
  it.each([7, 0, 62, 2.5, Number.NaN])("%p poles are refused with the words poles, not pairs", (poles) =>
    expect(message(electricalFrequency(3000, poles))).toMatch(/an even number from 2 to 60: poles, not pairs/),
  );
  it("[property] frequency is linear in speed and in poles", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 12000 }), fc.integer({ min: 1, max: 15 }), (rpm, pairs) => {
        expect(value(electricalFrequency(2 * rpm, 2 * pairs))).toBeCloseTo(
          2 * value(electricalFrequency(rpm, 2 * pairs)),
          9,
        );
        expect(value(electricalFrequency(rpm, 4 * pairs))).toBeCloseTo(
          2 * value(electricalFrequency(rpm, 2 * pairs)),
          9,
        );
      }),
      SEED,
    );
  });
});
