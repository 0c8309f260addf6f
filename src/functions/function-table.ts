import type { Cell } from "../core/cell";

/** A worksheet function as every host calls it: cells in as they are, a block of cells out. */
// The host decides what arrives; each function reads its own arguments.
// eslint-disable-next-line @typescript-eslint/no-explicit-any
export type WorksheetFunction = (...given: any[]) => Cell[][];

export type FunctionTable = Readonly<Record<string, WorksheetFunction>>;
