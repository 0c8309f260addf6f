import { numberIn } from "../readings/catalogue";
import type { Job } from "../readings/types";
import { isFlat } from "./flat-battery";
import { label, n, type ContradictionCheck as Check } from "./contradiction";

const SYSTEM_IDS = ["rested-voltage", "idle-voltage", "test-voltage"];

/** A 6 V battery never stands above 9 V; a 12 V machine that runs lifts a flat battery above 8 V. */
export const otherSystem: Check = (job) => {
  const nominal = numberIn(job, "battery-nominal") ?? 12;
  const rest = numberIn(job, "rested-voltage") ?? 0;
  // The rows of a long fleet leave here.
  if (nominal !== 6 && (rest < 5 || rest > 7)) return undefined;
  const readings = SYSTEM_IDS.filter((id) => job.has(id));
  const volts = readings.map((id) => numberIn(job, id)!);
  const other = nominal === 6 ? volts.some((v) => v > 9) : volts.every((v) => v < 8) && Math.max(...volts) > rest + 0.1;
  if (!other) return undefined;
  const shown = readings.map((id) => `${label(id)} ${n(numberIn(job, id)!)} V`).join(", ");
  return {
    kind: "machine data",
    readings: [...readings, "battery-nominal"],
    setAside: [...SYSTEM_IDS, "cranking-voltage", "load-test-rested", "load-test-voltage"],
    words: `${shown}: voltages of a ${nominal === 6 ? 12 : 6} V system; correct the nominal voltage or read again.`,
  };
};

export const crankingAboveRest: Check = (job) => {
  const rest = numberIn(job, "rested-voltage");
  const crank = numberIn(job, "cranking-voltage");
  if (rest === undefined || crank === undefined || crank <= rest + 0.15) return undefined;
  const readings = ["cranking-voltage", "rested-voltage"];
  return {
    kind: "cannot both be true",
    readings,
    setAside: ["cranking-voltage"],
    words: `Cranking voltage ${n(crank)} V is above the rested voltage ${n(rest)} V: a starter draws the battery down, so one of the two is of another moment. Read both again.`,
  };
};

export const restTwice: Check = (job) => {
  const rest = numberIn(job, "rested-voltage");
  const before = numberIn(job, "load-test-rested");
  const recharged = job.get("load-test-recharged");
  if (rest === undefined || before === undefined || recharged?.kind !== "choice" || recharged.value !== "no")
    return undefined;
  if (Math.abs(rest - before) <= 0.25) return undefined;
  return {
    kind: "cannot both be true",
    readings: ["rested-voltage", "load-test-rested"],
    setAside: [],
    words: `The battery was not charged in between, yet it rested at ${n(rest)} V once and at ${n(before)} V before the load test; read the rested voltage again.`,
  };
};

/** Charged, a battery rests near full or, with a cell gone, 2 V below; between the two it is not charged yet. */
export const notFull: Check = (job, { voltScale, fullRest }) => {
  const rest = numberIn(job, "load-test-rested");
  const recharged = job.get("load-test-recharged");
  if (rest === undefined || recharged?.kind !== "choice" || recharged.value !== "yes") return undefined;
  const short = fullRest - rest * voltScale;
  if (short < 0.45 || short > 1.2) return undefined;
  return {
    kind: "cannot both be true",
    readings: ["load-test-recharged", "load-test-rested"],
    setAside: ["load-test-recharged"],
    words: `Charged before the load test, yet the battery rested at ${n(rest)} V: charge it fully and repeat the load test.`,
  };
};

export const loadTestRise: Check = (job) => {
  const before = numberIn(job, "load-test-rested") ?? numberIn(job, "rested-voltage");
  const end = numberIn(job, "load-test-voltage");
  if (before === undefined || end === undefined || end <= before + 0.05) return undefined;
  const readings = ["load-test-voltage"];
  return {
    kind: "cannot both be true",
    readings,
    setAside: readings,
    words: `Load test: ${n(end)} V under load is above the ${n(before)} V before it, so no load was on when it was read. Repeat the load test.`,
  };
};

