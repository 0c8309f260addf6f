import type { Interval } from "../judgement/types";
import { displayWords, type Display } from "./display";
import type { Expected } from "./expectation";
import type { Bank, DiodeFinding, DiodeState, PhaseName } from "./types";

/** One device of a bank: what was read of it and what it should read. */
export interface Device {
  readonly phase: PhaseName;
  readonly forward: Display;
  readonly reverse: Display;
  readonly expected: { readonly forward: Expected; readonly reverse: Expected };
}

/** A bank under judgement: rules add findings and settle the states of its readings. */
export interface BankView {
  readonly bank: Bank;
  readonly devices: readonly Device[];
  readonly forward: DiodeState[];
  readonly reverse: DiodeState[];
  readonly findings: DiodeFinding[];
  /** Refers a forward reading to 25 °C and 1 mA [V]. */
  readonly atReference: (volts: number) => number;
  /** Refers a forward reading to 25 °C, the bench at which known-good parts are read [V]. */
  readonly atBench: (volts: number) => number;
  /** What is not known of temperature and test current may have shifted a reading by [V]. */
  readonly slack: number;
}

/** Places of the devices that a test holds for. */
export function where(view: BankView, test: (device: Device) => boolean): readonly number[] {
  return view.devices.flatMap((device, i) => (test(device) ? [i] : []));
}

export function note(
  view: BankView,
  at: readonly number[],
  finding: Pick<DiodeFinding, "weight" | "state" | "words" | "next">,
): void {
  view.findings.push({ ...finding, bank: view.bank, phases: at.map((i) => view.devices[i]!.phase) });
}

export function nameOf(view: BankView, i: number): string {
  return `The ${view.bank} device of phase ${view.devices[i]!.phase}`;
}

/** Both readings of a device, as a sentence shows them. */
export function bothWays({ forward, reverse }: Device): string {
  return `${displayWords(forward)} forward, ${displayWords(reverse)} in reverse`;
}

/** Lowest and highest of the forward readings at these places. */
export function forwardRange(view: BankView, at: readonly number[]): string {
  const volts = at.flatMap((i) => voltsOf(view.devices[i]!.forward) ?? []);
  const [low, high] = [Math.min(...volts).toFixed(2), Math.max(...volts).toFixed(2)];
  return low === high ? `${low} V` : `${low} to ${high} V`;
}

export function voltsOf(display: Display): number | undefined {
  return display.shows === "volts" ? display.volts : undefined;
}

export function outside(volts: number, { low = -Infinity, high = Infinity }: Interval): boolean {
  return volts < low || volts > high;
}

/** What a reading shows by itself, before rules look at both directions and at the sisters. */
export function plainState(display: Display): DiodeState {
  switch (display.shows) {
    case "nothing":
      return "not read";
    case "zero":
      return "short";
    case "over-range":
      return "blocks";
    case "volts":
      return "conducts";
  }
}
