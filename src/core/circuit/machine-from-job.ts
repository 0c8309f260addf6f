import { REST_TABLES } from "../battery/rest-tables";
import type { BatteryType } from "../battery/types";
import { choiceIn, numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { readTable, swapped } from "../table";
import { fail, ok, type Result } from "../result";
import { diodeAt, dropAt } from "./diode-law";
import { withoutContradiction } from "./machine-contradictions";
import { sixStep } from "./six-step";
import { spreadsOf, type Spread } from "./spreads";
import { COPPER_PER_C } from "./stator-network";
import { ACCEPTANCE, DISCHARGE_PER_AH, TYPICAL } from "./typical";
import type { AlternatorKind, Battery, ChargingSystem, Conditions, Connection, Regulator } from "./types";

/** A machine as the shop knows it: likely values, how far they spread, and what was filled in. */
export interface MachineModel {
  readonly system: ChargingSystem;
  /** Likely running conditions; speed and load are the caller's, the machine's own load where left out. */
  at(rpm: number, loadAmps?: number): Conditions;
  readonly spreads: readonly Spread[];
  /** What was not given and is taken as typical, in words for the user. */
  readonly assumed: readonly string[];
  /** Nominal volts over 12. */
  readonly scale: number;
}

const KINDS: Readonly<Record<string, AlternatorKind>> = {
  "three-phase": "three-phase",
  "single-phase": "single-phase full-wave",
  "half-wave": "single-phase half-wave",
  "field-excited": "field-excited",
};

/**
 * A healthy machine from its data: emf from the no-load AC, winding resistance from the stated ohms,
 * inductance from the rated watts (the one value at which the machine gives them), set point from the
 * regulated band, battery from type, capacity and rested voltage. What is missing is typical, and
 * spreads as healthy machines do.
 *
 * @param job - Machine data and readings by catalogue id
 * @returns The machine; `refused` where the data contradict each other (a rating that no inductance gives)
 * @source common-practice (typical values)
 */
export function systemFromMachine(job: Job): Result<MachineModel> {
  const possible = withoutContradiction(job);
  if (!possible.ok) return possible;
  const assumed: string[] = [];
  const take = (id: string, typical: number, words: string): number => {
    const given = numberIn(job, id);
    if (given === undefined) assumed.push(words);
    return given ?? typical;
  };
  const scale = (numberIn(job, "battery-nominal") ?? 12) / 12;
  const kind = KINDS[choiceIn(job, "alternator-kind") ?? "three-phase"];
  if (!kind) return fail({ code: "not-converged", what: "charging circuit" });
  const connection: Connection = choiceIn(job, "stator-connection") === "delta" ? "delta" : "wye";
  const watts = take("rated-output", TYPICAL.ratedWatts.value * scale, "rated output taken as 375 W");
  const ratedRpm = numberIn(job, "rated-output-rpm") ?? TYPICAL.ratedRpm;
  const nominalAc = numberIn(job, "no-load-nominal");
  const nominalRpm = numberIn(job, "no-load-nominal-rpm");
  const emfKnown = nominalAc !== undefined && nominalRpm !== undefined;
  if (!emfKnown) assumed.push("no-load AC taken as 19 V per 1000 rpm");
  const emfPerKrpm = emfKnown ? (nominalAc / nominalRpm) * 1000 : TYPICAL.emfPerKrpm.value * scale;
  const lineOhms = lineOhmsAt20(job);
  if (lineOhms === undefined) assumed.push("winding resistance taken from the rated output");
  const ohms = lineOhms ?? (TYPICAL.lineOhmWatts.value * scale * scale) / watts;
  const poles = take("poles", 2 * TYPICAL.polePairs, "18 poles taken");
  const single = kind === "single-phase full-wave" || kind === "single-phase half-wave";
  const windingOhms = single ? ohms : connection === "delta" ? 1.5 * ohms : ohms / 2;
  const phase = { single, emfPerKrpm, polePairs: poles / 2, wyeOhms: single ? ohms : ohms / 2 };
  const henry = ratedHenry(phase, watts, ratedRpm, scale);
  if (henry === null) {
    return fail({
      code: "refused",
      what: "machine data",
      why: `a machine with ${round(emfPerKrpm)} V per 1000 rpm and ${round(ohms)} Ω cannot give ${round(watts)} W at ${round(ratedRpm)} rpm`,
      instead: "check rated output, no-load AC and winding resistance",
    });
  }
  const min = numberIn(job, "regulated-min");
  const max = numberIn(job, "regulated-max");
  const setKnown = min !== undefined && max !== undefined;
  if (!setKnown) assumed.push("regulated at a typical 14.4 V");
  const regulatorWord = choiceIn(job, "regulator-kind");
  if (regulatorWord === undefined) assumed.push("shunt regulator taken");
  const regulator: Regulator = {
    kind:
      kind === "field-excited"
        ? "field"
        : regulatorWord === "series" || regulatorWord === "none"
          ? regulatorWord
          : "shunt",
    setVolts: setKnown ? (min + max) / 2 + TYPICAL.setAboveMiddle.value * scale : TYPICAL.setVolts.value * scale,
    voltsPerC: TYPICAL.voltsPerC.value * scale,
    hysteresisHalfVolts: TYPICAL.hysteresisHalfVolts.value * scale,
    filterSeconds: TYPICAL.filterSeconds.value,
    senses: "own output",
    stuck: [null, null, null],
  };
  const { battery, capacityKnown } = batteryOf(job, scale, assumed);
  const ambient = numberIn(job, "battery-temperature");
  const load = loadOf(job, watts, scale, assumed);
  const system: ChargingSystem = {
    alternator: {
      kind,
      connection,
      emfPerKrpm,
      emfScale: 1,
      harmonic5: 0,
      harmonic7: 0,
      windingOhms,
      windingHenry: single || connection === "wye" ? henry : 3 * henry,
      polePairs: poles / 2,
      windingOpen: [false, false, false],
      ...(kind === "field-excited" ? { field: { ohms: 3 * scale, ratedAmps: 4, remanence: 0.03 } } : {}),
    },
    bridge: {
      upper: ["ok", "ok", "ok"],
      lower: ["ok", "ok", "ok"],
      legOpen: [false, false, false],
      shortOhms: 0.006,
      diode: TYPICAL.diode,
    },
    regulator,
    harness: {
      bplusOhms: TYPICAL.bplusOhms.value,
      groundOhms: TYPICAL.groundOhms.value,
      statorSideOhms: [0, 0, 0],
      phaseOhms: [TYPICAL.phaseOhms.value, TYPICAL.phaseOhms.value, TYPICAL.phaseOhms.value],
      leadOpen: [false, false, false],
    },
    battery,
  };
  const surroundings = ambient ?? TYPICAL.ambientCelsius.value;
  return ok({
    system,
    scale,
    assumed,
    at: (rpm, loadAmps) => ({
      rpm,
      loadAmps: loadAmps ?? load.amps,
      statorCelsius: surroundings + TYPICAL.statorRise.value,
      regulatorCelsius: surroundings + TYPICAL.regulatorRise.value,
    }),
    spreads: spreadsOf(
      {
        emf: emfKnown,
        ohms: lineOhms !== undefined,
        rated: numberIn(job, "rated-output") !== undefined,
        set: setKnown,
        capacity: capacityKnown,
        rested: numberIn(job, "rested-voltage") !== undefined,
        load: load.known,
        ambient: ambient !== undefined,
        emfTolerance: numberIn(job, "no-load-tolerance"),
      },
      scale,
    ),
  });
}

/** Winding resistance between lines at 20 °C from the stated band [Ω]. */
function lineOhmsAt20(job: Job): number | undefined {
  const min = numberIn(job, "stator-ohms-min");
  const max = numberIn(job, "stator-ohms-max");
  const middle = min !== undefined && max !== undefined ? (min + max) / 2 : (min ?? max);
  if (middle === undefined || middle <= 0) return undefined;
  return middle / (1 + COPPER_PER_C * ((numberIn(job, "stator-ohms-temp") ?? 20) - 20));
}

interface RatedPhase {
  readonly single: boolean;
  readonly emfPerKrpm: number;
  readonly polePairs: number;
  readonly wyeOhms: number;
}

/** The inductance of one phase (wye) at which the machine gives its rated watts at 14 V; `null` where none does. */
function ratedHenry(
  { single, emfPerKrpm, polePairs, wyeOhms }: RatedPhase,
  watts: number,
  rpm: number,
  scale: number,
): number | null {
  const volts = TYPICAL.ratedVolts * scale;
  const amps = watts / volts;
  const diode = diodeAt(TYPICAL.diode, 65);
  const drop = dropAt(diode, (2 / 3) * amps);
  const given = (reactance: number) =>
    sixStep(
      {
        phases: single ? 1 : 3,
        peakVolts: (((emfPerKrpm * rpm) / 1000) * Math.SQRT2) / (single ? 1 : Math.sqrt(3)),
        harmonic5: 0,
        harmonic7: 0,
        ohms: wyeOhms * (1 + COPPER_PER_C * (TYPICAL.ratedCelsius - 20)) + TYPICAL.phaseOhms.value,
        reactance,
      },
      volts + 2 * drop,
    ).amps;
  let low = 1e-4;
  let high = 1e4;
  if (!(given(low) > amps)) return null;
  for (let k = 0; k < 80 && high / low > 1 + 1e-9; k++) {
    const middle = Math.sqrt(low * high);
    if (given(middle) > amps) low = middle;
    else high = middle;
  }
  return low / ((2 * Math.PI * rpm * polePairs) / 60);
}

/** What is known of a battery, charge apart. */
interface BatteryData {
  readonly type: BatteryType;
  readonly ah: number;
  readonly cca: number | undefined;
  readonly scale: number;
}

function batteryDataOf(job: Job, scale: number): BatteryData & { readonly capacityKnown: boolean } {
  const cca = numberIn(job, "battery-cca");
  const capacity =
    numberIn(job, "battery-capacity") ?? (cca === undefined ? undefined : (TYPICAL.ohmAh * cca) / TYPICAL.ohmCca);
  const type = (choiceIn(job, "battery-type") ?? "agm") as BatteryType;
  return { type, ah: capacity ?? TYPICAL.capacityAh.value, cca, scale, capacityKnown: capacity !== undefined };
}

/** A sound battery at a state of charge [1]: voltage from its table, resistance and acceptance typical. */
function batteryCharged({ type, ah, cca, scale }: BatteryData, charge: number, rested?: number): Battery {
  const law = ACCEPTANCE[type];
  const full = cca === undefined ? TYPICAL.ohmAh / ah : TYPICAL.ohmCca / cca;
  return {
    ocvVolts: rested ?? readTable(swapped(REST_TABLES[type].rows), charge) * scale,
    ohms: full * scale * (1 + 0.4 * (1 - charge)),
    chargeVolts: law.volts * scale,
    chargeAmps: ah * law.empty * (law.full / law.empty) ** (charge * charge),
    dischargeVolts: law.dischargeVolts * scale,
    dischargeAmps: ah * DISCHARGE_PER_AH,
  };
}

/** The battery of a job: its charge as found, its capacity [Ah], and what it is like at any other charge. */
export interface BatteryModel {
  readonly charge: number;
  readonly ah: number;
  readonly type: BatteryType;
  charged(charge: number): Battery;
}

export function batteryModelOf(job: Job): BatteryModel {
  const scale = (numberIn(job, "battery-nominal") ?? 12) / 12;
  const data = batteryDataOf(job, scale);
  const rested = numberIn(job, "rested-voltage");
  const charge = rested === undefined ? TYPICAL.charge.value : readTable(REST_TABLES[data.type].rows, rested / scale);
  return { charge, ah: data.ah, type: data.type, charged: (at) => batteryCharged(data, at) };
}

function batteryOf(job: Job, scale: number, assumed: string[]): { battery: Battery; capacityKnown: boolean } {
  const data = batteryDataOf(job, scale);
  if (choiceIn(job, "battery-type") === undefined) assumed.push("AGM battery taken");
  if (!data.capacityKnown) assumed.push("battery of 14 Ah taken");
  const rested = numberIn(job, "rested-voltage");
  if (rested === undefined) assumed.push("battery charged to 75 % taken");
  const charge = rested === undefined ? TYPICAL.charge.value : readTable(REST_TABLES[data.type].rows, rested / scale);
  return { battery: batteryCharged(data, charge, rested), capacityKnown: data.capacityKnown };
}

/** Load while running [A at 13.5 V]: the machine's own figure, else what was read with the key on, else a typical share. */
function loadOf(job: Job, watts: number, scale: number, assumed: string[]): { amps: number; known: boolean } {
  const added = (numberIn(job, "added-load") ?? 0) / (13.5 * scale * scale);
  const nominal = numberIn(job, "lights-load");
  if (nominal !== undefined) return { amps: nominal / scale + added, known: true };
  const read = numberIn(job, "key-on-load");
  // Read at the battery's own voltage, it grows with the running voltage.
  if (read !== undefined) return { amps: (read * 13.5) / 12.4 / scale, known: true };
  assumed.push("load taken as 55 % of the rated current");
  return { amps: (TYPICAL.loadShare.value * watts) / (TYPICAL.ratedVolts * scale) / scale + added, known: false };
}

function round(value: number): string {
  return String(Number(value.toPrecision(3)));
}
