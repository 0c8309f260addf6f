import type { ChargingSystem, Conditions } from "./types";
import { fail, ok, type Result } from "../result";

/** One number of the circuit: its name in messages, its unit, and what it can be, inclusive. */
type Bound = readonly [what: string, value: number, min: number, max: number, unit: string];

/**
 * Refuses what cannot be a charging circuit: negative resistance, no poles, 5 kV at idle. Written so
 * that NaN is refused too.
 *
 * @returns The system as it is, or `outside-range` with the range to enter
 */
export function checkSystem(system: ChargingSystem, at: Conditions): Result<ChargingSystem> {
  for (const [what, value, min, max, unit] of bounds(system, at)) {
    if (!(value >= min && value <= max)) return fail({ code: "outside-range", what, came: value, min, max, unit });
  }
  return ok(system);
}

function bounds(system: ChargingSystem, at: Conditions): Bound[] {
  const { alternator: a, bridge, regulator: r, harness: h, battery: b } = system;
  const list: Bound[] = [
    ["engine speed", at.rpm, 0, 20000, "rpm"],
    ["load", at.loadAmps, 0, 300, "A"],
    ["stator temperature", at.statorCelsius, -60, 250, "°C"],
    ["regulator temperature", at.regulatorCelsius, -60, 220, "°C"],
    ["no-load AC per 1000 rpm", a.emfPerKrpm, 0, 200, "V"],
    ["flux left in the rotor", a.emfScale, 0, 1.5, ""],
    ["fifth harmonic", a.harmonic5, -0.3, 0.3, ""],
    ["seventh harmonic", a.harmonic7, -0.3, 0.3, ""],
    ["winding resistance", a.windingOhms, 0, 100, "Ω"],
    ["winding inductance", a.windingHenry, 1e-6, 0.2, "H"],
    ["pairs of poles", a.polePairs, 1, 60, ""],
    ["resistance of a shorted device", bridge.shortOhms, 0, 100, "Ω"],
    ["saturation current of the diodes", bridge.diode.saturationAmps, 1e-16, 1e-3, "A"],
    ["ideality of the diodes", bridge.diode.ideality, 0.5, 4, ""],
    ["series resistance of the diodes", bridge.diode.seriesOhms, 0, 1, "Ω"],
    ["set point", r.setVolts, 4, 60, "V"],
    ["temperature coefficient of the set point", r.voltsPerC, -0.1, 0.1, "V/°C"],
    ["hysteresis of the regulator", r.hysteresisHalfVolts, 0, 3, "V"],
    ["filter time of the regulator", r.filterSeconds, 0, 1, "s"],
    ["resistance of the B+ run", h.bplusOhms, 0, 1e7, "Ω"],
    ["resistance of the ground run", h.groundOhms, 0, 1e7, "Ω"],
    ["battery open-circuit voltage", b.ocvVolts, 1, 60, "V"],
    ["battery resistance", b.ohms, 0, 100, "Ω"],
    ["charging polarization", b.chargeVolts, 1e-6, 10, "V"],
    ["charging polarization current", b.chargeAmps, 1e-9, 1e6, "A"],
    ["discharging polarization", b.dischargeVolts, 1e-6, 10, "V"],
    ["discharging polarization current", b.dischargeAmps, 1e-9, 1e6, "A"],
  ];
  for (let k = 0; k < 3; k++) {
    list.push(
      ["resistance of a phase lead", h.phaseOhms[k]!, 0, 1e7, "Ω"],
      ["resistance of a phase lead", h.statorSideOhms[k]!, 0, 1e7, "Ω"],
    );
  }
  if (a.turnShort) {
    list.push(
      ["share of teeth with shorted turns", a.turnShort.teethShare, 0, 1, ""],
      ["share of shorted turns", a.turnShort.turnShare, 0, 1, ""],
    );
    list.push(
      ["resistance between shorted turns", a.turnShort.ohms, 0, 1e9, "Ω"],
      ["coupling of shorted turns", a.turnShort.coupling, 0, 0.999, ""],
    );
  }
  if (a.groundLeak) {
    list.push(
      ["place of the ground leak", a.groundLeak.position, 0, 1, ""],
      ["resistance of the ground leak", a.groundLeak.ohms, 0, 1e12, "Ω"],
    );
  }
  if (a.field) {
    list.push(
      ["field resistance", a.field.ohms, 0.1, 1000, "Ω"],
      ["rated field current", a.field.ratedAmps, 0.01, 100, "A"],
    );
    list.push(["remanence of the field", a.field.remanence, 0, 0.2, ""]);
  }
  return list;
}
