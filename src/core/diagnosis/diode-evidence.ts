import { PHASES } from "../readings/entries";
import type { Job, Measured } from "../readings/types";
import { diodeCheckTaken } from "../rectifier/job";
import { logNormal, logSum } from "./gaussian";
import type { Frame } from "./frame";

/** What a diode check can find in the six devices. */
export const RECTIFIER_STATES = [
  "good",
  "upper-open",
  "lower-open",
  "upper-shorted",
  "lower-shorted",
  "leg-open",
  "open-masked",
] as const;
export type RectifierState = (typeof RECTIFIER_STATES)[number];

/** Kinds of circuit as the diode check sees them; `level` is the forward reading of a bank in order [V]. */
interface CircuitKind {
  /** How common it is with a shunt regulator and with a series one: common practice. */
  readonly share: Readonly<Record<"shunt" | "series", number>>;
  readonly upper: BankLevel;
  readonly lower: BankLevel;
}
/** `null`: the bank blocks both ways when in order. */
type BankLevel = { readonly level: number; readonly spread: number } | null;

const JUNCTION: BankLevel = { level: 0.52, spread: 0.06 };
/** With control circuits in parallel a bank in order reads far below a junction: common practice. */
const PARALLEL: BankLevel = { level: 0.15, spread: 0.05 };

const KINDS: Readonly<Record<string, CircuitKind>> = {
  "plain diodes": { share: { shunt: 0.62, series: 0.2 }, upper: JUNCTION, lower: JUNCTION },
  "parallel path": { share: { shunt: 0.28, series: 0.7 }, upper: PARALLEL, lower: JUNCTION },
  "parallel path lower": { share: { shunt: 0.02, series: 0.02 }, upper: JUNCTION, lower: PARALLEL },
  "controlled upper": { share: { shunt: 0.02, series: 0.03 }, upper: null, lower: JUNCTION },
  "controlled lower": { share: { shunt: 0.02, series: 0.02 }, upper: JUNCTION, lower: null },
  mosfet: {
    share: { shunt: 0.04, series: 0.03 },
    upper: { level: 0.5, spread: 0.09 },
    lower: { level: 0.5, spread: 0.09 },
  },
};

const SURE = { shunt: 1, series: 1 };
const SISTER_SPREAD = 0.012;
/** A cell that fits nothing: a slipped lead shows OL, or some number; chance, or chance per volt. */
const ODD = Math.log(1.5e-4);

type Cell = "missing" | "over" | number;
interface Banks {
  readonly upperForward: readonly Cell[];
  readonly lowerForward: readonly Cell[];
  readonly upperReverse: readonly Cell[];
  readonly lowerReverse: readonly Cell[];
}

type Device = "ok" | "open" | "shorted";
interface Placement {
  readonly upper: readonly Device[];
  readonly lower: readonly Device[];
}

const OK3: readonly Device[] = ["ok", "ok", "ok"];
const at = (i: number, device: Device): readonly Device[] => OK3.map((d, j) => (j === i ? device : d));

/** Every place where the state's defect can sit; phases are equally likely. */
function placements(state: RectifierState): readonly Placement[] {
  const each = (make: (i: number) => Placement) => [0, 1, 2].map(make);
  switch (state) {
    case "good":
    case "open-masked":
      return [{ upper: OK3, lower: OK3 }];
    case "upper-open":
      return each((i) => ({ upper: at(i, "open"), lower: OK3 }));
    case "lower-open":
      return each((i) => ({ upper: OK3, lower: at(i, "open") }));
    case "upper-shorted":
      return each((i) => ({ upper: at(i, "shorted"), lower: OK3 }));
    case "lower-shorted":
      return each((i) => ({ upper: OK3, lower: at(i, "shorted") }));
    case "leg-open":
      return each((i) => ({ upper: at(i, "open"), lower: at(i, "open") }));
  }
}

const PLACEMENTS = RECTIFIER_STATES.map(placements);

/**
 * How well each rectifier state explains the diode check, the circuit inside integrated out.
 *
 * @param known - Forward levels of known-good units of the same number, if the shop has read one [V]
 * @returns Log likelihood per state in the order of `RECTIFIER_STATES`; `undefined` where no cell was read
 */
export function diodeEvidence(
  job: Job,
  frame: Frame,
  known: readonly Job[],
  regulator: "shunt" | "series",
): readonly number[] | undefined {
  if (!diodeCheckTaken(job)) return undefined;
  const banks = banksOf(job);
  const cells = [...banks.upperForward, ...banks.lowerForward, ...banks.upperReverse, ...banks.lowerReverse];
  if (cells.every((cell) => cell === "missing")) return undefined;
  const kinds = kindsFor(frame, known);
  return PLACEMENTS.map((places) => {
    const logs: number[] = [];
    for (const place of places) {
      for (const kind of kinds) {
        logs.push(
          Math.log(kind.share[regulator] / places.length) +
            bankLog(place.upper, kind.upper, banks.upperForward, banks.upperReverse) +
            bankLog(place.lower, kind.lower, banks.lowerForward, banks.lowerReverse),
        );
      }
    }
    return logSum(logs);
  });
}

