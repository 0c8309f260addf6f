import { unregulated } from "../../../src/core/circuit/averaged";
import { meanPoint } from "../../../src/core/circuit/mean-point";
import { machineWith } from "./example-system";
import { at, solved } from "./solved-point";

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
