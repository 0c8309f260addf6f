import type { FaultId } from "../../core/diagnosis/faults";

/** What was planted in a demo fleet, so that an audit can be held against it. */
export interface Planted {
  readonly kind:
    | "duplicate machine"
    | "renamed machine"
    | "mixed units"
    | "changed meter"
    | "storage"
    | "battery replaced"
    | "fault"
    | "repair"
    | "not a date"
    | "not a reading";
  readonly machine: string;
  /** Row as a spreadsheet shows it, from 1; of the first row that shows it. */
  row: number;
  readonly day?: number;
  /** What is wrong with the machine on this visit, where that is planted. */
  readonly fault?: FaultId;
}

/** One row of the table while it is made: cells by column, and what it shows. */
export interface DraftRow {
  readonly day: number;
  readonly cells: string[];
  readonly planted: Planted[];
}
