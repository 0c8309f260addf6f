import { sixStep } from "../../../src/core/circuit/six-step";
import { lineSource } from "../../../src/core/circuit/phase-source";
import { systemFromMachine } from "../../../src/core/circuit/machine-from-job";
import { expectedRunning } from "../../../src/core/circuit/expected-running";
import { breakEven, machineCurve } from "../../../src/core/circuit/machine-curve";
import { expectedRipple } from "../../../src/core/circuit/expected-ripple";
import { energyBudget } from "../../../src/core/circuit/energy-budget";
import { jobOf } from "./example-job";

/** Plate of an invented machine. */
const PLATE = {
  "rated-output": 400,
  "rated-output-rpm": 5000,
  "no-load-nominal": 95,
  "no-load-nominal-rpm": 5000,
  "stator-ohms-min": 0.4,
  "stator-ohms-max": 0.6,
  "stator-ohms-temp": 20,
  poles: 18,
  "battery-type": "agm",
  "battery-capacity": 14,
  "regulator-kind": "shunt",
  "stator-connection": "wye",
  "regulated-min": 13.5,
  "regulated-max": 15,
  "lights-load": 14,
  "battery-temperature": 20,
  "rested-voltage": 12.7,
} as const;

function machine(data: Record<string, string | number>) {
  const found = systemFromMachine(jobOf(data));
  if (!found.ok) throw new Error(JSON.stringify(found.fault));
  return found.value;
}

describe("a machine from its plate", () => {
  it("[plate] the stated values are in the circuit", () => {
    const { system, assumed } = machine(PLATE);
    expect(system.alternator.emfPerKrpm).toBeCloseTo(19, 9);
    expect(system.alternator.windingOhms).toBeCloseTo(0.25, 9);
    expect(system.alternator.polePairs).toBe(9);
    expect(system.battery.ocvVolts).toBe(12.7);
    expect(assumed).toEqual([]);
  });

  for (const connection of ["wye", "delta"] as const) {
    for (const watts of [200, 400, 600]) {
      it(`[plate, ${connection}, ${watts} W] the circuit gives its rated watts at 14 V and rated speed`, () => {
        const { system } = machine({
          ...PLATE,
          "rated-output": watts,
          "stator-connection": connection,
          "stator-ohms-min": 160 / watts,
          "stator-ohms-max": 240 / watts,
        });
        const at = { rpm: 5000, loadAmps: 0, statorCelsius: 90, regulatorCelsius: 65 };
        const source = lineSource(system, at, watts / 14);
        const wave = sixStep(source, 14 + 2 * source.deviceVolts);
        expect(wave.valid).toBe(true);
        expect(Math.abs((14 * wave.amps) / watts - 1)).toBeLessThan(0.02);
      });
    }
  }

  it("[property] less known, wider band; what was filled in is named", () => {
    const full = expectedRunning(jobOf(PLATE), 1400);
    const bare = expectedRunning(jobOf({ "battery-type": "agm", "rated-output": 400 }), 1400);
    if (!full.ok || !bare.ok) throw new Error("no expectation");
    expect(bare.value.volts.high - bare.value.volts.low).toBeGreaterThan(full.value.volts.high - full.value.volts.low);
    expect(bare.value.assumed.length).toBeGreaterThan(5);
    expect(bare.value.assumed.join()).toContain("no-load AC taken");
  });

  it("[property] the band holds its likely value; at speed the regulator limits, at idle the machine", () => {
    for (const [rpm, limit] of [
      [900, "machine"],
      [5000, "regulator"],
    ] as const) {
      const expected = expectedRunning(jobOf(PLATE), rpm, 16);
      if (!expected.ok) throw new Error("no expectation");
      const { volts, amps, limitedBy } = expected.value;
      expect(limitedBy).toBe(limit);
      expect(volts.low).toBeLessThan(volts.likely);
      expect(volts.likely).toBeLessThan(volts.high);
      expect(amps.low).toBeLessThan(amps.likely);
    }
  });

  it("[fault] a rating that these windings cannot give is refused with what to check", () => {
    const found = systemFromMachine(jobOf({ ...PLATE, "rated-output": 4000 }));
    expect(found.ok ? null : found.fault).toMatchObject({
      code: "refused",
      why: expect.stringContaining("cannot give 4000 W") as string,
    });
  });

  it("[property] a 6 V machine is the 12 V machine halved", () => {
    const half = machine({
      ...PLATE,
      "battery-nominal": 6,
      "rated-output": 100,
      "no-load-nominal": 47.5,
      "rested-voltage": 6.35,
      "regulated-min": 6.75,
      "regulated-max": 7.5,
      "lights-load": 7,
    });
    const twelve = machine({ ...PLATE, "rated-output": 200, "lights-load": 7 });
    expect(half.system.battery.ocvVolts * 2).toBeCloseTo(twelve.system.battery.ocvVolts, 9);
    expect(half.system.regulator.setVolts * 2).toBeCloseTo(twelve.system.regulator.setVolts, 9);
    // The same current at half the voltage: a load of half the ohms.
    expect(half.at(3000).loadAmps).toBeCloseTo(2 * twelve.at(3000).loadAmps, 9);
  });
});

