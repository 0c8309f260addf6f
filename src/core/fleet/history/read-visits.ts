import { isBlank, type Cell } from "../../cell";
import { quantityById } from "../../readings/catalogue";
import { isBareNumber } from "../../readings/from-cells";
import { matchLabel, type LabelMatch } from "../../readings/match";
import { parseEntry, saysNothing } from "../../readings/parse";
import { faultMessage } from "../../result";
import { isoDate, parseDate, type DateOrder } from "../dates";
import { UnitTally } from "./mixed-units";
import { FOLLOWED, type Followed, type Notice } from "./types";
import type { VisitLog } from "./visit-log";

const BATTERY_DATA = ["battery-type", "battery-capacity", "battery-cca", "battery-serial"] as const;

interface Column {
  readonly at: number;
  readonly header: string;
  readonly match: LabelMatch;
}

/** Which columns of one table its history is read from. */
export class VisitReader {
  private readonly byId = new Map<string, Column>();
  private readonly tallies: readonly (UnitTally | undefined)[];
  private readonly unread: Notice[] = [];
  private undated = 0;

  constructor(
    header: readonly Cell[],
    private readonly file: number,
    private readonly dateOrder: DateOrder | undefined,
  ) {
    header.forEach((cell, at) => {
      if (isBlank(cell)) return;
      const match = matchLabel(String(cell));
      if (match && !this.byId.has(match.entry.id)) {
        this.byId.set(match.entry.id, { at, header: String(cell).trim(), match });
      }
    });
    this.tallies = FOLLOWED.map((id) => {
      const column = this.byId.get(id);
      return column && new UnitTally(quantityById(id), column.match.unit, column.header, file);
    });
  }

  /** The table's own header of a catalogue entry; the entry's label where the table has none. */
  headerOf(id: string): string {
    return this.byId.get(id)?.header ?? "";
  }

  /** Puts one row into the log. */
  read(cells: readonly Cell[], row: number, log: VisitLog): void {
    const machine = this.text(cells, "machine-name");
    let bare = 0;
    const values = FOLLOWED.map((id, f) => {
      const column = this.byId.get(id);
      const cell = column && cells[column.at];
      if (!column || isBlank(cell)) return Number.NaN;
      const value = this.valueOf(cell, column, id);
      if (this.tallies[f]!.add(cell, row, machine)) bare |= 1 << f;
      return value;
    });
    const day = this.day(cells, row, machine);
    if (machine === "" && values.every(Number.isNaN)) return;
    log.add({
      machine,
      file: this.file,
      row,
      ...(day === undefined ? {} : { day }),
      serial: this.text(cells, "machine-serial"),
      battery: this.battery(cells),
      values,
      bare,
    });
  }

  /** What the columns of this table show by themselves: cells in other units, dates that cannot be read. */
  notices(): readonly Notice[] {
    const rest = this.undated - this.unread.length;
    const last = this.unread.at(-1);
    const more =
      rest > 0 && last ? [{ ...last, what: `${last.what} ${rest} more dates of this column cannot be read.` }] : [];
    return [
      ...this.tallies.flatMap((tally) => tally?.notices() ?? []),
      ...(more.length > 0 ? this.unread.slice(0, -1) : this.unread),
      ...more,
    ];
  }

  private valueOf(cell: Cell, { match }: Column, id: Followed): number {
    const { entry, unit } = match;
    const withUnit = isBareNumber(cell) && unit ? parseEntry(`${String(cell).trim()} ${unit}`, entry) : undefined;
    const parsed = withUnit?.ok ? withUnit : parseEntry(cell, quantityById(id));
    return parsed.ok && parsed.value?.kind === "number" ? parsed.value.value : Number.NaN;
  }

  private day(cells: readonly Cell[], row: number, machine: string): number | undefined {
    const column = this.byId.get("visit-date");
    const cell = column && cells[column.at];
    if (!column || isBlank(cell) || saysNothing(cell)) return undefined;
    const day = parseDate(dayNumber(cell), column.header, this.dateOrder);
    if (day.ok) return day.value ?? undefined;
    this.undated += 1;
    if (this.unread.length < MOST_UNREAD) {
      this.unread.push({
        file: this.file,
        row,
        column: column.header,
        machine,
        kind: "date not read",
        what: `${faultMessage(day.fault)} The visit is left out of the machine's history.`,
      });
    }
    return undefined;
  }

  private battery(cells: readonly Cell[]): string {
    return [...BATTERY_DATA.map((id) => this.text(cells, id).replace(",", ".")), this.fitted(cells)]
      .filter((word) => word !== "")
      .join(", ");
  }

  /** The day a battery was fitted, or its month as written; "yes" and "no" say nothing of which battery it is. */
  private fitted(cells: readonly Cell[]): string {
    const written = this.text(cells, "battery-fitted");
    if (!/\d/u.test(written)) return "";
    const day = parseDate(dayNumber(written), "", this.dateOrder);
    return `fitted ${day.ok && day.value !== null ? isoDate(day.value) : written}`;
  }

  private text(cells: readonly Cell[], id: string): string {
    const column = this.byId.get(id);
    const cell = column && cells[column.at];
    return isBlank(cell) || typeof cell === "object" || saysNothing(cell) ? "" : String(cell).trim();
  }
}

/** Files of text hold a worksheet's day numbers as text. */
function dayNumber(cell: Cell): Cell {
  return typeof cell === "string" && /^\s*\d{5}(?:\.\d+)?\s*$/u.test(cell) ? Number(cell) : cell;
}

/** One by one up to here, the rest of a column as a number. */
const MOST_UNREAD = 200;
