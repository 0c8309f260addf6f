import type { Limit } from "../core/judgement/types";
import { parseQuantity } from "../core/readings/parse";
import { ok } from "../core/result";
import { parseConductorSize, type ConductorSize } from "../core/wiring/conductor-size";
import { CONDUCTOR_KINDS, type ConductorKind } from "../core/wiring/conductor-tables";
import { allowedDrop, RUNS, type Run } from "../core/wiring/run-limits";
import { choice, number, optional, optionalOrAbsent, reading, type Argument } from "./arguments";

/** Arguments that the wiring functions share. */
export const SIZE: Argument<ConductorSize> = { name: "size", read: parseConductorSize };
export const LENGTH = number("length", { unit: "m", min: 0, max: 100000 });
export const TEMPERATURE = optional(number("temperature", { unit: "°C", min: -60, max: 250 }), 20);
const SYNONYMS: Partial<Record<ConductorKind, readonly string[]>> = {
  solid: ["class 1", "iec 60228 class 1"],
  stranded: ["class 2", "iec 60228 class 2"],
  flexible: ["class 5", "iec 60228 class 5"],
  "flexible tinned": ["class 5 tinned", "tinned"],
  "road vehicle": ["iso 6722", "iso 6722-1", "automotive"],
};
export const KIND = optionalOrAbsent(
  choice(
    "kind",
    CONDUCTOR_KINDS.map((value) => ({ value, label: value, synonyms: SYNONYMS[value] ?? [] })),
  ),
);
export const CURRENT = number("amps", { unit: "A", min: -5000, max: 5000 });
export const DROP = reading("drop", { unit: "V", min: -20, max: 20 });

const RUN = choice(
  "allowed",
  RUNS.map((value) => ({ value, label: value })),
);
const ownLimit =
  (volts: number): ((amps: number) => Limit) =>
  () => ({ high: volts, origin: { from: "machine data", words: "allowed drop as entered" } });
const runLimit =
  (run: Run): ((amps: number) => Limit) =>
  (amps) =>
    allowedDrop(run, amps);

/** Volts, or the name of a run whose published limit counts. */
const allowedOrRun: Argument<(amps: number) => Limit> = {
  name: "allowed",
  read: (cell) => {
    const run = RUN.read(cell);
    if (run.ok) return ok(run.value === null ? null : runLimit(run.value));
    const volts = parseQuantity(cell, { what: "allowed", unit: "V", min: 0.001, max: 20 });
    if (volts.ok && volts.value?.kind === "number") return ok(ownLimit(volts.value.value));
    return typeof cell === "number" && !volts.ok ? volts : run;
  },
};
export const ALLOWED = optional(allowedOrRun, runLimit("connection"));
