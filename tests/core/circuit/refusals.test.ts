import fc from "fast-check";
import { operatingPoint } from "../../../src/core/circuit/operating-point";
import type { ChargingSystem, Conditions } from "../../../src/core/circuit/types";
import { MACHINE, machineWith } from "./example-system";
import { at, SEED } from "./solved-point";

describe("what cannot be", () => {
  const refusals: readonly [string, ChargingSystem, Conditions][] = [
    ["negative ohms", machineWith({ alternator: { windingOhms: -0.1 } }), at(3000)],
    ["no poles", machineWith({ alternator: { polePairs: 0 } }), at(3000)],
    ["5 kV at idle", machineWith({ alternator: { emfPerKrpm: 4000 } }), at(1300)],
    ["no inductance", machineWith({ alternator: { windingHenry: 0 } }), at(3000)],
    ["NaN ohms", machineWith({ harness: { bplusOhms: Number.NaN } }), at(3000)],
    ["NaN speed", MACHINE, at(Number.NaN)],
    ["negative speed", MACHINE, at(-1)],
    ["infinite load", MACHINE, at(3000, Infinity)],
    ["stator at 900 °C", MACHINE, { ...at(3000), statorCelsius: 900 }],
  ];
  for (const [name, system, conditions] of refusals) {
    it(`[fault] ${name} is refused with the range`, () => {
      const point = operatingPoint(system, conditions);
      expect(point.ok).toBe(false);
      if (!point.ok)
        expect(point.fault).toMatchObject({
          code: "outside-range",
          min: expect.any(Number) as number,
          max: expect.any(Number) as number,
        });
    });
  }

  it("[property] any mix of states gives finite numbers or a fault, never NaN", () => {
    const state = fc.constantFrom("ok" as const, "open" as const, "short" as const);
    const stuck = fc.constantFrom(null, "on" as const, "off" as const);
    fc.assert(
      fc.property(
        fc.tuple(state, state, state),
        fc.tuple(state, state, state),
        fc.tuple(stuck, stuck, stuck),
        fc.constantFrom("shunt" as const, "series" as const),
        fc.integer({ min: 500, max: 7000 }),
        (upper, lower, pieces, kind, rpm) => {
          const point = operatingPoint(
            machineWith({ bridge: { upper, lower }, regulator: { kind, stuck: pieces } }),
            at(rpm),
            { ripple: false },
          );
          if (!point.ok) return point.fault.code === "not-converged";
          return Object.values(point.value)
            .flat()
            .every((value) => typeof value !== "number" || Number.isFinite(value));
        },
      ),
      SEED,
    );
  });
});
