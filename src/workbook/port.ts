import type { Cell } from "../core/cell";

/**
 * The one door to a workbook. Excel, the local grid and .xlsx files each stand behind it, so the
 * pane, the templates and the tests never know which of them they speak to.
 *
 * Addresses are zero-based and rectangular. Every write is a batch: after a failure the sheet is as
 * before or complete, never half; a failed call rejects with `WorkbookFault`.
 */
export interface Workbook {
  /** What stands behind the port, for messages and for what it can do. */
  readonly host: HostInfo;
  sheetNames(): Promise<readonly string[]>;
  activeSheet(): Promise<string>;
  activateSheet(sheet: string): Promise<void>;
  /** The filled part of a sheet from A1, with its last values; an empty sheet is 0 × 0. */
  usedArea(sheet: string): Promise<Area>;
  read(at: Area): Promise<ReadArea>;
  /** Merged areas that touch `at`; what a template must not cut through. */
  mergedIn(at: Area): Promise<readonly Area[]>;
  /** Tables that touch `at`. */
  tablesIn(at: Area): Promise<readonly TableArea[]>;
  /** Applies every step or none; one undo step where the host allows it. */
  apply(batch: readonly Step[]): Promise<void>;
  selection(): Promise<Area>;
  select(at: Area): Promise<void>;
  /** Called after cells were edited by hand (not for recalculation); returns the way to stop. */
  onEdit(listener: (change: Area) => void): () => void;
  /** Called after values changed by recalculation; hosts may merge bursts. */
  onCalculated(listener: () => void): () => void;
  onSelection(listener: (at: Area) => void): () => void;
}

export interface HostInfo {
  readonly kind: "excel" | "grid" | "file";
  readonly tables: boolean;
  readonly undo: boolean;
}

export interface Area {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** A table of the workbook with its header row, and its totals row where it shows one. */
export interface TableArea {
  readonly name: string;
  readonly at: Area;
  readonly totals: boolean;
}

export interface ReadArea {
  /** Values as computed: numbers, text, booleans, `""` for blank, error objects. */
  readonly values: readonly (readonly Cell[])[];
  /** A formula with its leading `=`, or `""` where the cell holds none. */
  readonly formulas: readonly (readonly string[])[];
}

/** What one batch may do. The sheet builder emits these; a host carries them out in order. */
export type Step =
  | { readonly do: "add sheet"; readonly sheet: string }
  | { readonly do: "write"; readonly at: Area; readonly values: readonly (readonly CellWrite[])[] }
  | { readonly do: "format"; readonly at: Area; readonly format: CellFormat }
  | { readonly do: "validate"; readonly at: Area; readonly rule: ValidationRule }
  | { readonly do: "colour rule"; readonly at: Area; readonly rule: ColourRule }
  | { readonly do: "merge"; readonly at: Area }
  | { readonly do: "column width"; readonly sheet: string; readonly column: number; readonly characters: number }
  | { readonly do: "row height"; readonly sheet: string; readonly row: number; readonly points: number }
  | { readonly do: "freeze"; readonly sheet: string; readonly rows: number; readonly columns: number }
  | { readonly do: "print"; readonly at: Area; readonly setup: PrintSetup }
  | { readonly do: "table"; readonly at: Area; readonly name: string }
  /** Takes columns at its right into a table, `at` is where it stands; what is in them becomes part of it. */
  | { readonly do: "widen table"; readonly at: Area; readonly name: string; readonly by: number }
  | { readonly do: "name"; readonly name: string; readonly at: Area }
  /** A host that draws no charts keeps it for the files that are made from it. */
  | { readonly do: "chart"; readonly sheet: string; readonly chart: ChartPlan };

/**
 * A cell's new content: a value, or `{ formula }`. `spills` marks a formula whose result covers
 * `rows × columns`, so that hosts can store it as a dynamic array; `undefined` leaves a cell alone.
 */
export type CellWrite =
  | string
  | number
  | boolean
  | undefined
  | { readonly formula: string; readonly spills?: { readonly rows: number; readonly columns: number } };

export interface CellFormat {
  readonly bold?: boolean;
  readonly italic?: boolean;
  readonly size?: number;
  /** Colours are six hex digits without `#`. */
  readonly colour?: string;
  readonly fill?: string;
  readonly align?: "left" | "center" | "right";
  readonly vertical?: "top" | "middle" | "bottom";
  readonly wrap?: boolean;
  readonly number?: string;
  readonly border?: "none" | "bottom" | "all";
}

export type ValidationRule =
  | { readonly kind: "list"; readonly choices: readonly string[]; readonly message: string }
  /** A hint beside the cell that refuses nothing: readings are typed as people type them. */
  | { readonly kind: "hint"; readonly title: string; readonly message: string };

/** Colours cells by the words they hold. */
export interface ColourRule {
  readonly words: readonly { readonly equals: string; readonly fill: string; readonly colour: string }[];
  /** The cell whose word decides, relative to the first cell of the area (function cells cannot). */
  readonly decidedBy?: { readonly rows: number; readonly columns: number };
}

export interface PrintSetup {
  readonly orientation: "portrait" | "landscape";
  readonly fitWidthPages: number;
  readonly fitHeightPages?: number;
  readonly titleRows?: number;
  readonly footer?: string;
}

export interface ChartSeries {
  readonly name: string;
  readonly x?: Area;
  readonly y: Area;
  /** Of a scatter chart: joined by a line without marks, or single marks; as the host does it where not given. */
  readonly drawn?: "line" | "marks";
}
export interface ChartPlan {
  readonly title: string;
  readonly kind: "line" | "column" | "scatter";
  readonly series: readonly ChartSeries[];
  readonly xTitle: string;
  readonly yTitle: string;
  readonly anchor: { readonly row: number; readonly column: number; readonly rows: number; readonly columns: number };
}

/** Why a workbook call failed, in words for the user. */
export class WorkbookFault extends Error {
  constructor(
    message: string,
    readonly reason: "host" | "missing" | "occupied" | "merged" | "protected" | "unsupported" | "file",
  ) {
    super(message);
    this.name = "WorkbookFault";
  }
}
