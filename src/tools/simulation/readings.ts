import type { OperatingPoint, Triple } from "../../core/circuit/types";
import { dropAt, diodeAt } from "../../core/circuit/diode-law";
import { restVolts } from "./battery-state";
import type { Specimen } from "./faulty-system";
import { drawMeters, show, type MeterKind } from "./meters";
import type { Random } from "./random";

/** Values by catalogue id, as a technician writes them down. */
export type Values = Record<string, number | string>;

/** The circuit's answers for one specimen. */
export interface Runs {
  readonly idle: OperatingPoint;
  readonly test: OperatingPoint;
  /** Line-to-line AC of the unplugged stator at the no-load speed [V rms]. */
  readonly noLoad: Triple<number>;
}

/** True speeds are off the dial by up to 3 %. */
export interface Speeds {
  readonly idle: number;
  readonly test: number;
  readonly noLoad: number;
}

export function drawSpeeds({ machine }: Specimen, random: Random): Speeds {
  const off = () => random.between(0.97, 1.03);
  return { idle: machine.idleRpm * off(), test: machine.testRpm * off(), noLoad: machine.noLoadRpm * off() };
}

/** Plate and manual; what a shop often does not know is left out unless the whole plate is asked for. */
export function plate({ machine }: Specimen, random: Random, whole: boolean): Values {
  const known = (share: number) => random.chance(share) || whole;
  const values: Values = {
    "battery-type": machine.batteryType,
    "battery-capacity": machine.capacity,
    "battery-cca": machine.cca,
    "regulated-min": machine.regulatedMin,
    "regulated-max": machine.regulatedMax,
    "rated-output": machine.ratedWatts,
    "rated-output-rpm": machine.ratedRpm,
    "key-off-limit": machine.drawLimit,
    "idle-rpm": machine.idleRpm,
    "test-rpm": machine.testRpm,
    "no-load-rpm": machine.noLoadRpm,
    "battery-temperature": Math.round(machine.ambient + random.between(-1, 1)),
  };
  if (known(0.83)) {
    values["no-load-nominal"] = Math.round((machine.plateEmfPerKrpm * machine.noLoadRpm) / 1000);
    values["no-load-nominal-rpm"] = machine.noLoadRpm;
    values["no-load-tolerance"] = machine.noLoadTolerance;
  }
  if (known(0.81)) {
    values["stator-ohms-min"] = Number((machine.plateLineOhms * 0.8).toFixed(2));
    values["stator-ohms-max"] = Number((machine.plateLineOhms * 1.2).toFixed(2));
    values["stator-ohms-temp"] = 20;
  }
  if (known(0.5)) values["lights-load"] = Number(machine.loadAmps.toFixed(1));
  if (known(0.75)) values["regulator-kind"] = machine.regulator;
  if (known(0.6)) values["bridge-kind"] = machine.bridge;
  if (known(0.48)) values["stator-connection"] = machine.connection;
  return values;
}

/** Every check taken, read with one set of meters. */
export function readAll(s: Specimen, runs: Runs, random: Random): Values {
  const meters = drawMeters(random);
  const read = (kind: MeterKind, value: number) => show(kind, value, meters, random);
  const { machine } = s;
  const ocv = s.system.battery.ocvVolts;
  const values: Values = { "meter-ohm-step": meters.ohmStep };
  values["rested-voltage"] = read("dc", ocv + random.normal(0, 0.03));
  values["cranking-voltage"] = read("dc", cranking(s, random));
  readLoadTest(s, values, read, random);
  values["key-off-draw"] = read("milliamp", s.drawMilliamps);
  values["idle-voltage"] = read("dc", runs.idle.batteryVolts);
  values["test-voltage"] = read("dc", runs.test.batteryVolts);
  values["battery-current"] = read("clamp", runs.test.batteryAmps);
  values["battery-ripple"] = Math.max(0, read("ac", runs.test.rippleVoltsRms));
  values["key-on-load"] = read("clamp", (s.loadAmps * (ocv - 0.25)) / 13.5);
  values["bplus-drop"] = read("dc", Math.min(19.8, runs.test.bplusDropVolts));
  values["ground-drop"] = read("dc", Math.min(19.8, runs.test.groundDropVolts));
  values["drop-current"] = read("clamp", runs.test.rectifierAmps);
  const pairs = ["ab", "bc", "ca"] as const;
  pairs.forEach((p, k) => {
    values[`no-load-${p}`] = read("ac", runs.noLoad[k]!);
    values[`loaded-${p}`] = read("ac", runs.test.lineVoltsRms[k]!);
    const warm = 1 + 0.00393 * (machine.statorBench - 20);
    const ohms = s.pairOhms[k]! * warm + meters.leadsOhms;
    values[`winding-${p}`] = Number.isFinite(ohms) ? Math.max(0, read("ohm", ohms)) : "OL";
  });
  if (random.chance(0.5)) values["meter-leads"] = Math.max(0, read("ohm", meters.leadsOhms));
  const toGround = s.groundOhms + meters.leadsOhms;
  values["ground-a"] = toGround < 4e7 ? Math.max(0, read("ohm", toGround)) : "OL";
  readDiodes(s, values, read, random);
  return values;
}

export function cranking(s: Specimen, random: Random): number {
  const { battery } = s.system;
  const cables = random.between(0.03, 0.25);
  let amps = 100;
  for (let i = 0; i < 12; i++)
    amps = Math.max(
      1,
      (battery.ocvVolts - cables - battery.dischargeVolts * Math.asinh(amps / battery.dischargeAmps)) /
        (battery.ohms + s.machine.starterOhms),
    );
  return Math.max(0.3, amps * s.machine.starterOhms);
}

