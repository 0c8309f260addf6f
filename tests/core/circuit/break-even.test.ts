import { unregulated } from "../../../src/core/circuit/averaged";
import { breakEven } from "../../../src/core/circuit/machine-curve";
import { systemFromMachine } from "../../../src/core/circuit/machine-from-job";
import { timeStepped } from "../../../src/core/circuit/steady-state";
import type { Result } from "../../../src/core/result";
import { jobOf } from "./example-job";

function good<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.fault));
  return result.value;
}
const machine = (change: Readonly<Record<string, number | string>>) =>
  jobOf({
    "rated-output": 300,
    "rated-output-rpm": 5000,
    "no-load-nominal": 95,
    "no-load-nominal-rpm": 5000,
    "battery-type": "agm",
    "battery-capacity": 14,
    "lights-load": 8,
    "rested-voltage": 12.7,
    ...change,
  });

describe("break-even speed", () => {
  const kinds: Readonly<Record<string, ReturnType<typeof machine>>> = {
    "three-phase": machine({}),
    "single-phase": machine({ "alternator-kind": "single-phase", "rated-output": 200 }),
    "half-wave": machine({ "alternator-kind": "half-wave", "rated-output": 200 }),
    "very strong": machine({ "rated-output": 4000 }),
  };
  for (const [name, job] of Object.entries(kinds)) {
    it(`[cross-check, time-stepped] ${name}: nothing flows into the battery there, more above it, less below`, () => {
      const { low, likely, high } = good(breakEven(job));
      expect(low).toBeLessThan(likely);
      expect(likely).toBeLessThan(high);
      const model = good(systemFromMachine(job));
      const amps = (rpm: number) => good(timeStepped(model.system, model.at(rpm), false)).batteryAmps;
      expect(Math.abs(amps(likely))).toBeLessThan(0.25);
      expect(amps(1.1 * likely)).toBeGreaterThan(amps(likely));
      expect(amps(0.9 * likely)).toBeLessThan(amps(likely));
    });
  }
});

it("[cross-check, time-stepped] a machine of very little resistance has its closed form too", () => {
  const model = good(systemFromMachine(machine({ "rated-output": 4000, "regulator-kind": "none" })));
  for (const rpm of [2500, 5000]) {
    const quick = unregulated(model.system, model.at(rpm));
    expect(quick.valid).toBe(true);
    const timed = good(timeStepped(model.system, model.at(rpm), false));
    expect(Math.abs(quick.rectifierAmps / timed.rectifierAmps - 1)).toBeLessThan(0.03);
  }
});
