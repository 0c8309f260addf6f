import fc from "fast-check";
import { chargingBand } from "../../../src/core/circuit/charging-band";
import { energyBudget } from "../../../src/core/circuit/energy-budget";
import { expectedRipple } from "../../../src/core/circuit/expected-ripple";
import { expectedRunning } from "../../../src/core/circuit/expected-running";
import { breakEven, machineCurve } from "../../../src/core/circuit/machine-curve";
import { operatingPoint } from "../../../src/core/circuit/operating-point";
import type { ChargingSystem, Conditions } from "../../../src/core/circuit/types";
import { jobOf } from "./example-job";
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

  const contradictions: readonly [string, Readonly<Record<string, number | string>>, string][] = [
    ["regulated voltage upside down", { "regulated-min": 15, "regulated-max": 13 }, "regulated voltage, 15 V"],
    ["winding resistance upside down", { "stator-ohms-min": 2, "stator-ohms-max": 1 }, "winding resistance, 2 Ω"],
    ["seven poles", { poles: 7 }, "poles come in pairs"],
    ["12.7 V at rest and 6 V nominal", { "battery-nominal": 6, "rested-voltage": 12.7 }, "no 6 V battery"],
    ["4 kW from thin wire", { "rated-output": 4000, "stator-ohms-min": 3, "stator-ohms-max": 3 }, "cannot give 4000 W"],
  ];
  for (const [name, data, words] of contradictions) {
    it(`[fault] ${name}: machine data that contradict each other are refused, whatever is asked`, () => {
      const job = jobOf(data);
      for (const answer of [
        chargingBand({ type: "agm", job, rpm: 3000 }),
        expectedRunning(job, 3000),
        machineCurve(job, [3000]),
        breakEven(job),
        energyBudget(job, []),
        expectedRipple(job, 3000),
      ]) {
        expect(answer.ok ? null : answer.fault).toMatchObject({
          code: "refused",
          what: "machine data",
          why: expect.stringContaining(words) as string,
        });
      }
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
