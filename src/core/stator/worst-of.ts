import type { Judged, ReadingState } from "../judgement/types";

const ORDER: readonly ReadingState[] = ["fail", "unsure", "pass", "not read"];

/** The judgement that counts among several: a fail before an unsure before a pass. */
export function worstOf(judged: readonly Judged[]): Judged | undefined {
  return [...judged].sort((a, b) => ORDER.indexOf(a.state) - ORDER.indexOf(b.state))[0];
}

/** What was only partly read does not pass. */
export function stateWith(state: ReadingState, missing: boolean): ReadingState {
  return missing && state === "pass" ? "unsure" : state;
}

/** The reason of the judgement that counts, with what the readings point to and what is missing. */
export function reasonOf(worst: Judged, pattern: string, missing: boolean): string {
  return [
    worst.reason,
    ...(pattern === "" ? [] : [`${pattern}.`]),
    ...(missing ? ["Not every pair was read."] : []),
  ].join(" ");
}
