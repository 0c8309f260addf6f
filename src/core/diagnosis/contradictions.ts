import { entryOf, numberIn } from "../readings/catalogue";
import { GROUND_IDS, LOADED_IDS, NO_LOAD_IDS, PHASES, WINDING_IDS } from "../readings/entries";
import type { Job, Measured } from "../readings/types";
import { seenWith } from "../rectifier/display";
import { diodeBlockOf, diodeCheckTaken } from "../rectifier/job";
import { hasSwappedLeads } from "../rectifier/swapped-leads";
import type { Bank } from "../rectifier/types";
import {
  crankingAboveRest,
  flatBattery,
  loadTestRise,
  millivoltRange,
  notFull,
  notRested,
  otherSystem,
  restTwice,
} from "./battery-contradictions";
import { label, n, type Contradiction, type ContradictionCheck as Check } from "./contradiction";
import type { Frame } from "./frame";
import { GENERATING } from "./machine-kind";
import { noLoadReadings } from "./no-load-evidence";
import { belowTestSpeed, speedsSwapped } from "./speed-contradictions";

export type { Contradiction } from "./contradiction";

/** Every contradiction among the job's readings, in the order in which the work is done. */
export function contradictionsOf(job: Job, frame: Frame): readonly Contradiction[] {
  const found: Contradiction[] = [];
  for (const check of CHECKS) {
    const one = check(job, frame);
    if (one) found.push(one);
  }
  return found;
}

/** The job as it is weighed: without the readings that are set aside, rows the right way round. */
export function asWeighed(job: Job, contradictions: readonly Contradiction[]): Job {
  if (contradictions.every((c) => c.setAside.length === 0 && c.readAs === undefined)) return job;
  const kept = new Map(job);
  for (const { setAside, readAs } of contradictions) {
    for (const id of setAside) kept.delete(id);
    if (readAs) for (const [id, measured] of readAs) kept.set(id, measured);
  }
  return kept;
}

const regulatedBand: Check = (job) => {
  const low = numberIn(job, "regulated-min");
  const high = numberIn(job, "regulated-max");
  if (low === undefined || high === undefined || low < high) return undefined;
  const readings = ["regulated-min", "regulated-max"];
  return {
    kind: "machine data",
    readings,
    setAside: readings,
    words: `Regulated voltage: the lowest, ${n(low)} V, is not below the highest, ${n(high)} V; correct the machine data. The common band is used meanwhile.`,
  };
};

const otherAlternator: Check = (job, { alternator }) => {
  if (alternator !== "other") return undefined;
  return {
    kind: "machine data",
    readings: ["alternator-kind"],
    setAside: [...job.keys()].filter((id) => GENERATING.test(entryOf(id)?.check ?? "")),
    words: "An alternator of this kind is not weighed, all else is: for generator and cut-out follow its manual.",
  };
};

const amountOfDirection: Check = (job, frame) => {
  const amps = numberIn(job, "battery-current");
  const test = numberIn(job, "test-voltage");
  const rest = numberIn(job, "rested-voltage");
  if (amps === undefined || test === undefined) return undefined;
  const v = test * frame.voltScale;
  const restV = rest === undefined ? undefined : rest * frame.voltScale;
  const charging = amps > Math.max(1, 0.05 * frame.ratedAmps);
  const discharging = amps < -Math.max(1, 0.05 * frame.ratedAmps);
  const readings = ["battery-current", "test-voltage"];
  if (discharging && v > Math.max(13.6, (restV ?? 0) + 0.6)) {
    return {
      kind: "leads swapped",
      readings,
      setAside: ["battery-current"],
      words: `Battery current ${n(amps, 1)} A means discharging, yet ${n(test)} V stand at the posts: the clamp was on backwards. Clamp with the arrow to the battery and read again.`,
    };
  }
  if (charging && restV !== undefined && v < restV - 0.25) {
    return {
      kind: "cannot both be true",
      readings: [...readings, "rested-voltage"],
      setAside: ["battery-current"],
      words: `Battery current ${n(amps, 1)} A means charging, yet the ${n(test)} V at speed are below the rested ${n(rest!)} V: volts and amps cannot both be true. Read both again.`,
    };
  }
  return undefined;
};

const outputAgainstBattery: Check = (job, frame) => {
  const output = numberIn(job, "drop-current");
  const battery = numberIn(job, "battery-current");
  if (output === undefined || battery === undefined || battery <= output + Math.max(2, 0.08 * frame.ratedAmps))
    return undefined;
  const readings = ["drop-current", "battery-current"];
  return {
    kind: "cannot both be true",
    readings,
    setAside: readings,
    words: `${n(battery, 1)} A into the battery, yet only ${n(output, 1)} A leave the regulator: the clamp was not round all leads, or the speed differed. Read both at the same speed.`,
  };
};

const acMeterOnDc: Check = (job) => {
  const ripple = numberIn(job, "battery-ripple");
  if (ripple === undefined || ripple < 5) return undefined;
  const readings = ["battery-ripple"];
  return {
    kind: "wrong range",
    readings,
    setAside: readings,
    words: `Ripple ${n(ripple)} V: that is the DC voltage; the meter does not block DC or stood on DC. Use the AC range.`,
  };
};

