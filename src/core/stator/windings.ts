import { fail, ok, type Result } from "../result";
import { PAIR_NAMES } from "./balance";

export type Connection = "delta" | "wye";

/** A line reading: ohms between two terminals, or over-range. */
export type LineReading = number | "OL";

/** One winding: its ohms, `open`, or `unknown` where these readings do not tell. */
export type Winding = number | "open" | "unknown";

/** The windings behind three line readings. */
export interface Windings {
  /** Wye: windings A, B, C. Delta: legs A–B, B–C, C–A. */
  readonly windings: readonly [Winding, Winding, Winding];
  readonly note: string;
  /** Where the readings show a break: the terminal, or the delta leg between two terminals. */
  readonly open?: { readonly terminal: Terminal } | { readonly leg: (typeof PAIR_NAMES)[number] };
}

export const TERMINALS = ["A", "B", "C"] as const;
export type Terminal = (typeof TERMINALS)[number];

/** Terminals of the pairs A–B, B–C, C–A. */
const ENDS: readonly (readonly [number, number])[] = [
  [0, 1],
  [1, 2],
  [2, 0],
];
/** The pair across from a terminal. */
const ACROSS = [1, 2, 0] as const;

/**
 * Works out the single windings from three line-to-line readings.
 *
 * @param ab - Line readings [Ω], 0 or more, leads taken off; `OL` for over-range
 * @param connection - How the windings are joined
 * @param tolerance - What the three readings together leave open [Ω], 0 or more: a wye arm smaller
 *   than this is nought, which in a delta is an open leg
 * @returns The windings; `refused` where no windings give such readings
 * @source kuphaldt-dc chapter 10 (delta and wye); computed: signatures of an open winding
 */
export function windingsFrom(
  ab: LineReading,
  bc: LineReading,
  ca: LineReading,
  connection: Connection,
  tolerance = 0,
): Result<Windings> {
  const lines = [ab, bc, ca] as const;
  const over = lines.flatMap((line, i) => (line === "OL" ? [i] : []));
  if (over.length > 0) return withOpen(lines, over, connection);
  const [x, y, z] = lines as readonly [number, number, number];
  // The wye that reads so between its terminals; a delta reads like exactly one such wye.
  const arms = [(x + z - y) / 2, (x + y - z) / 2, (y + z - x) / 2] as const;
  const least = Math.min(...arms);
  const edge = Math.max(tolerance, 1e-9 * Math.max(x, y, z));
  if (least < -edge) {
    const pair = ACROSS[arms.indexOf(least)]!;
    return refused(`${PAIR_NAMES[pair]} reads more than the other two together, which no three windings do`);
  }
  if (Math.max(x, y, z) <= edge) return refused("the readings are no larger than what the meter leaves open");
  const nought = arms.findIndex((arm) => arm <= edge);
  if (connection === "wye") {
    const windings = arms.map((arm) => Math.max(0, arm)) as unknown as [number, number, number];
    const shorted =
      nought < 0 ? "" : `Winding ${TERMINALS[nought]} has no resistance left: shorted, or the meter is too coarse.`;
    return ok({ windings, note: shorted });
  }
  return ok(deltaFrom(arms, nought));
}

function deltaFrom(arms: readonly [number, number, number], nought: number): Windings {
  if (nought >= 0) {
    // An open leg leaves the other two in series between its ends: 2 : 1 : 1.
    const leg = ACROSS[nought]!;
    const windings = ENDS.map((_, pair): Winding => {
      if (pair === leg) return "open";
      const end = ENDS[pair]!.find((terminal) => terminal !== nought)!;
      return arms[end]!;
    }) as unknown as [Winding, Winding, Winding];
    return {
      windings,
      note: `Leg ${PAIR_NAMES[leg]} is open: ${PAIR_NAMES[leg]} reads the other two in series.`,
      open: { leg: PAIR_NAMES[leg] },
    };
  }
  const [a, b, c] = arms;
  const products = a * b + b * c + c * a;
  return { windings: [products / c, products / a, products / b], note: "" };
}

function withOpen(
  lines: readonly [LineReading, LineReading, LineReading],
  over: readonly number[],
  connection: Connection,
): Result<Windings> {
  if (over.length === 1)
    return refused(
      `${PAIR_NAMES[over[0]!]} reads OL while both its terminals conduct to the third, which no three windings do`,
    );
  if (over.length === 3)
    return ok({
      windings: ["unknown", "unknown", "unknown"],
      note: "No path between any two terminals: two breaks at least, or leads without contact.",
    });
  const pair = lines.findIndex((line) => line !== "OL");
  const lost = TERMINALS.findIndex((_, terminal) => !ENDS[pair]!.includes(terminal))!;
  const terminal = TERMINALS[lost]!;
  const between = lines[pair] as number;
  if (connection === "delta") {
    return ok({
      windings: ["unknown", "unknown", "unknown"],
      note: `Lead ${terminal} is open. Three like legs of ${rounded(between * 1.5)} Ω would read ${rounded(between)} Ω at ${PAIR_NAMES[pair]}.`,
      open: { terminal },
    });
  }
  const windings = TERMINALS.map((_, i): Winding => (i === lost ? "open" : between / 2)) as unknown as [
    Winding,
    Winding,
    Winding,
  ];
  return ok({
    windings,
    note: `Winding or lead ${terminal} is open; the other two are known together only and shown as halves.`,
    open: { terminal },
  });
}

function rounded(value: number): number {
  return Number(value.toPrecision(3));
}

function refused(why: string): Result<never> {
  return fail({ code: "refused", what: "line readings", why, instead: "clean the terminals and read all three again" });
}

/**
 * Line-to-line readings that three windings give.
 *
 * @param windings - Wye: A, B, C. Delta: A–B, B–C, C–A [Ω], above 0; Infinity for an open one
 * @returns Readings A–B, B–C, C–A [Ω]
 * @source kuphaldt-dc chapter 10: series and parallel paths between two terminals
 */
export function lineReadings(
  [r1, r2, r3]: readonly [number, number, number],
  connection: Connection,
): readonly [number, number, number] {
  if (connection === "wye") return [r1 + r2, r2 + r3, r3 + r1];
  return [parallel(r1, r2 + r3), parallel(r2, r3 + r1), parallel(r3, r1 + r2)];
}

function parallel(a: number, b: number): number {
  return 1 / (1 / a + 1 / b);
}
