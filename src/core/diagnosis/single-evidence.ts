import { numberIn } from "../readings/catalogue";
import { GROUND_IDS, PHASE_DROP_IDS } from "../readings/entries";
import { judgeRectifier } from "../rectifier/job";
import type { Job } from "../readings/types";
import { logNormal, logSum } from "./gaussian";
import type { Frame } from "./frame";
import { isGroundedByDesign } from "./machine-kind";

/** Checks that settle one question by one reading each: ground, draw, phase connectors. */

export const GROUND_STATES = ["clear", "leak"] as const;
export const DRAW_STATES = ["normal", "high"] as const;
export const UNIT_STATES = ["tight", "leaks"] as const;
export const CONNECTOR_STATES = ["sound", "burnt"] as const;

/** Below this nothing is isolation any more, above it nothing conducts [Ω]. */
const CLEAR_ABOVE = 1e6;
/** What reads no more than a winding and the leads in front of it is metal on metal [Ω]. */
const WINDING_BELOW = 5;

export const LIMIT_STATES = ["holds", "exceeds", "runs away"] as const;

/**
 * Voltage at speed against the regulated limit. A regulator in order holds it within meter and cold; only
 * one that overcharges, or by a volt at most a battery that takes no charge, is above. Below it says nothing.
 */
export function limitEvidence(job: Job, frame: Frame): readonly number[] | undefined {
  const volts = numberIn(job, "test-voltage");
  if (volts === undefined) return undefined;
  const over = volts * frame.voltScale - frame.regulatedMax - LIMIT_SLACK;
  const far = Math.max(0, over - LIMIT_SULFATED);
  const log = (above: number) => Math.max(-above / LIMIT_BORDER, Math.log(LEAST_ABOVE));
  return over <= 0 ? undefined : [log(over), log(far), 0];
}
/** Half the spread of set points, 0.5 % + 2 counts of the meter, and a cold day [V]. */
const LIMIT_SLACK = 0.2;
const LIMIT_BORDER = 0.08;
/** So far a battery that takes no charge lifts it while the regulator works [V]. */
const LIMIT_SULFATED = 1.2;
/** How often a regulator in order is seen far above its limit all the same: a wrong limit, a slip. */
const LEAST_ABOVE = 0.02;

/** Stator to ground: `OL` or many megohms when clear; a leak shows ohms to some thousand ohms. */
export function groundEvidence(job: Job, frame: Frame): readonly number[] | undefined {
  if (isGroundedByDesign(frame)) return undefined;
  const leads = numberIn(job, "meter-leads") ?? 0.1;
  let clear = 0;
  let leak = 0;
  let any = false;
  let lowest = Infinity;
  for (const id of GROUND_IDS) {
    const m = job.get(id);
    if (m === undefined) continue;
    const ohms =
      m.kind === "overload"
        ? Infinity
        : m.kind === "number" || m.kind === "above" || m.kind === "below"
          ? m.value
          : undefined;
    // Less than the meter's own leads is no reading of a winding.
    if (ohms === undefined || ohms < leads / 2) continue;
    any = true;
    lowest = Math.min(lowest, ohms);
  }
  if (any) {
    // Dirt, damp or a finger on the probe can pass for a leak, but not for the few ohms of a winding.
    const slip = lowest < WINDING_BELOW ? 0.0005 : 0.003;
    clear += Math.log(lowest >= CLEAR_ABOVE ? 0.997 : slip / 14);
    // Below a dozen ohms less is no less of a leak.
    leak +=
      lowest >= CLEAR_ABOVE ? Math.log(0.01) : Math.log(0.99) + logNormal(Math.max(0, Math.log(lowest / 12)), 2.4);
  }
  const megohms = job.get("insulation");
  if (megohms !== undefined && megohms.kind !== "text" && megohms.kind !== "choice") {
    const good =
      megohms.kind === "overload" || megohms.kind === "above" || (megohms.kind === "number" && megohms.value >= 5);
    const bad = megohms.kind === "below" || (megohms.kind === "number" && megohms.value < 1);
    any = true;
    clear += Math.log(good ? 0.97 : bad ? 0.004 : 0.03);
    leak += Math.log(good ? 0.01 : bad ? 0.94 : 0.05);
  }
  return any ? [clear, leak] : undefined;
}

/** A draw [mA] below what a meter shows, and the least limit that its zero keeps: both may be typed as zero. */
const NO_DRAW = 0.05;
const LEAST_LIMIT = 1;

/** Key-off draw against what the manual (or practice) allows. */
export function drawEvidence(job: Job, frame: Frame): readonly number[] | undefined {
  const milliamps = numberIn(job, "key-off-draw");
  if (milliamps === undefined) return undefined;
  const x = Math.log(Math.max(milliamps, NO_DRAW) / Math.max(frame.keyOffLimit, LEAST_LIMIT));
  // Above the limit: drain; how sharp the border is depends on whether the limit is the machine's own.
  const border = frame.keyOffLimitKnown ? 0.08 : 0.5;
  const over = 1 / (1 + Math.exp(-x / border));
  const normal = logNormal(x + 2.1, 1.1) + Math.log(1 - over + 1e-3);
  const high = logNormal(x - 2.4, 1.5) + Math.log(over + 1e-3);
  return [normal, high];
}

/** B+ to ground and terminals to case of the unplugged unit, as the rectifier room judges them. */
export function unitEvidence(job: Job): readonly number[] | undefined {
  if (!UNIT_READINGS.some((id) => job.has(id))) return undefined;
  const { outputShort, caseLeakage } = judgeRectifier(job);
  const states = [
    ...(job.has("case-leakage") ? [caseLeakage.state] : []),
    ...(job.has("output-to-ground") || job.has("output-to-ground-swapped") ? [outputShort.state] : []),
  ];
  if (states.includes("faulty")) return [Math.log(0.002), Math.log(0.7)];
  if (states.every((s) => s === "serviceable")) return [Math.log(0.97), Math.log(0.2)];
  return [Math.log(0.1), Math.log(0.2)];
}
const UNIT_READINGS = ["output-to-ground", "output-to-ground-swapped", "case-leakage"];

export const DEMAND_STATES = ["within", "beyond"] as const;
/** Share of the rated output from which on what is known to be fitted leaves nothing for the battery [1], and its border. */
const ALL_OF_IT = 0.95;
const DEMAND_BORDER = 0.05;
const LEAST_DEMAND = 0.15;

/** Lights and what was added against the rating: a machine that cannot carry what it has has that fault, whatever else. */
export function demandEvidence(job: Job, { ratedKnown, ratedAmps, voltScale }: Frame): readonly number[] | undefined {
  const lights = numberIn(job, "lights-load");
  const added = numberIn(job, "added-load");
  if (lights === undefined || added === undefined || !ratedKnown) return undefined;
  const over = (lights / voltScale + added / 13.5) / ratedAmps - ALL_OF_IT;
  return over <= 0 ? undefined : [Math.max(-over / DEMAND_BORDER, Math.log(LEAST_DEMAND)), 0];
}

/** AC drop across the phase connectors under load; sound ones show a few hundredths of a volt. */
export function connectorEvidence(job: Job): readonly number[] | undefined {
  const drops = PHASE_DROP_IDS.map((id) => numberIn(job, id)).filter((v): v is number => v !== undefined);
  if (drops.length === 0) return undefined;
  const worst = Math.log(Math.max(...drops, 0.005));
  return [logNormal(worst - Math.log(0.08), 0.7), logSum([logNormal(worst - Math.log(3), 1.2)])];
}
