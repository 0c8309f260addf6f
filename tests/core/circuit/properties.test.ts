import fc from "fast-check";
import { unregulated } from "../../../src/core/circuit/averaged";
import { meanPoint } from "../../../src/core/circuit/mean-point";
import { operatingPoint } from "../../../src/core/circuit/operating-point";
import { timeStepped } from "../../../src/core/circuit/steady-state";
import type { ChargingSystem, Conditions, OperatingPoint } from "../../../src/core/circuit/types";
import { MACHINE, machineWith, WARM } from "./example-system";

/** Same rows on every run. */
const SEED = { seed: 20251125, numRuns: 40 };

function at(rpm: number, loadAmps = 12): Conditions {
  return { ...WARM, rpm, loadAmps };
}
function solved(
  system: ChargingSystem,
  conditions: Conditions,
  model: "best" | "time-stepped" = "time-stepped",
): OperatingPoint {
  const point = operatingPoint(system, conditions, { model });
  if (!point.ok) throw new Error(JSON.stringify(point.fault));
  return point.value;
}
const free = machineWith({ regulator: { kind: "none" } });

describe("limits", () => {
  it("[limit] at zero speed the battery alone carries the load", () => {
    const point = solved(MACHINE, at(0));
    expect(point.rectifierAmps).toBeCloseTo(0, 9);
    expect(point.batteryAmps).toBeCloseTo((-point.batteryVolts * 12) / 13.5, 6);
    expect(point.batteryVolts).toBeLessThan(MACHINE.battery.ocvVolts);
    expect(point.rippleVoltsRms).toBe(0);
  });
  it("[limit] without emf the same", () => {
    const point = solved(machineWith({ alternator: { emfScale: 0 } }), at(4000));
    expect(point).toMatchObject({ rectifierAmps: expect.closeTo(0, 9) as number, statorWatts: 0, regulatorWatts: 0 });
    expect(point.batteryVolts).toBeCloseTo(solved(MACHINE, at(0)).batteryVolts, 9);
  });
  it("[limit] without load and below conduction nothing flows at all", () => {
    const point = solved(MACHINE, at(300, 0));
    expect(Math.abs(point.batteryAmps)).toBeLessThan(2e-3);
    expect(point.batteryVolts).toBeCloseTo(MACHINE.battery.ocvVolts, 1);
  });
  it("[limit] without load all that the rectifier gives goes into the battery", () => {
    const point = solved(free, at(3000, 0));
    expect(point.batteryAmps).toBeCloseTo(point.rectifierAmps, 9);
  });
  it("[limit] an infinite battery holds its voltage whatever flows", () => {
    const stiff = machineWith({
      regulator: { kind: "none" },
      battery: { ohms: 0, chargeVolts: 1e-6, dischargeVolts: 1e-6 },
    });
    for (const rpm of [1200, 3000, 6000]) {
      const point = solved(stiff, at(rpm));
      expect(point.batteryVolts).toBeCloseTo(12.6, 4);
      expect(point.rippleVoltsRms).toBeCloseTo(0, 9);
    }
  });
  it("[limit] a B+ run that is open: nothing reaches the battery, at any speed", () => {
    for (const rpm of [1300, 5000]) {
      const point = solved(machineWith({ harness: { bplusOhms: 1e7 } }), at(rpm));
      expect(Math.abs(point.rectifierAmps)).toBeLessThan(1e-3);
      expect(point.batteryVolts).toBeCloseTo(solved(MACHINE, at(0)).batteryVolts, 3);
    }
  });
});

describe("power", () => {
  const broken: Readonly<Record<string, ChargingSystem>> = {
    healthy: MACHINE,
    "no regulator": free,
    delta: machineWith({ alternator: { connection: "delta", windingOhms: 0.75, windingHenry: 0.0018 } }),
    series: machineWith({ regulator: { kind: "series" } }),
    "upper open": machineWith({ bridge: { upper: ["open", "ok", "ok"] } }),
    "lower shorted": machineWith({ bridge: { lower: ["ok", "short", "ok"] } }),
    "lead open": machineWith({ harness: { leadOpen: [false, false, true] } }),
    "one phase shunting": machineWith({ regulator: { stuck: ["on", null, null] } }),
  };
  for (const [name, system] of Object.entries(broken)) {
    it(`[property] ${name}: what leaves the bridge is heat in the runs, the load and the battery`, () => {
      const point = solved(system, at(3500));
      const { battery, harness } = system;
      const iRms2 = point.rectifierAmps ** 2 + (point.batteryAmpsAcRms * (1 + (battery.ohms * 12) / 13.5)) ** 2;
      const intoBattery =
        (battery.ocvVolts + point.polarizationVolts) * point.batteryAmps +
        battery.ohms * (point.batteryAmps ** 2 + point.batteryAmpsAcRms ** 2);
      const load = ((point.batteryVolts ** 2 + point.rippleVoltsRms ** 2) * 12) / 13.5;
      const runs = (harness.bplusOhms + harness.groundOhms) * iRms2;
      const delivered = intoBattery + load + runs;
      // Everything on the DC side, against the mean power at the regulator's own terminals.
      const ripple =
        (harness.bplusOhms + harness.groundOhms + battery.ohms / (1 + (battery.ohms * 12) / 13.5)) *
        (iRms2 - point.rectifierAmps ** 2);
      expect(Math.abs(point.regulatorVolts * point.rectifierAmps + ripple - delivered)).toBeLessThan(
        0.01 * Math.abs(delivered) + 0.5,
      );
    });
  }

  it("[property] emf power is heat and output: copper, leads, bridge, DC side", () => {
    const { regulator, ...rest } = MACHINE;
    const point = solved({ ...rest, regulator: { ...regulator, kind: "none" } }, at(3500));
    const copper = 3 * point.phaseAmpsRms[0] ** 2 * 0.25 * (1 + 0.00393 * 70);
    // Stator heat is found from the balance of emf and terminals, copper from the currents.
    expect(Math.abs(point.statorWatts - copper)).toBeLessThan(0.01 * copper);
    expect(point.regulatorWatts).toBeGreaterThan(1.5 * point.rectifierAmps);
    expect(point.regulatorWatts).toBeLessThan(2.4 * point.rectifierAmps);
  });
});

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