/** Share of each circuit kind after the check, healthy devices assumed: which circuit the levels speak for. */
export function kindsFor(frame: Frame, known: readonly Job[]): readonly CircuitKind[] {
  const fromParts = known
    .map(banksOf)
    .map((b) => ({ upper: knownLevel(b.upperForward), lower: knownLevel(b.lowerForward) }));
  const upper = mean(fromParts.map((p) => p.upper).filter((v): v is number => v !== undefined));
  const lower = mean(fromParts.map((p) => p.lower).filter((v): v is number => v !== undefined));
  if (upper !== undefined && lower !== undefined) {
    // Between two units of one number: a stated spread, common practice.
    const level = (v: number): BankLevel => ({ level: v, spread: Math.max(0.02, 0.06 * v) });
    return [{ share: SURE, upper: level(upper), lower: level(lower) }];
  }
  const stated = frame.bridge === undefined ? undefined : KINDS[frame.bridge];
  if (stated) return [{ ...stated, share: SURE }];
  return Object.values(KINDS);
}

function knownLevel(cells: readonly Cell[]): number | undefined {
  return mean(cells.filter((c): c is number => typeof c === "number"));
}

function mean(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : values.reduce((a, b) => a + b, 0) / values.length;
}

export function banksOf(job: Job): Banks {
  const bank = (name: string) => PHASES.map((p) => cellOf(job.get(`${name}-${p}`)));
  return {
    upperForward: bank("upper-forward"),
    lowerForward: bank("lower-forward"),
    upperReverse: bank("upper-reverse"),
    lowerReverse: bank("lower-reverse"),
  };
}

function cellOf(measured: Measured | undefined): Cell {
  if (measured === undefined) return "missing";
  if (measured.kind === "overload" || measured.kind === "above") return "over";
  if (measured.kind === "below") return measured.value / 2;
  // Displays of 2 V and more are the meter's own open-circuit voltage.
  if (measured.kind === "number") return measured.value >= 2 ? "over" : measured.value;
  return "missing";
}

const LOG_ALMOST_ALL = Math.log(0.99);

/** One bank: three devices whose readings share a level that is known only within a spread. */
function bankLog(
  devices: readonly Device[],
  order: BankLevel,
  forward: readonly Cell[],
  reverse: readonly Cell[],
): number {
  let log = 0;
  const levels: number[] = [];
  for (let i = 0; i < 3; i++) {
    log += blockingLog(devices[i]!, reverse[i]!);
    const cell = forward[i]!;
    if (cell === "missing") continue;
    if (devices[i] === "shorted") log += shortLog(cell);
    else if (devices[i] === "open" || order === null) log += cell === "over" ? LOG_ALMOST_ALL : ODD;
    else if (cell === "over") log += ODD;
    else levels.push(cell);
  }
  if (order === null || levels.length === 0) return log;
  // Chain rule over a common level: each reading is foretold from the type and the sisters before it.
  let precision = 1 / order.spread ** 2;
  let centre = order.level;
  for (const level of levels) {
    const own = SISTER_SPREAD ** 2 + (0.006 * level + 0.0012) ** 2;
    log += logSum([LOG_ALMOST_ALL + logNormal(level - centre, Math.sqrt(1 / precision + own)), ODD]);
    const gained = 1 / own;
    centre = (centre * precision + level * gained) / (precision + gained);
    precision += gained;
  }
  return log;
}

function blockingLog(device: Device, cell: Cell): number {
  if (cell === "missing") return 0;
  if (device === "shorted") return shortLog(cell);
  return cell === "over" ? LOG_ALMOST_ALL : ODD;
}

/** Near zero as a rule; a device that only leaks reads anything up to a junction or two. */
function shortLog(cell: Cell): number {
  if (cell === "over" || cell === "missing") return ODD;
  return logSum([Math.log(0.92 * 2) + logNormal(cell, 0.015), Math.log(0.08 / 2)]);
}

/** How much the stated circuit inside speaks for one kind of regulator: log share. */
export function bridgeLog(frame: Frame, regulator: "shunt" | "series"): number {
  const stated = frame.bridge === undefined ? undefined : KINDS[frame.bridge];
  return stated ? Math.log(stated.share[regulator]) : 0;
}
