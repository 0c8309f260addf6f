import type { Cell } from "../core/cell";
import { entryOf, isReading } from "../core/readings/catalogue";
import type { Job, Measured } from "../core/readings/types";
import type { ListRow, ListSheet } from "./list-sheet";

/** A job as one row of the list of visits, and back. */

export interface VisitCells {
  readonly cells: ReadonlyMap<string, string | number>;
  /** Readings that the list has no column for; the job's own sheet keeps them. */
  readonly left: number;
}

/**
 * What is written down of a job.
 *
 * @param day - Day of the visit as `2026-11-25`
 * @param typed - Cells as they stand on the job's sheet; what cannot be read there is not in `job`
 */
export function visitCells(list: ListSheet, job: Job, typed: ReadonlyMap<string, Cell>, day: string): VisitCells {
  const cells = new Map<string, string | number>([["visit-date", day]]);
  let left = 0;
  for (const [id, measured] of job) {
    if (id === "visit-date") continue;
    const entry = entryOf(id);
    if (!list.columns.has(id)) {
      if (entry && isReading(entry)) left++;
      continue;
    }
    const cell = typed.get(id);
    if (typeof cell === "string" && measured.kind !== "text") cells.set(id, cell);
    else cells.set(id, underHeader(list, id, measured));
  }
  return { cells, left };
}

/**
 * What is still to be written where a visit stands in the list already: what the row lacks. Cells that say
 * otherwise may have been corrected there and stay; they are named.
 */
export function visitAgain(
  { typed, job: written }: ListRow,
  job: Job,
  cells: ReadonlyMap<string, string | number>,
): { readonly lacking: ReadonlyMap<string, string | number>; readonly otherwise: readonly string[] } {
  return {
    lacking: new Map([...cells].filter(([id]) => !typed.has(id))),
    otherwise: [...cells.keys()].filter(
      (id) => typed.has(id) && !KNOWN_BY.has(id) && !saysTheSame(written.get(id), job.get(id)),
    ),
  };
}

/** By these a visit was found, in whatever way they are written. */
const KNOWN_BY: ReadonlySet<string> = new Set(["machine-name", "visit-date"]);

function saysTheSame(a: Measured | undefined, b: Measured | undefined): boolean {
  // Two units of one reading need not come to the same last digit.
  if (a?.kind === "number" && b?.kind === "number") return Math.abs(a.value - b.value) <= 1e-9 * Math.abs(a.value);
  return JSON.stringify(a) === JSON.stringify(b);
}

/** A bare number takes the unit of the header over it: where that is another one, the number says its own. */
function underHeader(list: ListSheet, id: string, measured: Measured): string | number {
  const cell = cellOfMeasured(measured);
  const entry = entryOf(id);
  const unit = list.units.get(id);
  if (typeof cell !== "number" || entry?.kind !== "quantity" || unit === undefined || unit === entry.unit) return cell;
  return `${cell} ${entry.unit}`;
}

/** What goes into the cells of a job sheet to have a visit before one again; numbers in the entries' own units. */
export function cellsOfVisit(visit: ListRow): ReadonlyMap<string, string | number> {
  return new Map([...visit.job].map(([id, measured]) => [id, cellOfMeasured(measured)]));
}

function cellOfMeasured(measured: Measured): string | number {
  switch (measured.kind) {
    case "overload":
      return "OL";
    case "above":
      return `>${measured.value}`;
    case "below":
      return `<${measured.value}`;
    default:
      return measured.value;
  }
}
