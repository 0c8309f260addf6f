import type { FaultId } from "./faults";
import type { Finding, Found } from "./finding";
import type { Part } from "../readings/types";

/** What must be seen together before a part may be called faulty for a fault. */
export interface DirectProof {
  readonly kind: "direct check" | "exclusion";
  readonly findings: readonly Finding[];
  /** In words, for the reader who wants to know on what grounds. */
  readonly words: string;
}

const direct = (words: string, ...findings: Finding[]): DirectProof => ({ kind: "direct check", findings, words });
const exclusion = (words: string, ...findings: Finding[]): DirectProof => ({ kind: "exclusion", findings, words });

const STATOR_GOOD_OUTPUT_LOST = exclusion(
  "the stator gives full and even AC unplugged, and with it plugged in the running voltage is low (measure both runs first)",
  "no-load-full",
  "no-output-at-speed",
);

const NOTHING_LEAVES = [
  exclusion(
    "nothing comes from the regulator at speed though the stator gives AC unplugged (look at the main fuse first)",
    "nothing-leaves-regulator",
    "no-load-alive",
  ),
  exclusion(
    "nothing comes from the regulator at speed though the windings are whole (look at the main fuse first)",
    "nothing-leaves-regulator",
    "winding-whole",
  ),
  exclusion(
    "nothing comes from the regulator at speed though the stator gives AC plugged in (look at the main fuse first)",
    "nothing-leaves-regulator",
    "loaded-not-held",
  ),
];
/** Everything before and behind the rectifier is shown to be good, and its output is poor all the same. */
const ALL_ELSE_GOOD = exclusion(
  "the stator gives even AC unplugged, both runs are sound, and yet the running voltage is low",
  "no-load-alive",
  "no-output-at-speed",
  "bplus-drop-normal",
  "ground-drop-normal",
);

/**
 * For each fault, what counts as a check of the part itself. Exclusion counts only where it says so:
 * a regulator that fails only while it works cannot be shown on the bench.
 */
export const DIRECT_PROOF: Readonly<Record<FaultId, readonly DirectProof[]>> = {
  healthy: [],
  "battery-sulfated": [
    direct("the load test fails", "load-test-fails"),
    direct("it collapses while cranking although it is not empty", "cranking-collapses"),
  ],
  "battery-shorted-cell": [
    direct("a cell's voltage is missing at rest", "cell-missing"),
    direct("a cell's acid stays far behind the others", "cell-behind"),
  ],
  "parasitic-drain": [direct("the key-off draw is above what is allowed", "draw-high")],
  "excessive-load": [direct("the key-on load is far above the nominal", "key-on-high")],
  "regulator-overcharge": [direct("the voltage at the battery posts runs above the regulated limit", "over-voltage")],
  "regulator-shunt-stuck-one-phase": [
    direct("plugged in, the AC shows one phase tied down", "loaded-phase-held-down"),
    ALL_ELSE_GOOD,
    STATOR_GOOD_OUTPUT_LOST,
  ],
  "regulator-shunt-stuck-all-phases": [
    direct("plugged in, the AC of all phases is held down", "loaded-all-held-down"),
    ...NOTHING_LEAVES,
    STATOR_GOOD_OUTPUT_LOST,
  ],
  "regulator-series-no-fire": [
    direct(
      "plugged in, the AC stands as high as unplugged while nothing charges",
      "loaded-as-unplugged",
      "no-output-at-speed",
    ),
    ...NOTHING_LEAVES,
    STATOR_GOOD_OUTPUT_LOST,
  ],
  "diode-open": [direct("a device blocks both ways among conducting sisters", "device-open"), ALL_ELSE_GOOD],
  "diode-shorted": [direct("a device conducts both ways", "device-shorted"), STATOR_GOOD_OUTPUT_LOST, ALL_ELSE_GOOD],
  "diode-leg-open": [
    direct("both devices of one phase block both ways", "leg-open"),
    ALL_ELSE_GOOD,
    STATOR_GOOD_OUTPUT_LOST,
  ],
  "regulator-leaks": [direct("it conducts from B+ to ground or to its case", "unit-leaks")],
  "stator-turns-shorted": [
    direct("the no-load AC is uneven", "no-load-uneven"),
    direct("the windings differ by more than the meter explains", "winding-low-pair"),
  ],
  "stator-phase-open": [
    direct("the windings show an open one", "winding-open"),
    direct("pairs are dead with the stator unplugged", "no-load-dead-pair"),
  ],
  "stator-ground-leak": [direct("a winding conducts to ground", "winding-to-ground")],
  "rotor-demagnetised": [
    direct("the no-load AC is low on all pairs alike", "no-load-low"),
    direct("the no-load AC is low though the winding is whole", "only-pair-low"),
    direct("the field winding is open", "field-open"),
  ],
  "high-resistance-bplus": [direct("the B+ run drops too much", "bplus-drop-high")],
  "high-resistance-ground": [direct("the ground run drops too much", "ground-drop-high")],
  "high-resistance-phase": [
    direct("one lead reads high at the plug", "winding-high-lead"),
    direct("a phase connector drops too much", "connector-drop-high"),
  ],
  "main-fuse-blown": [direct("full voltage stands across the B+ run", "bplus-drop-high")],
  "joint-fails-hot": [
    direct("the B+ run drops too much", "bplus-drop-high"),
    direct("the ground run drops too much", "ground-drop-high"),
    direct("a phase connector drops too much", "connector-drop-high"),
  ],
};

