import { judge, NOT_READ, unsure } from "../judgement/judge";
import type { Judged, Limit } from "../judgement/types";
import { CATALOGUE, entryOf, isReading } from "../readings/catalogue";
import type { Job, QuantityEntry } from "../readings/types";
import { allowedKeyOffDraw, BATTERY_ROOM, crankingLimit, usualKeyOffDraw } from "./battery-limits";
import { CONDITIONS } from "./conditions";
import { customaryBand } from "./customary";
import { WIRING_ROOM } from "./drop-limits";
import { frameOf, type Frame, type LimitOptions } from "./frame";
import { knownGoodLimit } from "./known-good-limit";
import { RECTIFIER_ROOM } from "./rectifier-limits";
import type { Room } from "./room";
import {
  atIdle,
  atTestSpeed,
  batteryCurrentLimit,
  chemistryBand,
  fieldOhmsLimit,
  keyOnLoadLimit,
  machineBand,
} from "./running-limits";
import { STATOR_ROOM } from "./stator-limits";

export type { LimitOptions } from "./frame";

/** Where the limit of a reading may come from, besides known-good machines; asked in this order. */
interface Origins {
  readonly machine?: (frame: Frame) => Limit | undefined;
  readonly otherwise?: (frame: Frame) => Limit | undefined;
}

const LIMITS: Readonly<Record<string, Origins>> = {
  "cranking-voltage": { otherwise: crankingLimit },
  "key-off-draw": { machine: allowedKeyOffDraw, otherwise: usualKeyOffDraw },
  "idle-voltage": {
    machine: (frame) => atIdle(frame, machineBand(frame)),
    otherwise: (frame) => atIdle(frame, chemistryBand(frame)),
  },
  "test-voltage": {
    machine: (frame) => atTestSpeed(frame, machineBand(frame)),
    otherwise: (frame) => atTestSpeed(frame, chemistryBand(frame)),
  },
  "battery-current": { otherwise: batteryCurrentLimit },
  "key-on-load": { machine: keyOnLoadLimit },
  "field-ohms": { otherwise: fieldOhmsLimit },
};

const ROOMS: Room = { ...BATTERY_ROOM, ...STATOR_ROOM, ...RECTIFIER_ROOM, ...WIRING_ROOM };

/**
 * Judges one reading of a job. Its limit comes from the machine's data, else from known-good parts,
 * else from what can be computed, else from a published default; without one it is `unsure`.
 *
 * @param id - Quantity of the catalogue
 * @param job - All readings and machine data of the job
 * @param options - Meter, decision rule, known-good jobs
 */
export function judgeReading(id: string, job: Job, options: LimitOptions = {}): Judged {
  return judgeReadingIn(frameOf(job, options), id);
}

/** The same in a job that was looked up already. */
export function judgeReadingIn(frame: Frame, id: string): Judged {
  const entry = entryOf(id);
  if (entry?.kind !== "quantity") throw new Error(`No quantity "${id}" in the catalogue.`);
  return judgeEntry(entry, frame);
}

/** Judges every reading of the catalogue, in its order; what was not read is `not read`. */
export function judgeJob(job: Job, options: LimitOptions = {}): ReadonlyMap<string, Judged> {
  const frame = frameOf(job, options);
  return new Map(READINGS.map((entry) => [entry.id, judgeEntry(entry, frame)]));
}

const READINGS = CATALOGUE.filter((entry): entry is QuantityEntry => entry.kind === "quantity" && isReading(entry));

function judgeEntry(entry: QuantityEntry, frame: Frame): Judged {
  const { id, label } = entry;
  if (!frame.job.has(id)) return NOT_READ;
  if (!isReading(entry)) return unsure(`${label} is machine data: other readings are judged against it.`);
  const judged = ROOMS[id]?.(frame, id) ?? (CONDITIONS.has(id) ? condition(label) : judgeSimply(entry, frame));
  const customary = judged.customary ?? customaryBand(id, frame);
  return customary ? { ...judged, customary } : judged;
}

function condition(label: string): Judged {
  return unsure(`${label} says how another reading was taken and has no limit of its own.`);
}

function judgeSimply(entry: QuantityEntry, frame: Frame): Judged {
  const origins = LIMITS[entry.id];
  const limit = origins?.machine?.(frame) ?? knownGoodLimit(frame, entry.id) ?? origins?.otherwise?.(frame);
  return judge(entry, frame.job.get(entry.id), limit, frame.judging);
}
