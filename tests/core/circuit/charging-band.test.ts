import { chargingBand } from "../../../src/core/circuit/charging-band";
import { runningVoltage } from "../../../src/core/circuit/running-voltage";
import type { Measured } from "../../../src/core/readings/types";
import { BATTERY_TYPES } from "../../../src/core/battery/types";
import { jobOf } from "./example-job";

const band = (question: Parameters<typeof chargingBand>[0]) => {
  const found = chargingBand(question);
  if (!found.ok) throw new Error(JSON.stringify(found.fault));
  return found.value.volts;
};
const CELLS = 6;

describe("published bands", () => {
  it("[RULE-01, RULE-02, from memory] 13.5 to 15.0 V at 25 °C with the target among the usual set points", () => {
    for (const type of ["flooded", "calcium", "agm"] as const) {
      const { low, likely, high } = band({ type });
      expect([low, high]).toEqual([13.5, 15]);
      expect(likely).toBeGreaterThanOrEqual(14.2);
      expect(likely).toBeLessThanOrEqual(14.7);
    }
  });
  it("[LFP-05, LFP-07] lithium: never above 14.6 V, hot or cold", () => {
    for (const temperature of [-10, 25, 45]) {
      const { likely, high } = band({ type: "lithium", temperature });
      expect(high).toBe(14.6);
      expect(likely).toBeGreaterThanOrEqual(14.2);
      expect(likely).toBeLessThanOrEqual(14.6);
    }
  });
  it("[BAT-33] at least 3 mV/°C per cell for lead-acid: 15 and 35 °C", () => {
    for (const type of ["flooded", "agm", "gel"] as const) {
      const perCell = (band({ type, temperature: 35 }).likely - band({ type, temperature: 15 }).likely) / CELLS / 20;
      expect(perCell).toBeLessThanOrEqual(-0.003 + 1e-9);
    }
  });
  it("[BAT-34] flooded: 0.028 V per cell for 10 °F", () => {
    const change =
      (band({ type: "flooded", temperature: 25 }).likely -
        band({ type: "flooded", temperature: 25 + 10 / 1.8 }).likely) /
      CELLS;
    expect(Math.abs(change - 0.028)).toBeLessThan(0.0028);
  });
  for (const [type, least, most] of [
    ["flooded", -6, -4],
    ["agm", -4, -3],
    ["gel", -5, -3],
  ] as const) {
    it(`[BAT-46, from memory] ${type}: ${least} to ${most} mV/°C per cell, clamped outside −20 to 50 °C`, () => {
      const perCell =
        ((band({ type, temperature: 35 }).likely - band({ type, temperature: 25 }).likely) / CELLS / 10) * 1000;
      expect(perCell).toBeGreaterThanOrEqual(least - 1e-9);
      expect(perCell).toBeLessThanOrEqual(most + 1e-9);
      expect(band({ type, temperature: -40 })).toEqual(band({ type, temperature: -20 }));
      expect(band({ type, temperature: 80 })).toEqual(band({ type, temperature: 50 }));
    });
  }
  it("[property] compensation widens the band, it never narrows it", () => {
    for (const type of BATTERY_TYPES) {
      const plain = band({ type });
      for (const temperature of [-20, 0, 40, 50]) {
        const { low, likely, high } = band({ type, temperature });
        expect(low).toBeLessThanOrEqual(plain.low);
        expect(high).toBeGreaterThanOrEqual(plain.high);
        expect(likely).toBeGreaterThanOrEqual(low);
        expect(likely).toBeLessThanOrEqual(high);
      }
    }
  });
  it("[fault] a battery at 900 °C is refused", () => {
    const found = chargingBand({ type: "agm", temperature: 900 });
    expect(found.ok ? null : found.fault).toMatchObject({ code: "outside-range", what: "battery temperature" });
  });
});

const PLATE = jobOf({
  "rated-output": 350,
  "rated-output-rpm": 5000,
  "no-load-nominal": 90,
  "no-load-nominal-rpm": 5000,
  "battery-type": "agm",
  "battery-capacity": 12,
  "regulator-kind": "shunt",
  "regulated-min": 13.7,
  "regulated-max": 14.9,
  "lights-load": 15,
  "rested-voltage": 12.6,
});

describe("with machine data", () => {
  it("[plate] the machine's own band, whatever the chemistry says", () => {
    expect(band({ type: "agm", job: PLATE })).toMatchObject({ low: 13.7, high: 14.9 });
  });
  it("[property] at idle with the lights on the lower end is what physics gives; at speed it is the plate's or near it", () => {
    const idle = band({ type: "agm", job: PLATE, rpm: 1100 });
    expect(idle.low).toBeLessThan(12.8);
    expect(idle.likely).toBeLessThan(13.2);
    expect(idle.high).toBe(14.9);
    expect(band({ type: "agm", job: PLATE, rpm: 5000 }).low).toBeGreaterThan(13.3);
  });
});

describe("running voltage", () => {
  const volts = (value: number): Measured => ({ kind: "number", value, resolution: 0.01 });
  const judged = (
    rest: number | undefined,
    idle: number | undefined,
    test: number | undefined,
    job?: typeof PLATE,
    rpms: { idleRpm?: number; testRpm?: number } = {},
  ) => {
    const found = runningVoltage(
      {
        rest: rest === undefined ? undefined : volts(rest),
        idle: idle === undefined ? undefined : volts(idle),
        test: test === undefined ? undefined : volts(test),
        ...rpms,
      },
      "agm",
      25,
      job,
    );
    if (!found.ok) throw new Error(JSON.stringify(found.fault));
    return found.value;
  };

  it("[RULE-02, from memory] 14.4 V passes, 12.4 V is not charging, 16.2 V overcharges", () => {
    expect(judged(12.7, undefined, 14.4).test.state).toBe("pass");
    const flat = judged(12.5, undefined, 12.4);
    expect(flat.state).toBe("fail");
    expect(flat.reason).toContain("not being charged");
    expect(judged(12.7, undefined, 16.2).state).toBe("fail");
  });
  it("[property] nothing read is nothing judged", () => {
    expect(judged(12.7, undefined, undefined)).toMatchObject({
      state: "not read",
      idle: { state: "not read" },
      test: { state: "not read" },
    });
  });
  it("[property] a low idle voltage condemns no machine that cannot do better there", () => {
    expect(judged(12.6, 12.6, 14.2, PLATE, { idleRpm: 1100, testRpm: 5000 }).state).toBe("pass");
    expect(judged(12.6, 12.6, 14.2).idle.state).not.toBe("fail");
  });
  it("[property] an idle voltage above the upper end fails even without machine data", () => {
    expect(judged(12.6, 16, undefined).idle.state).toBe("fail");
  });
});
