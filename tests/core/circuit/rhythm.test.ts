import { findRhythm } from "../../../src/core/circuit/rhythm";
import { createStepper } from "../../../src/core/circuit/stepper";
import type { ChargingSystem, Conditions } from "../../../src/core/circuit/types";
import { MACHINE, machineWith, WARM } from "./example-system";
import { at, solved } from "./solved-point";

/** The example machine, its battery's polarization where it charges with `slowAmps`. */
function rhythmOf(system: ChargingSystem, conditions: Conditions, slowAmps: number) {
  const stepper = createStepper(system, conditions);
  stepper.slowAmps = slowAmps;
  const periods = findRhythm(stepper, 40);
  if (!periods) throw new Error("no rhythm");
  return { periods, turn: stepper.measure(periods)!, long: stepper.measure(240)! };
}

describe("a circuit that repeats itself", () => {
  const chopping: readonly [string, ChargingSystem][] = [
    ["shunt, own output", MACHINE],
    ["shunt, one phase stuck", machineWith({ regulator: { stuck: ["off", null, null] } })],
    ["series, own output", machineWith({ regulator: { kind: "series" } })],
  ];
  for (const [name, system] of chopping) {
    it(`[cross-check, 240 periods] ${name}: one turn of its rhythm has the means of a long run`, () => {
      const { turn, long } = rhythmOf(system, WARM, solved(system, WARM).batteryAmps);
      expect(turn.duty).toBeGreaterThan(0);
      expect(Math.abs(turn.rectifierAmps - long.rectifierAmps)).toBeLessThan(0.005 * long.rectifierAmps);
      expect(Math.abs(turn.plusVolts - long.plusVolts)).toBeLessThan(0.002);
      expect(Math.abs(turn.duty - long.duty)).toBeLessThan(0.002);
    });
  }
  it("[limit] a regulator at rest leaves the rhythm of the machine itself: one period", () => {
    const { periods, turn, long } = rhythmOf(MACHINE, at(1400), 1.4);
    expect(periods).toBe(1);
    expect(turn.duty).toBe(0);
    expect(turn.rectifierAmps).toBeCloseTo(long.rectifierAmps, 3);
  });
  it("[limit] cut short, no rhythm is claimed", () => {
    expect(findRhythm(createStepper(MACHINE, WARM), 6)).toBe(0);
  });
});