describe("a regulator at work", () => {
  for (const kind of ["shunt", "series"] as const) {
    for (const senses of ["battery", "own output"] as const) {
      it(`[property] ${kind}, sensing ${senses}: the mean stays near the switching level at every speed`, () => {
        const system = machineWith({ regulator: { kind, senses } });
        for (const rpm of [2500, 4000, 6500]) {
          const point = solved(system, at(rpm));
          const sensed = senses === "battery" ? point.batteryVolts : point.regulatorVolts;
          expect(Math.abs(sensed - (14.5 - 0.0024 * 40))).toBeLessThan(0.35);
          expect(point.regulatorDuty).toBeGreaterThan(0);
          const quick = meanPoint(system, at(rpm));
          expect(
            quick.ok && Math.abs(quick.value.batteryVolts - point.batteryVolts) <= quick.value.errorVolts + 0.05,
          ).toBe(true);
        }
      });
    }
  }

  it("[property] never firing, or shunting all the time, gives nothing; never shunting overcharges", () => {
    const nothing = [
      machineWith({ regulator: { kind: "series", stuck: ["off", "off", "off"] } }),
      machineWith({ regulator: { stuck: ["on", "on", "on"] } }),
    ];
    for (const system of nothing) expect(Math.abs(solved(system, at(5000)).rectifierAmps)).toBeLessThan(0.02);
    expect(solved(machineWith({ regulator: { stuck: ["off", "off", "off"] } }), at(5000)).batteryVolts).toBeGreaterThan(
      15,
    );
  });
});

describe("other machines", () => {
  const single = (kind: "single-phase full-wave" | "single-phase half-wave") =>
    machineWith({
      alternator: { kind, emfPerKrpm: 11, windingOhms: 0.3, windingHenry: 0.0008, polePairs: 6 },
      regulator: { kind: "none" },
    });

  it("[property] a half-wave machine gives less than a full-wave one, with its ripple at f instead of 2f", () => {
    const full = solved(single("single-phase full-wave"), at(3000, 4));
    const half = solved(single("single-phase half-wave"), at(3000, 4));
    expect(half.rectifierAmps).toBeLessThan(full.rectifierAmps);
    expect(half.rectifierAmps).toBeGreaterThan(0);
    expect(full.rippleLines[0]?.hertz).toBeCloseTo(2 * full.hertz, 6);
    expect(half.rippleLines[0]?.hertz).toBeCloseTo(half.hertz, 6);
    expect(half.phaseAmpsRms[2]).toBeLessThan(1e-3);
  });
  it("[cross-check, time-stepped] full-wave closed form within 3 %", () => {
    for (const rpm of [2500, 4000, 6000]) {
      const system = single("single-phase full-wave");
      const quick = unregulated(system, at(rpm, 4));
      if (!quick.valid) continue;
      expect(Math.abs(quick.rectifierAmps / solved(system, at(rpm, 4)).rectifierAmps - 1)).toBeLessThan(0.03);
    }
    expect(unregulated(single("single-phase full-wave"), at(6000, 4)).valid).toBe(true);
  });
  it("[property] a field-excited machine holds its level exactly while it can, and carries its own field", () => {
    const system = machineWith({
      alternator: {
        kind: "field-excited",
        emfPerKrpm: 12,
        windingOhms: 0.06,
        windingHenry: 0.00015,
        polePairs: 6,
        field: { ohms: 3, ratedAmps: 4, remanence: 0.03 },
      },
      regulator: { kind: "field", senses: "battery" },
    });
    const level = 14.5 - 0.0024 * 40;
    for (const rpm of [3000, 6000]) {
      const point = solved(system, at(rpm, 20), "best");
      expect(point.batteryVolts).toBeCloseTo(level, 2);
      expect(point.regulatorDuty).toBeGreaterThan(0.1);
    }
    const slow = solved(system, at(700, 20), "best");
    expect(slow.batteryVolts).toBeLessThan(level - 0.5);
    expect(slow.regulatorDuty).toBeCloseTo(0, 9);
  });
});

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