describe("curve, break-even, budget, ripple", () => {
  it("[property] the curve rises to the regulator's level and stays, its band round it", () => {
    const speeds = [300, 800, 1200, 1600, 2500, 4000, 6000];
    const curve = machineCurve(jobOf(PLATE), speeds);
    if (!curve.ok) throw new Error("no curve");
    expect(curve.value.map(({ rpm }) => rpm)).toEqual(speeds);
    for (const { volts } of curve.value) {
      expect(volts.low).toBeLessThanOrEqual(volts.likely);
      expect(volts.likely).toBeLessThanOrEqual(volts.high);
    }
    const likely = curve.value.map(({ volts }) => volts.likely);
    for (let k = 1; k < 4; k++) expect(likely[k]!).toBeGreaterThanOrEqual(likely[k - 1]! - 1e-6);
    expect(Math.abs(likely[6]! - likely[4]!)).toBeLessThan(0.2);
    expect(curve.value[0]!.amps).toBeLessThan(-10);
  });

  it("[property] at the break-even speed the battery current is nil; more load, more speed", () => {
    const even = breakEven(jobOf(PLATE));
    const loaded = breakEven(jobOf(PLATE), 20);
    if (!even.ok || !loaded.ok) throw new Error("no break-even");
    const there = machineCurve(jobOf(PLATE), [even.value.likely]);
    expect(there.ok && Math.abs(there.value[0]!.amps)).toBeLessThan(0.3);
    expect(even.value.low).toBeLessThan(even.value.likely);
    expect(even.value.likely).toBeLessThan(even.value.high);
    expect(loaded.value.likely).toBeGreaterThan(even.value.likely);
  });
  it("[fault] a load beyond the machine has no break-even", () => {
    const even = breakEven(jobOf(PLATE), 60);
    expect(even.ok ? null : even.fault.code).toBe("refused");
  });

  it("[property] a long ride fills the battery, idling with everything on drains it", () => {
    const job = jobOf({ ...PLATE, "rested-voltage": 12.4 });
    const ride = energyBudget(job, [{ amps: 8, duty: 1 }], [{ rpm: 4500, minutes: 180 }]);
    const idling = energyBudget(job, [{ amps: 25, duty: 1 }], [{ rpm: 1100, minutes: 30 }]);
    if (!ride.ok || !idling.ok) throw new Error("no budget");
    expect(ride.value.netAmpHours).toBeGreaterThan(0.5);
    expect(idling.value.netAmpHours).toBeLessThan(-2);
    expect(idling.value.chargeAfter).toBeLessThan(ride.value.chargeAfter);
    expect(ride.value.startsTomorrow).toBe("yes");
    // Ampere-hours and state of charge say the same.
    expect((idling.value.chargeAfter - 0.5625) * 14).toBeCloseTo(idling.value.netAmpHours, 1);
  });
  it("[property] the cold makes the same battery crank like a smaller one", () => {
    const warm = energyBudget(
      jobOf({ ...PLATE, "rested-voltage": 12.35, "battery-temperature": 20 }),
      [{ amps: 14, duty: 1 }],
      [{ rpm: 1200, minutes: 10 }],
    );
    const cold = energyBudget(
      jobOf({ ...PLATE, "rested-voltage": 12.35, "battery-temperature": -18 }),
      [{ amps: 14, duty: 1 }],
      [{ rpm: 1200, minutes: 10 }],
    );
    expect([warm.ok && warm.value.startsTomorrow, cold.ok && cold.value.startsTomorrow]).toEqual(["yes", "no"]);
  });
  it("[fault] a duty of 3 is refused", () => {
    const budget = energyBudget(jobOf(PLATE), [{ amps: 5, duty: 3 }]);
    expect(budget.ok ? null : budget.fault).toMatchObject({ code: "outside-range", what: "duty", max: 1 });
  });

  it("[property] without a regulator the ripple stands at six times the frequency, a chopping one ripples more", () => {
    const plain = expectedRipple(jobOf({ ...PLATE, "regulator-kind": "none" }), 3000, 20);
    const chopping = expectedRipple(jobOf(PLATE), 5000, 8);
    if (!plain.ok || !chopping.ok) throw new Error("no ripple");
    expect(plain.value.mainHertz).toBeCloseTo(6 * (3000 / 60) * 9, 6);
    expect(plain.value.regulatorWorks).toBe(false);
    expect(chopping.value.regulatorWorks).toBe(true);
    expect(chopping.value.volts.likely).toBeGreaterThan(3 * plain.value.volts.likely);
  });
});
