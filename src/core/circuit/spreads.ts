import { ACCEPTANCE_LOG_SPREAD, TYPICAL } from "./typical";
import type { ChargingSystem, Conditions, Triple } from "./types";

/** Which values came from the job; the others spread as widely as machines do. */
export interface Known {
  readonly emf: boolean;
  readonly ohms: boolean;
  readonly rated: boolean;
  readonly set: boolean;
  readonly capacity: boolean;
  readonly rested: boolean;
  readonly load: boolean;
  readonly ambient: boolean;
  readonly emfTolerance: number | undefined;
}

/** The circuit and its conditions together: what a spread moves. */
export interface Case {
  readonly system: ChargingSystem;
  readonly at: Conditions;
}

/** One thing that is not known exactly: how the case looks when it lies z standard deviations off. */
export interface Spread {
  readonly what: string;
  readonly vary: (given: Case, z: number) => Case;
}

/** Everything that is not known exactly of a machine, independent of each other. */
export function spreadsOf(known: Known, scale: number): readonly Spread[] {
  const emf = !known.emf
    ? TYPICAL.emfPerKrpm.relative
    : Math.max(TYPICAL.emfOfNominal, (known.emfTolerance ?? 15) / 400);
  const ohms = known.ohms ? TYPICAL.ohmsOfNominal : TYPICAL.lineOhmWatts.relative;
  const henry = known.rated ? TYPICAL.henryOfRated : TYPICAL.ratedWatts.relative;
  const set = known.set ? TYPICAL.setAboveMiddle.sd : TYPICAL.setVolts.sd;
  return [
    alternator("no-load AC", (a, z) => ({ ...a, emfPerKrpm: a.emfPerKrpm * times(emf, z) })),
    alternator("winding resistance", (a, z) => ({ ...a, windingOhms: a.windingOhms * times(ohms, z) })),
    alternator("winding inductance", (a, z) => ({ ...a, windingHenry: a.windingHenry * times(henry, z) })),
    alternator("fifth harmonic", (a, z) => ({ ...a, harmonic5: clip(a.harmonic5 + TYPICAL.harmonic5 * z, 0.12) })),
    alternator("seventh harmonic", (a, z) => ({ ...a, harmonic7: clip(a.harmonic7 + TYPICAL.harmonic7 * z, 0.08) })),
    regulator("set point", (r, z) => ({ ...r, setVolts: r.setVolts + set * scale * z })),
    regulator("set point with temperature", (r, z) => ({
      ...r,
      voltsPerC: r.voltsPerC + TYPICAL.voltsPerC.sd * scale * z,
    })),
    regulator("hysteresis", (r, z) => ({
      ...r,
      hysteresisHalfVolts: Math.max(0.02 * scale, r.hysteresisHalfVolts + TYPICAL.hysteresisHalfVolts.sd * scale * z),
    })),
    regulator("filter time", (r, z) => ({
      ...r,
      filterSeconds: Math.max(1e-4, r.filterSeconds + TYPICAL.filterSeconds.sd * z),
    })),
    // One regulator in three senses at the battery.
    regulator("sense point", (r, z) => ({ ...r, senses: z > 0.43 ? "battery" : "own output" })),
    {
      what: "forward drop",
      vary: ({ system, at }, z) => ({
        at,
        system: {
          ...system,
          bridge: {
            ...system.bridge,
            diode: {
              ...system.bridge.diode,
              saturationAmps: system.bridge.diode.saturationAmps * times(TYPICAL.diodeLogSpread, z),
            },
          },
        },
      }),
    },
    harness("B+ run", (h, z) => ({ ...h, bplusOhms: h.bplusOhms * times(TYPICAL.bplusOhms.relative, z) })),
    harness("ground run", (h, z) => ({ ...h, groundOhms: h.groundOhms * times(TYPICAL.groundOhms.relative, z) })),
    ...[0, 1, 2].map((phase) =>
      harness(`phase connector ${"ABC"[phase]}`, (h, z) => ({
        ...h,
        phaseOhms: h.phaseOhms.map((ohm, k) =>
          k === phase ? ohm * times(TYPICAL.phaseOhms.relative, z) : ohm,
        ) as unknown as Triple<number>,
      })),
    ),
    battery("state of charge", (b, z) => {
      // Without a rested voltage the charge itself is open: voltage and acceptance move together.
      const shift = known.rested ? TYPICAL.restedSd * z : clip(TYPICAL.charge.sd * z, 0.6) * 1.05;
      const full = Math.min(shift, 0.3 * (known.rested ? 1 : 0.9));
      return { ...b, ocvVolts: b.ocvVolts + full * scale, chargeAmps: b.chargeAmps * Math.exp(-2.2 * full) };
    }),
    battery("battery resistance", (b, z) => ({
      ...b,
      ohms: b.ohms * times(known.capacity ? TYPICAL.batteryOhms : TYPICAL.capacityAh.relative, z),
    })),
    battery("charge acceptance", (b, z) => ({
      ...b,
      chargeAmps: b.chargeAmps * times(known.capacity ? ACCEPTANCE_LOG_SPREAD : 0.5, z),
    })),
    conditions("load", (at, z) => ({
      ...at,
      loadAmps: at.loadAmps * times(known.load ? TYPICAL.loadOfNominal : TYPICAL.loadShare.relative, z),
    })),
    conditions("engine speed", (at, z) => ({ ...at, rpm: at.rpm * (1 + TYPICAL.tachometer * z) })),
    conditions("stator temperature", (at, z) => ({
      ...at,
      statorCelsius: at.statorCelsius + Math.hypot(TYPICAL.statorRise.sd, surroundings(known)) * z,
    })),
    conditions("regulator temperature", (at, z) => ({
      ...at,
      regulatorCelsius: at.regulatorCelsius + Math.hypot(TYPICAL.regulatorRise.sd, surroundings(known)) * z,
    })),
  ];
}

function surroundings(known: Known): number {
  return known.ambient ? 0 : TYPICAL.ambientCelsius.sd;
}

/** A positive quantity z deviations off: logarithmic, so that it never turns negative. */
function times(relative: number, z: number): number {
  return Math.exp(relative * z);
}

function clip(value: number, most: number): number {
  return Math.max(-most, Math.min(most, value));
}

const part =
  <K extends "alternator" | "regulator" | "harness" | "battery">(key: K) =>
  (what: string, change: (part: ChargingSystem[K], z: number) => ChargingSystem[K]): Spread => ({
    what,
    vary: ({ system, at }, z) => ({ at, system: { ...system, [key]: change(system[key], z) } }),
  });
const alternator = part("alternator");
const regulator = part("regulator");
const harness = part("harness");
const battery = part("battery");

function conditions(what: string, change: (at: Conditions, z: number) => Conditions): Spread {
  return { what, vary: ({ system, at }, z) => ({ system, at: change(at, z) }) };
}
