import type { Cell } from "../cell";
import type { JudgeOptions } from "../judgement/judge";
import { PAIRS } from "../readings/entries";
import type { Job, Measured } from "../readings/types";
import { andThen, ok, type Result } from "../result";
import {
  insulationAtBase,
  insulationLimit,
  judgeInsulationReading,
  minimumInsulation,
  minimumPolarizationIndex,
  type InsulationClass,
  type WindingKind,
} from "./insulation";
import type { Bench } from "./machine-from-cells";
import { judgeNoLoadAc, noLoadLimit } from "./no-load-ac";
import { judgeWindingOhms } from "./winding-ohms";
import { windingsFrom, type Connection, type LineReading } from "./windings";

type Three = readonly [Measured | undefined, Measured | undefined, Measured | undefined];

export const NO_LOAD_NOT_READ: readonly Cell[] = ["not read", "", "", "", "", ""];

/** State, unbalance, volts per 1000 rpm, lowest and highest expected, reason. */
export function noLoadCells(
  volts: Three,
  rpm: Measured | undefined,
  { machine, meter }: Bench,
): Result<readonly Cell[]> {
  if (volts.every((one) => one === undefined)) return ok(NO_LOAD_NOT_READ);
  const job = withReadings(machine, "no-load", volts, { "no-load-rpm": rpm });
  const judged = judgeNoLoadAc(job, { meter });
  const limit = noLoadLimit(job, "no-load-rpm", meter);
  return ok([
    judged.state,
    judged.balance?.unbalance ?? "",
    judged.perThousand ?? "",
    limit?.low ?? "",
    limit?.high ?? "",
    judged.reason,
  ]);
}

export const OHMS_NOT_READ: readonly Cell[] = ["not read", "", "", "", "", "", ""];

/** State, the three pairs without leads at 20 °C, unbalance, smallest unbalance that shows, reason. */
export function windingOhmsCells(
  ohms: Three,
  leads: Measured | undefined,
  temperature: Measured | undefined,
  { machine, meter }: Bench,
): Result<readonly Cell[]> {
  if (ohms.every((one) => one === undefined)) return ok(OHMS_NOT_READ);
  const job = withReadings(machine, "winding", ohms, { "meter-leads": leads, "stator-temperature": temperature });
  const judged = judgeWindingOhms(job, { meter });
  return ok([
    judged.state,
    ...judged.atReference.map((line) => line ?? ""),
    judged.balance?.unbalance ?? "",
    judged.balance?.resolves ?? "",
    judged.reason,
  ]);
}

function withReadings(
  machine: Job,
  prefix: string,
  three: Three,
  more: Readonly<Record<string, Measured | undefined>>,
): Job {
  const job = new Map(machine);
  PAIRS.forEach((pair, i) => put(job, `${prefix}-${pair}`, three[i]));
  for (const [id, measured] of Object.entries(more)) put(job, id, measured);
  return job;
}

/** What was not read here leaves what the machine's range says of it. */
function put(job: Map<string, Measured>, id: string, measured: Measured | undefined): void {
  if (measured) job.set(id, measured);
}

/** An arm so small against the largest reading may be nought: contact and meter alone make that much [1]. */
const NOUGHT_SHARE = 0.03;
/** However coarse the digits, an arm larger than this is one [1]. */
const NOUGHT_AT_MOST = 0.15;

/** The three windings (ohms, `open` or `unknown`) and a note. */
export function windingCells(
  ab: Measured,
  bc: Measured,
  ca: Measured,
  connection: Connection,
): Result<readonly Cell[]> {
  const readings = [ab, bc, ca];
  const lines = readings.map((one): LineReading => (one.kind === "number" ? one.value : "OL")) as [
    LineReading,
    LineReading,
    LineReading,
  ];
  const largest = Math.max(...lines.map((line) => (line === "OL" ? 0 : line)));
  const digits = Math.max(
    ...readings.map((one) => (one.kind === "number" ? (one.resolution ?? lastDigit(one.value)) : 0)),
  );
  const tolerance = Math.max(NOUGHT_SHARE * largest, Math.min(2 * digits, NOUGHT_AT_MOST * largest));
  return andThen(windingsFrom(...lines, connection, tolerance), ({ windings, note }) => ok([...windings, note]));
}

function lastDigit(value: number): number {
  return 10 ** -(/\.(\d+)$/u.exec(String(value))?.[1]?.length ?? 0);
}

export interface InsulationExtras {
  readonly winding: WindingKind;
  /** Reading after ten minutes [MΩ]. */
  readonly tenMinutes: number | undefined;
  readonly insulationClass: InsulationClass;
}

/** State, MΩ at 40 °C, least MΩ at 40 °C, polarization index, reason. */
export function insulationCells(
  megohms: Measured,
  temperature: number | undefined,
  extras: InsulationExtras,
  options: JudgeOptions = {},
): Result<readonly Cell[]> {
  const judged = judgeInsulationReading(megohms, insulationLimit(temperature, extras.winding), options);
  const read = megohms.kind === "number" ? megohms.value : undefined;
  const atBase = read === undefined || temperature === undefined ? "" : insulationAtBase(read, temperature);
  const index = read === undefined || read === 0 || extras.tenMinutes === undefined ? "" : extras.tenMinutes / read;
  return ok([
    judged.state,
    atBase,
    minimumInsulation(extras.winding),
    index,
    `${judged.reason}${indexWords(index, extras.insulationClass)}`,
  ]);
}

/** The index is shown and not judged: in small random-wound windings it says little. */
function indexWords(index: number | "", insulationClass: InsulationClass): string {
  if (index === "") return "";
  const least = minimumPolarizationIndex(insulationClass);
  return ` Polarization index ${index.toFixed(2)}, IEEE 43 asks ${least} of class ${insulationClass}; it says little of small random-wound windings.`;
}
