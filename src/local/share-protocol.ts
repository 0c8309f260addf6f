import type { Area, WorkbookFault } from "../workbook/port";

/** What a phone may ask of the workbook on the shop's computer; everything else is refused. */
export const SHARED_CALLS = ["sheetNames", "activeSheet", "usedArea", "read", "mergedIn", "tablesIn", "apply"] as const;
export type SharedCall = (typeof SHARED_CALLS)[number];

export function isSharedCall(name: unknown): name is SharedCall {
  return SHARED_CALLS.some((call) => call === name);
}

/** A call on its way to the page that holds the workbook. */
export interface CallMessage {
  readonly id: number;
  readonly method: SharedCall;
  readonly args: readonly unknown[];
}

export type AnswerMessage = { readonly id: number } & Answered;
export type Answered =
  | { readonly value: unknown }
  | { readonly fault: { readonly message: string; readonly reason: WorkbookFault["reason"] } };

/** What the page tells the phones without being asked. */
export type DeskEvent =
  | { readonly kind: "edit"; readonly at: Area }
  | { readonly kind: "calculated" }
  /** Another workbook was opened: everything has to be read anew. */
  | { readonly kind: "another workbook" };

/** Stands for "leave this cell alone", which JSON has no word for. */
const LEFT_ALONE = { leave: true } as const;

export function packed(value: unknown): string {
  return JSON.stringify(value, function (this: unknown, _key, inner: unknown) {
    return inner === undefined && Array.isArray(this) ? LEFT_ALONE : inner;
  });
}

export function unpacked(text: string): unknown {
  return JSON.parse(text, (_key, inner: unknown) =>
    typeof inner === "object" && inner !== null && (inner as { leave?: unknown }).leave === true ? undefined : inner,
  );
}
