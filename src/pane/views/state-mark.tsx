/** @jsxImportSource preact */
import type { JSX } from "preact";
import type { PartState, ReadingState } from "../../core/judgement/types";
import { useWords } from "../words/words";

export type AnyState = ReadingState | PartState;
type Tone = "good" | "bad" | "doubt" | "open";

const TONE: Readonly<Record<AnyState, Tone>> = {
  pass: "good",
  serviceable: "good",
  fail: "bad",
  faulty: "bad",
  unsure: "doubt",
  suspect: "doubt",
  "not read": "open",
  unproven: "open",
};

/** The shape of a state: tick in a disc, cross in a square, mark in a triangle, open ring. Grey paper keeps it. */
export function StateShape({ state, size = 16 }: { readonly state: AnyState; readonly size?: number }): JSX.Element {
  return (
    <svg
      class={`cw-shape cw-${TONE[state]}`}
      width={size}
      height={size}
      viewBox="0 0 16 16"
      aria-hidden="true"
      focusable="false"
    >
      <ShapePaths state={state} />
    </svg>
  );
}

/** The shape's paths alone, 16 × 16, for use inside another drawing. */
export function ShapePaths({ state }: { readonly state: AnyState }): JSX.Element {
  switch (TONE[state]) {
    case "good":
      return (
        <>
          <circle class="cw-shape-body" cx="8" cy="8" r="7" />
          <path class="cw-shape-sign" d="M4.600 8.300l2.400 2.400l4.400 -5" />
        </>
      );
    case "bad":
      return (
        <>
          <rect class="cw-shape-body" x="1.200" y="1.200" width="13.600" height="13.600" rx="1.500" />
          <path class="cw-shape-sign" d="M5 5l6 6M11 5l-6 6" />
        </>
      );
    case "doubt":
      return (
        <>
          <path class="cw-shape-body" d="M8 1l7.300 13.400h-14.600z" />
          <path class="cw-shape-sign" d="M8 5.600v4.200M8 12v.2" />
        </>
      );
    case "open":
      return state === "not read" ? (
        <circle class="cw-shape-open" cx="8" cy="8" r="6" stroke-dasharray="2.600 2.200" />
      ) : (
        <>
          <path class="cw-shape-open" d="M8 1.200l6.800 6.800l-6.800 6.800l-6.800 -6.800z" />
          <path class="cw-shape-open" d="M8 5v3.600M8 10.800v.2" />
        </>
      );
  }
}

/** A state as its word with its shape before it. */
export function StateMark({ state }: { readonly state: AnyState }): JSX.Element {
  const words = useWords();
  return (
    <span class={`cw-state cw-state-${TONE[state]}`} data-state={state}>
      <StateShape state={state} />
      {words.state[state]}
    </span>
  );
}

export function toneOf(state: AnyState): Tone {
  return TONE[state];
}