const RUNS = /^(?:idle|test)-voltage$/u;
const FAR_BELOW = 4;

export const millivoltRange: Check = (job, frame) => {
  const ids = ["rested-voltage", "idle-voltage", "test-voltage", "cranking-voltage"];
  const known = ids
    .map((id) => ({ id, v: numberIn(job, id) }))
    .filter((r): r is { id: string; v: number } => r.v !== undefined);
  // While a machine runs, its battery holds it not far below where it rested, be it ever so weak.
  const rest = numberIn(job, "rested-voltage") ?? 0;
  const least = (id: string) => (RUNS.test(id) ? Math.max(1.5, rest * frame.voltScale - FAR_BELOW) : 1.5);
  const dead = known.filter((r) => r.v * frame.voltScale < least(r.id));
  if (dead.length === 0 || dead.length === known.length) return undefined;
  const readings = dead.map((r) => r.id);
  return {
    kind: "wrong range",
    readings,
    setAside: readings,
    words: `${dead.map((r) => `${label(r.id)} ${n(r.v, 3)} V`).join(", ")}: far too low beside the other battery voltages; meter on the wrong range, or a lead off. Read again.`,
  };
};

/** Below this hardly a battery is left, and below it a lithium pack has cut itself off: 2 V a cell, common practice [V]. */
const HARDLY = 5;
const CUT_OFF = 8;
/** Rested volts of a 6 V battery, half charged to fresh off the charger: common practice. */
const SIX_VOLT = { least: 6, most: 6.8 };

/** Nothing says of how many volts the system is, and the battery reads as a sound one of 6 V: a 12 V charger would harm it. */
function mayBeSixVolt(job: Job, rest: number): boolean {
  const told = ["battery-nominal", "regulated-min", "regulated-max"].some((id) => job.has(id));
  return !told && rest >= SIX_VOLT.least && rest <= SIX_VOLT.most;
}

/** A battery that is charged before it, or anything that needs the engine, is judged. */
export const flatBattery: Check = (job, frame) => {
  if (!isFlat(job, frame) || millivoltRange(job, frame)) return undefined;
  const rest = numberIn(job, "rested-voltage")!;
  const volts = rest * frame.voltScale;
  const read = `Rested voltage ${n(rest)} V`;
  const words =
    frame.batteryType === "lithium" && volts < CUT_OFF
      ? `${read}: a lithium battery that has cut itself off, or is harmed. Wake and charge it only as its maker says.`
      : volts < HARDLY
        ? `${read} is hardly a battery's own: read again on the posts, then charge it, watched.`
        : mayBeSixVolt(job, rest)
          ? `${read}: a flat 12 V battery or a sound one of 6 V. Enter the nominal voltage from its label before it is charged.`
          : `${read}: the battery is flat. Charge it fully, let it rest and read again.`;
  return { kind: "taken too early", readings: ["rested-voltage"], setAside: [], words };
};

/** A full battery rests this little above its table; an unknown one is lithium at most [V]. */
const ABOVE_FULL = 0.25;
const UNKNOWN_FULL = 12.9;

/** Fresh from the charger or a ride a battery shows more than its charge. */
export const notRested: Check = (job, { voltScale, fullRest }) => {
  const rest = numberIn(job, "rested-voltage");
  const full = job.has("battery-type") ? fullRest : UNKNOWN_FULL;
  if (rest === undefined || rest * voltScale <= full + ABOVE_FULL) return undefined;
  const readings = ["rested-voltage"];
  return {
    kind: "taken too early",
    readings,
    setAside: readings,
    words: `Rested voltage ${n(rest)} V is more than a full battery has, ${n(full / voltScale)} V. Take off the surface charge, let it rest and read again, or correct its type.`,
  };
};
