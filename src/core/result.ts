import { signed } from "./signed";

/**
 * What a computation answers: a value, or a fault that says what was wrong and what to enter instead.
 *
 * Faults are a closed union of plain data, so that a cell, the pane and the command line can each
 * show the same sentence; `faultMessage` is the one place where that sentence is written.
 */
export type Fault =
  /** Text or a value that cannot be read as what is asked for. */
  | { readonly code: "not-understood"; readonly what: string; readonly came: string; readonly expected: string }
  /** A number that was read but cannot be true of this quantity. */
  | {
      readonly code: "outside-range";
      readonly what: string;
      readonly came: number;
      readonly min: number;
      readonly max: number;
      readonly unit: string;
    }
  /** A number or word that can be read in two ways; the question is put back instead of a guess. */
  | { readonly code: "ambiguous"; readonly what: string; readonly came: string; readonly question: string }
  /** Something that is needed was not given. */
  | { readonly code: "missing"; readonly what: string; readonly expected: string }
  /** Ranges whose shapes do not go together. */
  | { readonly code: "shape"; readonly what: string; readonly came: string; readonly expected: string }
  /** The question can be read but must not be answered (a discharged battery is not load-tested). */
  | { readonly code: "refused"; readonly what: string; readonly why: string; readonly instead: string }
  /** A solver that found no answer; it gives no number. */
  | { readonly code: "not-converged"; readonly what: string };

export type Result<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: Fault };

export function ok<T>(value: T): Result<T> {
  return { ok: true, value };
}

export function fail<T = never>(fault: Fault): Result<T> {
  return { ok: false, fault };
}

/** Applies `next` to a good value and passes a fault on as it is. */
export function andThen<T, U>(result: Result<T>, next: (value: T) => Result<U>): Result<U> {
  return result.ok ? next(result.value) : result;
}

/** A fault as one sentence: what was wrong, what came, what is expected. */
export function faultMessage(fault: Fault): string {
  switch (fault.code) {
    case "not-understood":
      return `${fault.what}: "${shorten(fault.came)}" cannot be read; enter ${fault.expected}.`;
    case "outside-range":
      return `${fault.what}: ${plain(fault.came)} ${fault.unit} is not possible; enter ${plain(fault.min)} to ${plain(fault.max)} ${fault.unit}.`
        .replaceAll("  ", " ")
        .replaceAll(" ;", ";")
        .replaceAll(" .", ".");
    case "ambiguous":
      return `${fault.what}: "${shorten(fault.came)}" can be read in two ways; ${fault.question}.`;
    case "missing":
      return `${fault.what} is missing; enter ${fault.expected}.`;
    case "shape":
      return `${fault.what}: ${fault.came} does not fit; give ${fault.expected}.`;
    case "refused":
      return `${fault.what}: ${fault.why}; ${fault.instead}.`;
    case "not-converged":
      return `${fault.what}: no solution was found for these values, so no number is given; check the machine data.`;
  }
}

function shorten(text: string): string {
  return text.length <= 40 ? text : `${text.slice(0, 39)}…`;
}

function plain(value: number): string {
  return signed(Number.isFinite(value) ? String(Number(value.toPrecision(6))) : String(value));
}
