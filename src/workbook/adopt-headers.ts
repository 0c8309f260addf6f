import { isBlank, type Block, type Cell } from "../core/cell";
import { isTotalsRow } from "../core/fleet/table-shape";
import { atSecondSpeeds } from "../core/readings/from-cells";
import { matchLabel, type LabelMatch } from "../core/readings/match";
import { isUnitWordFor, unitAlone } from "../core/readings/units";
import { entryOf } from "../core/readings/catalogue";

/** What a column holds: an entry of the catalogue, the unit that its bare numbers are in, the speed they were read at. */
export interface Meaning {
  readonly id: string;
  readonly unit?: string;
  readonly rpm?: number;
}

export function meaningOf({ entry, unit, rpm }: LabelMatch): Meaning {
  return { id: entry.id, ...(unit === undefined ? {} : { unit }), ...(rpm === undefined ? {} : { rpm }) };
}

/** How a column's meaning was found. */
export type Told =
  /** By its own header, which the worksheet's functions read the same way. */
  | "header"
  /** By its own header, misspelt. */
  | "misspelt"
  /** By its header together with the title above it or the unit below it. */
  | "around"
  /** By the formula of results that stand beside the table: the user said so before. */
  | "before"
  /** An earlier column has this reading already. */
  | "doubled"
  | "nothing";

export interface HeaderColumn {
  readonly column: number;
  /** Header as it stands, with the title above it where that helped. */
  readonly header: string;
  readonly meaning?: Meaning;
  readonly told: Told;
}

const SEARCHED = 60;
/** Fewer known headers than this may be a coincidence. */
const ENOUGH = 2;

/** The row with most known headers, from `first` on; `undefined` where none has enough of them. */
export function bestHeaderRow(values: Block, first: number, columns: readonly number[]): number | undefined {
  let [best, most] = [undefined as number | undefined, ENOUGH - 1];
  for (let row = first; row < Math.min(values.length, first + SEARCHED); row++) {
    const known = knownIn(values, row, columns);
    if (known > most) [best, most] = [row, known];
  }
  return best;
}

/** The nearest row at or above `from` with enough known headers. */
export function headerRowAbove(values: Block, from: number, columns: readonly number[]): number | undefined {
  for (let row = Math.min(from, values.length - 1); row >= 0; row--) {
    if (knownIn(values, row, columns) >= ENOUGH) return row;
  }
  return undefined;
}

function knownIn(values: Block, row: number, columns: readonly number[]): number {
  const ids = new Set<string>();
  for (const column of columns) {
    const match = matchOf(values[row]?.[column]);
    if (match) ids.add(match.entry.id);
  }
  return ids.size;
}

function matchOf(cell: Cell) {
  return typeof cell === "string" && !isBlank(cell) ? matchLabel(cell) : undefined;
}

/** True where the row below the headers holds their units and nothing else. */
export function isUnitsRow(values: Block, row: number, columns: readonly HeaderColumn[]): boolean {
  let units = 0;
  for (const { column, meaning } of columns) {
    const cell = values[row]?.[column];
    if (isBlank(cell)) continue;
    const entry = meaning && entryOf(meaning.id);
    if (typeof cell !== "string") return false;
    if (entry?.kind === "quantity" && isUnitWordFor(unitAlone(cell), entry.unit)) units++;
    else if (meaning) return false;
  }
  return units > 0;
}

/**
 * What each column holds, by its header; where that says nothing, by the title above it together
 * with it. A reading that two columns claim belongs to the first, but for a no-load reading at a second speed.
 */
export function readHeaders(values: Block, headerRow: number, columns: readonly number[]): readonly HeaderColumn[] {
  let title = "";
  const found = columns.map((column) => {
    const cell = values[headerRow]?.[column];
    const header = isBlank(cell) ? "" : String(cell).trim().replaceAll(/\s+/gu, " ");
    const above = headerRow > 0 ? values[headerRow - 1]?.[column] : undefined;
    // A title stands over the columns up to the next one, as merged cells show it.
    if (typeof above === "string" && !isBlank(above)) title = above.trim();
    const own = matchOf(cell);
    const joined = own || header === "" || title === "" ? undefined : matchLabel(`${title} ${header}`);
    return { column, header: joined ? `${title} · ${header}` : header, joined, match: own ?? joined };
  });
  const matches = atSecondSpeeds(found.map(({ match }) => match));
  const taken = new Set<string>();
  return found.map(({ column, header, joined }, i): HeaderColumn => {
    const match = matches[i];
    if (!match) return { column, header, told: "nothing" };
    const meaning = meaningOf(match);
    if (taken.has(match.entry.id)) return { column, header, meaning, told: "doubled" };
    taken.add(match.entry.id);
    return { column, header, meaning, told: joined ? "around" : match.confidence < 1 ? "misspelt" : "header" };
  });
}

/** Gives the columns the units that stand below their headers; a header's own unit goes before. */
export function withUnits(values: Block, row: number, columns: readonly HeaderColumn[]): readonly HeaderColumn[] {
  return columns.map((one) => {
    const cell = values[row]?.[one.column];
    if (!one.meaning || one.meaning.unit !== undefined || isBlank(cell)) return one;
    return {
      ...one,
      meaning: { ...one.meaning, unit: unitAlone(String(cell)) },
      told: one.told === "doubled" ? one.told : "around",
    };
  });
}

/**
 * How many rows of machines follow: down to the last one with a reading and those right below it;
 * totals, a second header and notes under the table are none.
 */
export function countRows(values: Block, first: number, columns: readonly HeaderColumn[]): number {
  const all = columns.map(({ column }) => column);
  const read = columns
    .filter(({ meaning }) => meaning && entryOf(meaning.id)?.kind !== "text")
    .map((one) => one.column);
  const telling = read.length > 0 ? read : all;
  const blankAt = (row: number, among: readonly number[]) => among.every((column) => isBlank(values[row]?.[column]));
  let end = values.length;
  for (let row = first; row < end; row++) if (knownIn(values, row, all) >= Math.max(ENOUGH, all.length / 2)) end = row;
  while (end > first && (blankAt(end - 1, telling) || totals(values, end - 1, all))) end--;
  // Machines that nothing was read of yet.
  while (end < values.length && end > first && !blankAt(end, all) && named(values, end, all)) end++;
  return end - first;
}

const totals = (values: Block, row: number, columns: readonly number[]) =>
  isTotalsRow(columns.map((column) => values[row]?.[column]));

function named(values: Block, row: number, columns: readonly number[]): boolean {
  return !totals(values, row, columns) && knownIn(values, row, columns) < ENOUGH;
}
