import type { Interval, Limit } from "../judgement/types";
import { numberIn } from "../readings/catalogue";
import { isUnregulated } from "../readings/regulation";
import type { Job } from "../readings/types";
import { OPEN_FIELD } from "../stator/field-winding";
import { withinReach } from "./expectation";
import type { Frame } from "./frame";
import { isBelowTestSpeed, judgedFrom } from "./test-speed";

/**
 * At idle the upper end of a band holds as at any speed; the lower end is where a healthy machine can
 * be there. Where its data are too few to say, nothing fails for being low.
 */
export function atIdle(frame: Frame, band: Limit | undefined): Limit | undefined {
  const { job, expected } = frame;
  const rpm = numberIn(job, "idle-rpm");
  if (band && isUnregulated(job)) return withOpenEnd(band, WITHOUT_REGULATOR);
  if (!band || (rpm !== undefined && expected(rpm))) return withinReach(band, job, "idle-rpm", expected);
  return withOpenEnd(band, "what it makes at idle depends on speed and load");
}

/** Nothing fails for being low, and nothing below the band passes. */
function withOpenEnd(band: Limit, why: string): Limit {
  const high = band.lenient ? band.lenient.high : band.high;
  return {
    ...band,
    lenient: high === undefined ? {} : { high },
    origin: { ...band.origin, words: `${band.origin.words}; ${why}` },
  };
}

const tooSlow = (job: Job) => `read below ${judgedFrom(job).toFixed(0)} rpm: raise the speed and read again`;
const WITHOUT_REGULATOR = "without a regulator it may stay lower";

/** At test speed its band holds, unless the machine has no regulator, by its own data cannot reach it or was run too slowly. */
export function atTestSpeed({ job, expected }: Frame, band: Limit | undefined): Limit | undefined {
  if (band && isUnregulated(job)) return withOpenEnd(band, WITHOUT_REGULATOR);
  if (band && isBelowTestSpeed(job)) return withOpenEnd(band, tooSlow(job));
  const rpm = numberIn(job, "test-rpm");
  const held = rpm !== undefined && expected(rpm)?.limitedBy === "machine";
  return held ? withinReach(band, job, "test-rpm", expected) : band;
}

/** The regulated voltage that the machine's own data state. */
export function machineBand({ job }: Frame): Limit | undefined {
  const low = numberIn(job, "regulated-min");
  const high = numberIn(job, "regulated-max");
  if (low === undefined && high === undefined) return undefined;
  return { ...ends(low, high), origin: { from: "machine data", words: "regulated voltage of this machine" } };
}

/** Running voltage without machine data: what the battery needs and what it bears, at 25 °C. */
export function chemistryBand({ type, scale }: Frame): Limit {
  if (type === "lithium") {
    return {
      low: 13.6 * scale,
      high: 14.6 * scale,
      lenient: { low: 13.4 * scale, high: 14.8 * scale },
      origin: {
        from: "published",
        source: "common-practice",
        words: "above its resting voltage, at most 14.6 V for four lithium cells; machine data not given",
      },
    };
  }
  return {
    low: 13.6 * scale,
    high: 15 * scale,
    lenient: { low: 13 * scale, high: 15.5 * scale },
    origin: {
      from: "published",
      source: "tm-9-2330-356-14",
      words:
        "at least 13.6 V, US Army TM 9-2330-356-14, and below 13.0 V no float; at most 15.0 V, and above 15.5 V the battery gasses away; machine data not given",
    },
  };
}

/**
 * At test speed the machine carries its own loads and the battery gains, unless its own data say that
 * it cannot at this speed.
 */
export function batteryCurrentLimit({ job, expected }: Frame): Limit {
  const rpm = numberIn(job, "test-rpm");
  const lowest = Math.min((rpm === undefined ? undefined : expected(rpm)?.amps.low) ?? 0, 0);
  const words =
    lowest < 0
      ? "what a healthy machine of these data leaves for the battery at this speed"
      : "at test speed the machine carries its loads and the battery gains";
  const limit: Limit = { low: lowest, origin: { from: "computed", words } };
  return isBelowTestSpeed(job) ? withOpenEnd(limit, tooSlow(job)) : limit;
}

/** What is drawn with the key on against the machine's own figure. */
export function keyOnLoadLimit({ job, scale }: Frame): Limit | undefined {
  const nominal = numberIn(job, "lights-load");
  if (nominal === undefined) return undefined;
  const added = (numberIn(job, "added-load") ?? 0) / (12.5 * scale);
  const words =
    added > 0
      ? "lights-on load of this machine with the added accessories, and a tenth more"
      : "lights-on load of this machine, and a tenth more";
  return { high: 1.1 * (nominal + added), origin: { from: "machine data", words } };
}

/** Field winding of a field-excited alternator; over-range is an open winding. */
export function fieldOhmsLimit(): Limit {
  return {
    low: 2,
    high: 6,
    lenient: { low: 0.5, high: OPEN_FIELD },
    origin: {
      from: "published",
      source: "common-practice",
      words: "2 to 6 Ω for 12 V field windings, common practice; shorted below 0.5 Ω, open above 50 Ω",
    },
  };
}

function ends(low: number | undefined, high: number | undefined): Interval {
  return { ...(low === undefined ? {} : { low }), ...(high === undefined ? {} : { high }) };
}
