import type { Area, Step } from "./port";

/** A template laid out on a sheet: the steps that build it, and where to type. */
export interface SheetPlan {
  readonly template: string;
  readonly sheet: string;
  /** Everything the plan touches, from A1. */
  readonly area: Area;
  /** Without the sheet itself being added. */
  readonly steps: readonly Step[];
  /** The cell of each reading of a page, by catalogue id; of a list or table, its first row's; else by label. */
  readonly inputs: ReadonlyMap<string, { readonly row: number; readonly column: number }>;
  /** The label that says what to type into a cell; `undefined` where nothing is typed. */
  labelOf(
    row: number,
    column: number,
  ): { readonly row: number; readonly column: number; readonly text: string } | undefined;
}
