import { PAIR_NAMES } from "./balance";
import { TERMINALS, windingsFrom, type Connection, type LineReading } from "./windings";

/** How far two readings may lie apart and still count as alike, and from where one stands out [1]. */
const STANDS_OUT = 0.03;

/**
 * What three unequal line readings point to, in plain words: an open winding, shorted turns, or
 * resistance at one terminal. Empty while they are alike or tell nothing.
 *
 * @param lines - Line readings [Ω], leads taken off
 * @param connection - Delta or wye; `undefined` where nobody knows: both meanings are named
 * @param u - Standard uncertainty of one reading [Ω]
 * @param uLeads - Standard uncertainty of the leads that were taken off all three [Ω]
 */
export function patternOf(
  lines: readonly [LineReading, LineReading, LineReading],
  connection: Connection | undefined,
  u: number,
  uLeads = 0,
): string {
  // An arm is half of a sum of three readings and contains half the leads; twice that uncertainty.
  const tolerance = Math.hypot(Math.sqrt(3) * u, uLeads);
  const resolved = windingsFrom(...lines, connection ?? "delta", tolerance);
  if (!resolved.ok) return contradictionIn(lines, tolerance);
  const { open, note } = resolved.value;
  if (open && "terminal" in open)
    return `Terminal ${open.terminal} has no path to the others: winding or lead ${open.terminal} is open`;
  if (lines.includes("OL")) return note.replace(/\.$/u, "");
  const numbers = lines as readonly [number, number, number];
  if (open && standsClear(numbers, tolerance)) return openLegWords(open.leg, connection);
  return unequalWords(numbers, connection, u);
}

/** One reading larger than the other two together, or OL beside two that conduct. */
function contradictionIn(lines: readonly [LineReading, LineReading, LineReading], tolerance: number): string {
  const size = lines.map((line) => (line === "OL" ? Infinity : line));
  const at = size.findIndex((ohms, i) => ohms > size[(i + 1) % 3]! + size[(i + 2) % 3]! + tolerance);
  return at < 0
    ? ""
    : `${PAIR_NAMES[at]} reads more than the other two together, which no three windings do: read it again`;
}

/** An open leg is only named where the readings themselves are well above what the meter leaves open. */
function standsClear(lines: readonly [number, number, number], tolerance: number): boolean {
  return Math.min(...lines) > 4 * tolerance;
}

function openLegWords(leg: (typeof PAIR_NAMES)[number], connection: Connection | undefined): string {
  const across = TERMINALS.find((terminal) => !leg.includes(terminal))!;
  if (connection === "delta") return `${leg} reads twice the other two: its winding is open`;
  if (connection === "wye") return `${leg} reads twice the other two: winding ${across} is shorted`;
  return `${leg} reads twice the other two: an open winding in a delta, winding ${across} shorted in a wye`;
}

function unequalWords(lines: readonly [number, number, number], connection: Connection | undefined, u: number): string {
  const order = [0, 1, 2].sort((i, j) => lines[i]! - lines[j]!);
  const [low, middle, high] = order as [number, number, number];
  const apart = (i: number, j: number) => lines[j]! - lines[i]! > Math.max(STANDS_OUT * lines[j]!, 2 * Math.SQRT2 * u);
  const oneLow = apart(low, middle) && !apart(middle, high);
  const oneHigh = apart(middle, high) && !apart(low, middle);
  if (oneLow === oneHigh) return "";
  const single = oneLow ? low : high;
  const pair = PAIR_NAMES[single]!;
  const shared = TERMINALS.find((terminal) => !pair.includes(terminal))!;
  if (oneLow) {
    const delta = `turns of winding ${pair} shorted`;
    const resistance = `resistance at terminal ${shared}`;
    if (connection === "delta") return `${pair} reads low: ${delta}, or ${resistance}`;
    return `${pair} reads low: ${resistance}${connection === "wye" ? ` or in winding ${shared}` : `; in a delta ${delta}`}`;
  }
  const wye = `turns of winding ${shared} shorted`;
  if (connection === "wye") return `${pair} reads high: ${wye}`;
  return connection === "delta"
    ? `${pair} reads high: a poor joint in its winding`
    : `${pair} reads high: ${wye} in a wye, a poor joint in its winding in a delta`;
}
