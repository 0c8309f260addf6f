import type { Entry } from "./types";

/** From this speed on a label speaks of the test speed, and up to that one of idle [rpm]. */
const TEST_FROM = 3000;
const IDLE_TO = 1800;

/** A number with what makes it a speed, before it or behind it. */
const SPEED =
  /(^|@\s*|[\s([](?:at|bei|[aà]\p{M}?)\s+|[^\d.,])(\d{1,2}[ ,.'’]?\d{3}|\d{3})(?!\d|[.,]\d)(\s*(?:rpm|(?:rev|tr|[rtu1])\/min|min-1|upm)(?!\p{L}))?/giu;

/** Says each speed of a label in other words; a number that is no speed stays. */
export function sayingSpeeds(label: string, say: (rpm: number) => string | undefined): string {
  return label.replaceAll(SPEED, (whole: string, before: string, digits: string, unit: string | undefined) => {
    // Thousands at the very end are a speed where a word leads to them: "voltage at 5000".
    const led = before.length > 2 && digits.length > 3 && label.endsWith(digits);
    const said = unit || led || before.startsWith("@") ? say(Number(digits.replaceAll(/\D/gu, ""))) : undefined;
    return said === undefined ? whole : `${/[@\s]$/u.test(before) ? " " : before} ${said}`;
  });
}

/** The state of the engine that a speed in a label means. */
export function stateAt(rpm: number): string | undefined {
  return rpm >= TEST_FROM ? "test speed" : rpm <= IDLE_TO ? "idle" : undefined;
}

/** The one speed that a label names, and the label without it. */
export function speedIn(label: string): { readonly rpm: number; readonly rest: string } | undefined {
  const speeds: number[] = [];
  const rest = sayingSpeeds(label, (rpm) => {
    speeds.push(rpm);
    return "";
  });
  return speeds.length === 1 ? { rpm: speeds[0]!, rest } : undefined;
}

/** By check: the reading that is the speed at which the others of it are taken, and the speeds that it can be. */
const SPEEDS: Readonly<Record<string, readonly [id: string, above: number, below: number]>> = {
  "running-idle": ["idle-rpm", 0, TEST_FROM],
  "running-test": ["test-rpm", IDLE_TO, Infinity],
  "loaded-ac": ["test-rpm", IDLE_TO, Infinity],
  "no-load-ac": ["no-load-rpm", 0, Infinity],
};

/** Id of the reading that a speed written with another one's label is; `undefined` where it cannot be that one's. */
export function speedOf(entry: Entry, rpm: number): string | undefined {
  const [speed, above, below] = SPEEDS[entry.check ?? ""] ?? ["", 0, 0];
  if (!(rpm > above && rpm < below) || (entry.kind === "quantity" && entry.unit === "rpm")) return undefined;
  return entry.id.startsWith(SECOND) ? `${speed}-2` : speed;
}

const SECOND = "no-load-2-";

/** Id of the same reading at a second speed, where the catalogue knows one. */
export function atSecondSpeed(id: string): string {
  return id.replace(/^no-load-(?=[abc]{2}$)/u, SECOND);
}
