import type { ChargingSystem } from "../../../src/core/circuit/types";
import { MACHINE, machineWith } from "./example-system";
import { at, free, solved } from "./solved-point";

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
