/**
 * Where the two leads, or the clamp, of each reading go: what the drawings draw and what the text
 * beside a reading field says. Signs follow from the current: with the leads as given here a healthy
 * circuit reads positive.
 */

/** A place a lead can touch. */
export type Place =
  | "battery +"
  | "battery -"
  | "negative cable"
  | "phase a"
  | "phase b"
  | "phase c"
  | "B+"
  | "unit ground"
  | "engine metal"
  | "case"
  | "stator side"
  | "regulator side"
  | "field 1"
  | "field 2"
  | "other lead";

export type MeterMode = "dc volts" | "ac volts" | "ohms" | "megohms" | "diode" | "milliamps" | "clamp amps";

export type Phase = "a" | "b" | "c";

/** One of the devices of the bridge. */
export interface Device {
  readonly bank: "upper" | "lower";
  readonly phase: Phase;
}

/** What the clamp goes round, and where its arrow points so that the reading has the sign that is asked for. */
export interface ClampPlace {
  readonly round: "positive post leads" | "B+ lead";
  readonly arrow: "to battery" | "from battery";
}

export interface Placement {
  readonly meter: MeterMode;
  readonly red?: Place;
  readonly black?: Place;
  /** Which lead goes where makes no difference (AC, resistance of a winding). */
  readonly eitherWay?: true;
  readonly clamp?: ClampPlace;
  /** Diode check: the device between the leads and whether it is tried in its forward direction. */
  readonly device?: Device;
  readonly forward?: boolean;
}

const PHASES: readonly Phase[] = ["a", "b", "c"];
const posts = (meter: MeterMode): Placement => ({ meter, red: "battery +", black: "battery -" });

const PAIR_ENDS: Readonly<Record<string, readonly [Place, Place]>> = {
  ab: ["phase a", "phase b"],
  bc: ["phase b", "phase c"],
  ca: ["phase c", "phase a"],
};

function pairs(prefix: string, meter: MeterMode): [string, Placement][] {
  return Object.entries(PAIR_ENDS).map(([pair, [red, black]]) => [
    `${prefix}${pair}`,
    { meter, red, black, eitherWay: true },
  ]);
}

/**
 * Upper device: anode on the phase, cathode on B+. Lower device: anode on ground, cathode on the
 * phase. Forward puts the positive lead on the anode.
 */
export function diodePlacement(device: Device, forward: boolean): Placement {
  const phase: Place = `phase ${device.phase}`;
  const anode: Place = device.bank === "upper" ? phase : "unit ground";
  const cathode: Place = device.bank === "upper" ? "B+" : phase;
  return { meter: "diode", red: forward ? anode : cathode, black: forward ? cathode : anode, device, forward };
}

const DIODE_CHECK: [string, Placement][] = (["upper", "lower"] as const).flatMap((bank) =>
  [true, false].flatMap((forward) =>
    PHASES.map((phase): [string, Placement] => [
      `${bank}-${forward ? "forward" : "reverse"}-${phase}`,
      diodePlacement({ bank, phase }, forward),
    ]),
  ),
);

/** By reading id of the catalogue. Readings that no electrical meter takes (speed, time, hydrometer) have none. */
export const PLACEMENTS: ReadonlyMap<string, Placement> = new Map<string, Placement>([
  ["rested-voltage", posts("dc volts")],
  ["load-test-rested", posts("dc volts")],
  ["load-test-voltage", posts("dc volts")],
  ["load-test-current", posts("dc volts")],
  ["cranking-voltage", posts("dc volts")],
  ["key-off-draw", { meter: "milliamps", red: "negative cable", black: "battery -" }],
  ["idle-voltage", posts("dc volts")],
  ["test-voltage", posts("dc volts")],
  ["battery-ripple", { ...posts("ac volts"), eitherWay: true }],
  ["battery-current", { meter: "clamp amps", clamp: { round: "positive post leads", arrow: "to battery" } }],
  ["key-on-load", { meter: "clamp amps", clamp: { round: "positive post leads", arrow: "from battery" } }],
  ...pairs("no-load-", "ac volts"),
  ...pairs("no-load-2-", "ac volts"),
  ...pairs("loaded-", "ac volts"),
  ...pairs("winding-", "ohms"),
  ["meter-leads", { meter: "ohms", red: "other lead", black: "other lead", eitherWay: true }],
  ...PHASES.map((phase): [string, Placement] => [
    `ground-${phase}`,
    { meter: "ohms", red: `phase ${phase}`, black: "engine metal" },
  ]),
  ["insulation", { meter: "megohms", red: "phase a", black: "engine metal" }],
  ["field-ohms", { meter: "ohms", red: "field 1", black: "field 2", eitherWay: true }],
  ...DIODE_CHECK,
  ["output-to-ground", { meter: "diode", red: "B+", black: "unit ground", forward: false }],
  ["output-to-ground-swapped", { meter: "diode", red: "unit ground", black: "B+", forward: true }],
  ["case-leakage", { meter: "ohms", red: "phase a", black: "case" }],
  ["bplus-drop", { meter: "dc volts", red: "B+", black: "battery +" }],
  ["ground-drop", { meter: "dc volts", red: "battery -", black: "unit ground" }],
  ["drop-current", { meter: "clamp amps", clamp: { round: "B+ lead", arrow: "to battery" } }],
  ...PHASES.map((phase): [string, Placement] => [
    `phase-drop-${phase}`,
    { meter: "ac volts", red: "stator side", black: "regulator side", eitherWay: true },
  ]),
]);

/** The reading that stands for a check when none of its own fields can be drawn. */
const OF_CHECK: Readonly<Record<string, string>> = {
  "battery-at-rest": "rested-voltage",
  "cell-gravities": "gravity-1",
  "load-test": "load-test-voltage",
  "running-idle": "idle-voltage",
  "running-test": "test-voltage",
  "no-load-ac": "no-load-ab",
  "winding-ohms": "winding-ab",
  insulation: "insulation",
};

/** The reading whose drawing is shown for `readingId` of `checkId`; `undefined` where there is none. */
export function drawnReading(checkId: string, readingId: string | undefined): string | undefined {
  if (readingId !== undefined && (PLACEMENTS.has(readingId) || readingId.startsWith("gravity-"))) return readingId;
  return OF_CHECK[checkId];
}
