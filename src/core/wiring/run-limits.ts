import type { Limit } from "../judgement/types";
import type { SourceId } from "../sources";

/** What a voltage drop was read across. */
export const RUNS = ["connection", "B+ run", "ground run", "phase connector", "starter cable"] as const;
export type Run = (typeof RUNS)[number];

interface RunLimit {
  /** Allowed at `atAmps` and below; rises in proportion above [V]. */
  readonly volts: number;
  /** Where sources differ, the most that any of them allows there [V]. */
  readonly atMost?: number;
  readonly atAmps: number;
  /** True where the allowed drop also falls in proportion below `atAmps`: a whole run at full output. */
  readonly falls: boolean;
  readonly source: SourceId;
  readonly words: string;
}

const LIMITS: Readonly<Record<Run, RunLimit>> = {
  connection: {
    volts: 0.1,
    atAmps: 20,
    falls: false,
    source: "navedtra-14273",
    words: "0.1 V for each connection at 20 A, US Navy NAVEDTRA 14273",
  },
  "phase connector": {
    volts: 0.1,
    atAmps: 20,
    falls: false,
    source: "navedtra-14273",
    words: "0.1 V for each connection at 20 A, US Navy NAVEDTRA 14273",
  },
  "B+ run": {
    volts: 0.5,
    atMost: 0.7,
    atAmps: 20,
    falls: true,
    source: "navedtra-14273",
    words: "0.5 V at 20 A by common practice, 0.7 V by US Navy NAVEDTRA 14273",
  },
  "ground run": {
    volts: 0.2,
    atMost: 0.4,
    atAmps: 20,
    falls: true,
    source: "common-practice",
    words: "0.2 to 0.4 V at 20 A, common practice",
  },
  "starter cable": {
    volts: 0.2,
    atAmps: 100,
    falls: false,
    source: "tm-9-2320-211-20",
    words: "0.2 V, and 0.2 V per 100 A above, US Army TM 9-2320-211-20 and TM 10-3930-671-24",
  },
};

/** With the current unknown a run passes only below this [V]: common practice for any of them. */
const PASSES_AT_ANY_CURRENT = 0.1;
/** No current, no drop: below this nothing can be judged [A]. */
export const LEAST_AMPS = 2;

/**
 * How much a run may drop at the current that flowed. Without the current the limit is a range: it
 * passes only what is small at any current, and fails only what is too much at the most that the
 * machine can deliver.
 *
 * @param run - What the drop was read across
 * @param amps - Current during the test [A], its size counts; `undefined` where not read
 * @param mostAmps - Most that the machine can deliver [A], where known
 * @returns Limit [V]
 * @source navedtra-14273 insulated circuit 0.7 V and 0.1 V for each connection at 20 A
 */
export function allowedDrop(run: Run, amps: number | undefined, mostAmps?: number): Limit {
  const { volts, atMost = volts, atAmps, falls, source, words } = LIMITS[run];
  const origin = { from: "published", source, words } as const;
  const scaled = (allowed: number, at: number) => allowed * (falls ? at / atAmps : Math.max(1, at / atAmps));
  if (amps !== undefined) {
    const at = Math.max(LEAST_AMPS, Math.abs(amps));
    const high = scaled(volts, at);
    return { high, origin, ...(atMost > volts ? { lenient: { high: scaled(atMost, at) } } : {}) };
  }
  if (!falls) return { high: volts, origin, lenient: { high: scaled(atMost, Math.max(atAmps, mostAmps ?? atAmps)) } };
  return {
    high: PASSES_AT_ANY_CURRENT,
    lenient: { high: scaled(atMost, Math.max(atAmps, mostAmps ?? atAmps)) },
    origin: { ...origin, words: `${words}; current during the test not read` },
  };
}