/** A check of a part itself: what it shows when in order, and its name in a sentence. */
interface SoundCheck {
  readonly words: string;
  /** Any of these will do. */
  readonly shows: readonly Finding[];
}
const sound = (words: string, ...shows: Finding[]): SoundCheck => ({ words, shows });

/** What must have been checked, and found in order, before a part may be called serviceable. */
export const SOUND_CHECKS: Readonly<Record<Part, readonly SoundCheck[]>> = {
  battery: [sound("rested voltage", "rest-sound"), sound("load test", "load-test-passes")],
  "regulator-rectifier": [
    sound("diode check", "devices-conduct-and-block"),
    sound("voltage at test speed", "voltage-in-band"),
    sound("charging current, ripple or AC under load", "charges", "ripple-small", "loaded-even"),
  ],
  stator: [
    sound("winding resistance", "winding-even"),
    sound("no-load AC against its nominal", "no-load-full"),
    sound("winding to ground", "winding-clear-of-ground"),
  ],
  rotor: [sound("no-load AC against its nominal", "no-load-full")],
  wiring: [
    sound("B+ drop", "bplus-drop-normal"),
    sound("ground drop", "ground-drop-normal"),
    sound("resistance at the stator plug", "winding-even"),
    sound("voltage at test speed", "voltage-in-band"),
  ],
  load: [sound("key-off draw", "draw-normal"), sound("key-on load", "key-on-normal")],
};

/** @param exclusion - Whether a proof by exclusion counts too; a direct check goes before it */
export function proofOf(fault: FaultId, findings: Found, exclusion: boolean): DirectProof | undefined {
  for (const proof of DIRECT_PROOF[fault])
    if ((exclusion || proof.kind === "direct check") && hasAll(findings, proof.findings)) return proof;
  return undefined;
}

export function allSound(part: Part, findings: Found): boolean {
  for (const { shows } of SOUND_CHECKS[part]) if (!hasAny(findings, shows)) return false;
  return true;
}

/** Checks of the part itself that are not done or not in order, by name. */
export function openChecks(part: Part, findings: Found): readonly string[] {
  return SOUND_CHECKS[part].filter(({ shows }) => !hasAny(findings, shows)).map(({ words }) => words);
}

function hasAll(findings: Found, asked: readonly Finding[]): boolean {
  for (const finding of asked) if (!findings.has(finding)) return false;
  return true;
}

function hasAny(findings: Found, asked: readonly Finding[]): boolean {
  for (const finding of asked) if (findings.has(finding)) return true;
  return false;
}

/** Findings that condemn a part by themselves. */
const FAILS = [
  ...new Set(
    Object.values(DIRECT_PROOF)
      .flat()
      .filter((proof) => proof.kind === "direct check" && proof.findings.length === 1)
      .map((proof) => proof.findings[0]!),
  ),
];

const BATTERY_SOUND: readonly Finding[] = ["rest-sound", "load-test-passes"];
const CHARGING_SOUND: readonly Finding[] = ["voltage-in-band", "no-load-full"];

/** Whether battery and charging were read and in order: without that no machine is, however likely it was beforehand. */
export function isReadSound(findings: Found): boolean {
  return hasAny(findings, BATTERY_SOUND) && hasAny(findings, CHARGING_SOUND);
}

export function anyFails(findings: Found): boolean {
  return hasAny(findings, FAILS);
}
