import fc from "fast-check";
import { unregulated } from "../../../src/core/circuit/averaged";
import { meanPoint } from "../../../src/core/circuit/mean-point";
import { timeStepped } from "../../../src/core/circuit/steady-state";
import type { ChargingSystem, Conditions } from "../../../src/core/circuit/types";
import { machineWith } from "./example-system";
import { at, free, SEED, solved } from "./solved-point";

describe("monotony of the unregulated machine", () => {
  const amps = (system: ChargingSystem, conditions: Conditions) => unregulated(system, conditions).rectifierAmps;

  it("[property] more speed, more output", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 900, max: 8000, noNaN: true }),
        (rpm) => amps(free, at(rpm * 1.02)) >= amps(free, at(rpm)) - 1e-6,
      ),
      SEED,
    );
  });
  it("[property] more load, less for the battery", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1300, max: 8000, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (rpm, load) => {
          const battery = (l: number) => unregulated(free, at(rpm, l)).batteryAmps;
          return battery(load + 1) < battery(load);
        },
      ),
      SEED,
    );
  });
  it("[property] more resistance in the winding, less output", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1300, max: 8000, noNaN: true }),
        fc.double({ min: 0.1, max: 0.8, noNaN: true }),
        (rpm, ohms) => {
          const withOhms = (windingOhms: number) =>
            amps(machineWith({ alternator: { windingOhms }, regulator: { kind: "none" } }), at(rpm));
          return withOhms(ohms * 1.05) <= withOhms(ohms) + 1e-6;
        },
      ),
      SEED,
    );
  });
  it("[property] weaker magnets, less output; time-stepped says the same", () => {
    const weak = machineWith({ alternator: { emfScale: 0.6 }, regulator: { kind: "none" } });
    for (const rpm of [1500, 3000, 5500]) {
      expect(amps(weak, at(rpm))).toBeLessThan(amps(free, at(rpm)));
      expect(solved(weak, at(rpm)).rectifierAmps).toBeLessThan(solved(free, at(rpm)).rectifierAmps);
    }
  });
});

describe("the two models", () => {
  it("[cross-check, time-stepped] closed form within 1 % mean and 3 % at most where its flag is up", () => {
    const errors: number[] = [];
    fc.assert(
      fc.property(
        fc.double({ min: 1200, max: 7000, noNaN: true }),
        fc.double({ min: 14, max: 24, noNaN: true }),
        fc.double({ min: 0.1, max: 0.6, noNaN: true }),
        fc.double({ min: 2, max: 25, noNaN: true }),
        fc.boolean(),
        (rpm, emfPerKrpm, ohms, load, delta) => {
          const system = machineWith({
            alternator: {
              emfPerKrpm,
              connection: delta ? "delta" : "wye",
              windingOhms: delta ? 3 * ohms : ohms,
              windingHenry: (delta ? 3 : 1) * 0.0024 * ohms,
            },
            regulator: { kind: "none" },
          });
          const quick = unregulated(system, at(rpm, load));
          if (!quick.valid) return;
          const timed = timeStepped(system, at(rpm, load), false);
          if (!timed.ok) throw new Error(timed.fault.code);
          errors.push(
            Math.abs(quick.rectifierAmps - timed.value.rectifierAmps) / Math.max(timed.value.rectifierAmps, 1),
          );
        },
      ),
      { ...SEED, numRuns: 80 },
    );
    expect(errors.length).toBeGreaterThan(30);
    expect(errors.reduce((sum, e) => sum + e, 0) / errors.length).toBeLessThan(0.01);
    expect(Math.max(...errors)).toBeLessThan(0.03);
  });

  it("[property] outside its flag the closed form hands over", () => {
    const weak = machineWith({ alternator: { emfScale: 0.62 } });
    const conditions = at(1300);
    expect(unregulated(weak, conditions).valid).toBe(false);
    expect(solved(weak, conditions, "best").model).toBe("time-stepped");
    const mean = meanPoint(weak, conditions);
    expect(mean.ok && mean.value.model).toBe("time-stepped");
  });

  it("[property] a delta machine is a wye machine of a third of its winding", () => {
    const delta = machineWith({
      alternator: { connection: "delta", windingOhms: 0.75, windingHenry: 0.0018, harmonic5: 0, harmonic7: 0 },
      regulator: { kind: "none" },
    });
    const wye = machineWith({ alternator: { harmonic5: 0, harmonic7: 0 }, regulator: { kind: "none" } });
    for (const rpm of [1400, 2500, 6000]) {
      expect(solved(delta, at(rpm)).rectifierAmps).toBeCloseTo(solved(wye, at(rpm)).rectifierAmps, 2);
    }
  });
});