const negativeDrops: Check = (job) => {
  const readings = ["bplus-drop", "ground-drop"].filter((id) => (numberIn(job, id) ?? 0) < -0.03);
  if (readings.length === 0) return undefined;
  return {
    kind: "leads swapped",
    readings,
    setAside: [],
    words: `${readings.map((id) => `${label(id)} ${n(numberIn(job, id)!, 3)} V`).join(", ")}: below zero, so the leads were swapped (or the machine feeds backwards); its size is used.`,
  };
};

const noLoadSpeed: Check = (job, frame) => {
  const read = noLoadReadings(job);
  const top = Math.max(0, ...(read?.pairs ?? []).map((v) => v ?? 0));
  if (!read?.rpm || top < 1) return undefined;
  const perKrpm = (top / read.rpm) * 1000;
  const sound = frame.emfPerKrpm;
  const most = sound === undefined ? 70 : 1.6 * sound;
  if (perKrpm <= most) return undefined;
  const pairs = NO_LOAD_IDS.filter((id) => job.has(id));
  return {
    kind: "speed mistyped",
    readings: ["no-load-rpm", ...pairs],
    setAside: ["no-load-rpm", ...pairs],
    words: `No-load AC ${n(top, 1)} V at ${n(read.rpm, 0)} rpm is ${n(perKrpm, 1)} V per 1000 rpm, and more than ${n(most, 1)} V cannot be: speed or volts are mistyped, or the nominal is another machine's. Read both again.`,
  };
};

const loadedAboveNoLoad: Check = (job, frame) => {
  const loaded = LOADED_IDS.map((id) => numberIn(job, id)).filter((v): v is number => v !== undefined);
  const read = noLoadReadings(job);
  const open = read?.pairs.filter((v): v is number => v !== undefined) ?? [];
  if (loaded.length === 0 || open.length < 3 || !read?.rpm || frame.testRpm === undefined) return undefined;
  const atTest = (Math.max(...open) / read.rpm) * frame.testRpm;
  if (Math.max(...loaded) <= 1.15 * atTest + 1) return undefined;
  const readings = [...LOADED_IDS.filter((id) => job.has(id)), "test-rpm", "no-load-rpm"];
  return {
    kind: "speed mistyped",
    readings,
    setAside: LOADED_IDS,
    words: `AC under load ${n(Math.max(...loaded), 1)} V is above the ${n(atTest, 1)} V that the unplugged stator gives at that speed: a speed is mistyped or the plug was not joined.`,
  };
};

const ohmsBelowLeads: Check = (job) => {
  const leads = numberIn(job, "meter-leads");
  const step = numberIn(job, "meter-ohm-step") ?? 0.1;
  const winding = WINDING_IDS.filter((id) => {
    const v = numberIn(job, id);
    return v !== undefined && (leads !== undefined ? v < leads - 4 * step : v <= 0);
  });
  const ground = GROUND_IDS.filter((id) => {
    const v = numberIn(job, id);
    return v !== undefined && v < (leads ?? 0.1) / 2;
  });
  const readings = [...winding, ...ground];
  if (readings.length === 0) return undefined;
  return {
    kind: "wrong range",
    readings,
    setAside: readings,
    words: `${readings.map((id) => `${label(id)} ${n(numberIn(job, id)!)} Ω`).join(", ")}: less than the meter's own leads show when shorted; the leads touched, or the meter stood on another range. Read again.`,
  };
};

const diodeRowsSwapped: Check = (job) => {
  if (!diodeCheckTaken(job)) return undefined;
  const block = diodeBlockOf(job);
  const swapped = hasSwappedLeads(block, seenWith({}));
  if (swapped === "no") return undefined;
  const banks: readonly Bank[] = swapped === "both banks" ? ["upper", "lower"] : [swapped];
  const turned = new Map<string, Measured>();
  for (const bank of banks) {
    for (const phase of PHASES) {
      const forward = job.get(`${bank}-forward-${phase}`);
      const reverse = job.get(`${bank}-reverse-${phase}`);
      if (reverse) turned.set(`${bank}-forward-${phase}`, reverse);
      if (forward) turned.set(`${bank}-reverse-${phase}`, forward);
    }
  }
  const readings = banks
    .flatMap((bank) => ["forward", "reverse"].flatMap((way) => PHASES.map((p) => `${bank}-${way}-${p}`)))
    .filter((id) => job.has(id));
  return {
    kind: "leads swapped",
    readings,
    setAside: [],
    readAs: turned,
    words: `Diode check, ${banks.join(" and ")} bank: the devices conduct in reverse and block forward, so red and black were exchanged. The rows are read the other way round; take the bank again with the leads as shown.`,
  };
};

const CHECKS: readonly Check[] = [
  regulatedBand,
  otherAlternator,
  otherSystem,
  millivoltRange,
  flatBattery,
  notRested,
  crankingAboveRest,
  restTwice,
  notFull,
  loadTestRise,
  speedsSwapped,
  belowTestSpeed,
  amountOfDirection,
  acMeterOnDc,
  noLoadSpeed,
  loadedAboveNoLoad,
  ohmsBelowLeads,
  diodeRowsSwapped,
  negativeDrops,
  outputAgainstBattery,
];