function readLoadTest(s: Specimen, values: Values, read: (kind: MeterKind, v: number) => number, random: Random): void {
  const { machine } = s;
  const { battery } = s.system;
  const low = s.charge < 0.72;
  const recharged = low ? random.chance(0.55) : random.chance(0.1);
  const sulfated = s.chargedOhms > 2 * machine.batteryOhms;
  const full =
    restVolts(machine.batteryType, sulfated ? random.between(0.75, 0.95) : random.between(0.93, 1)) -
    (machine.batteryType === "lithium" ? s.cellLost * 1.6 : s.cellLost);
  const ocv = recharged ? full : battery.ocvVolts;
  const ohms = recharged ? s.chargedOhms : battery.ohms;
  const amps = Math.round(machine.cca / 2);
  const sag = battery.dischargeVolts * Math.asinh(amps / battery.dischargeAmps) + random.between(0.05, 0.3);
  values["load-test-recharged"] = recharged ? "yes" : "no";
  values["load-test-rested"] = read("dc", ocv + random.normal(0, 0.02));
  values["load-test-current"] = amps;
  values["load-test-seconds"] = 15;
  values["load-test-voltage"] = Math.max(0, read("dc", Math.max(0.2, ocv - ohms * amps - sag)));
}

/** Diode check at some tenths of a milliampere; the control circuit in parallel pulls a bank down. */
function readDiodes(s: Specimen, values: Values, read: (kind: MeterKind, v: number) => number, random: Random): void {
  const { machine, rectifier } = s;
  const law = diodeAt(machine.diode, machine.ambient + random.between(0, 8));
  const amps = random.between(0.0004, 0.0011);
  const parallelVolts = random.between(0.105, 0.185);
  const phases = ["a", "b", "c"] as const;
  const junction = dropAt(law, amps);
  phases.forEach((phase, k) => {
    const device = (bank: "upper" | "lower") => {
      const state = rectifier[bank][k]!;
      const low = bank === "upper" && machine.bridge === "parallel path";
      const sound = low ? parallelVolts + random.normal(0, 0.005) : junction + random.normal(0, 0.006);
      if (state === "open") {
        values[`${bank}-forward-${phase}`] = rectifier.masked && low ? read("diode", sound) : "OL";
        values[`${bank}-reverse-${phase}`] = "OL";
      } else if (state === "short") {
        values[`${bank}-forward-${phase}`] = Math.max(0, read("diode", random.between(0, 0.002)));
        values[`${bank}-reverse-${phase}`] = Math.max(0, read("diode", random.between(0, 0.002)));
      } else {
        values[`${bank}-forward-${phase}`] = read("diode", sound);
        values[`${bank}-reverse-${phase}`] = "OL";
      }
    };
    device("upper");
    device("lower");
  });
}

/** How often each check is taken: a technician who skips some, as in the shop. */
const TAKEN: Readonly<Record<string, number>> = {
  "battery-at-rest": 0.95,
  "load-test": 0.58,
  cranking: 0.72,
  "key-off-draw": 0.63,
  "running-idle": 0.9,
  "test-voltage": 0.95,
  "battery-current": 0.62,
  "battery-ripple": 0.48,
  "key-on-load": 0.37,
  "bplus-drop": 0.55,
  "ground-drop": 0.48,
  "drop-current": 0.85,
  "no-load-ac": 0.74,
  "loaded-ac": 0.28,
  "winding-ohms": 0.67,
  "winding-to-ground": 0.68,
  "diode-check": 0.6,
};

const IDS: Readonly<Record<string, RegExp>> = {
  "battery-at-rest": /^rested-voltage$/u,
  "load-test": /^load-test-/u,
  cranking: /^cranking-voltage$/u,
  "key-off-draw": /^key-off-draw$/u,
  "running-idle": /^idle-voltage$/u,
  "test-voltage": /^test-voltage$/u,
  "battery-current": /^battery-current$/u,
  "battery-ripple": /^battery-ripple$/u,
  "key-on-load": /^key-on-load$/u,
  "bplus-drop": /^bplus-drop$/u,
  "ground-drop": /^ground-drop$/u,
  "drop-current": /^drop-current$/u,
  "no-load-ac": /^no-load-(?:ab|bc|ca)$/u,
  "loaded-ac": /^loaded-/u,
  "winding-ohms": /^(?:winding-|meter-leads$)/u,
  "winding-to-ground": /^ground-a$/u,
  "diode-check": /^(?:upper|lower)-/u,
};

export interface Skipped {
  readonly values: Values;
  readonly taken: ReadonlySet<string>;
}

/** Leaves out checks that the technician skipped. */
export function skipSome(values: Values, random: Random, thoroughness = 1): Skipped {
  const kept: Values = { ...values };
  const taken = new Set<string>();
  for (const [check, p] of Object.entries(TAKEN)) {
    if (random.chance(1 - (1 - p) * thoroughness)) taken.add(check);
    else for (const id of Object.keys(kept)) if (IDS[check]!.test(id)) delete kept[id];
  }
  if (!taken.has("bplus-drop") && !taken.has("ground-drop")) {
    taken.delete("drop-current");
    delete kept["drop-current"];
  }
  return { values: kept, taken };
}
