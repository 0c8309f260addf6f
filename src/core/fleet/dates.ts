import { isBlank, isCellError, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";

/** Worksheet day 25569 is 1970-01-01. */
const EPOCH = 25569;
const DAY_MS = 86_400_000;
/** 1980-01-01 to 2099-12-31, as worksheet days. */
const RANGE = { min: 29221, max: 73050 };

/** Which of the two numbers of `3/4/2026` is the day. */
export type DateOrder = "day first" | "month first";

const ISO = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T\s].*)?$/u;
/** ISO 8601, basic format. */
const BASIC = /^(\d{4})(\d{2})(\d{2})$/u;
const DOTS = /^(\d{1,2})\.(\d{1,2})\.(\d{4}|\d{2})$/u;
const SLASHES = /^(\d{1,2})([/-])(\d{1,2})\2(\d{4}|\d{2})$/u;
const NAMED = /^(\d{1,2})(?:st|nd|rd|th|er|\.)?[\s/-]*(?:de\s+)?(\p{L}+)\.?[\s,/-]*(?:de\s+)?(\d{4}|\d{2})$/u;
const NAMED_FIRST = /^(\p{L}+)\.?\s*(\d{1,2})(?:st|nd|rd|th)?[\s,]+(\d{4})$/u;
/** Beginnings of the weekdays in English, Spanish, French and German. */
const WEEKDAY = /^(?:mo|tu|we|th|fr|s[aáou]|lu|m[aeié]|ju|j[eé]|v[ei]|d[io])\p{L}*\.?,?\s+/iu;
const TIME_OF_DAY = /[\sT,]+\d{1,2}[:.h]\d{2}.*$/u;

/** How months begin in English, Spanish, French and German; the longer beginnings tell two apart. */
const MONTHS =
  "jan ene,feb fev,mar,apr abr avr,may mai,jun juin,jul juil,aug ago aou,sep set,oct okt,nov,dec dic dez".split(",");

/**
 * Reads a date cell as a worksheet day number. Dates arrive as day numbers or as text; text is read
 * as ISO 8601, with the month's name, or day and month in either order where only one order is possible.
 * A year of two digits lies in 1980 to 2079. The time of day is passed over.
 *
 * @param cell - Day number, `2026-03-04`, `20260304`, `2026-03-04T10:00`, `Wed 4 Mar 2026`, `4.3.2026`, `13/2/2026`, `4 Mar 26`
 * @param order - How its column writes dates, where that is known
 * @returns Worksheet day [d]; `null` for blank; `ambiguous` where day and month can be swapped
 */
export function parseDate(cell: Cell, what: string, order?: DateOrder): Result<number | null> {
  if (isBlank(cell)) return ok(null);
  if (typeof cell === "number" && cell < 1e7) {
    return cell >= RANGE.min && cell <= RANGE.max ? ok(cell) : notADate(what, String(cell));
  }
  if (isCellError(cell) || typeof cell === "boolean")
    return notADate(what, isCellError(cell) ? cell.error : String(cell));
  const text = String(cell).trim();
  const written = text.replace(TIME_OF_DAY, "");
  const iso = ISO.exec(written) ?? BASIC.exec(written);
  if (iso) return fromParts(iso[1]!, Number(iso[2]), iso[3]!, what, text);
  const dots = DOTS.exec(written);
  if (dots) return fromParts(dots[3]!, Number(dots[2]), dots[1]!, what, text);
  const named = NAMED.exec(written);
  if (named) return fromParts(named[3]!, monthNamed(named[2]!), named[1]!, what, text);
  const first = NAMED_FIRST.exec(written);
  if (first) return fromParts(first[3]!, monthNamed(first[1]!), first[2]!, what, text);
  const numbers = inSlashes(written);
  if (!numbers) {
    if (SLASHES.test(written)) return inTwoWays(what, text);
    const rest = WEEKDAY.test(written) ? parseDate(written.replace(WEEKDAY, ""), what, order) : undefined;
    return rest?.ok ? rest : notADate(what, text);
  }
  const [a, b, year] = numbers;
  const known = orderOf(a, b) ?? order;
  if (known === undefined && a !== b && a <= 12) return inTwoWays(what, text);
  return known === "day first" ? fromParts(year, b, String(a), what, text) : fromParts(year, a, String(b), what, text);
}

/**
 * How a column writes its dates: by those that can be read in one way alone.
 *
 * @returns `undefined` where none tells, or where they disagree
 */
export function dateOrderAmong(cells: Iterable<Cell>): DateOrder | undefined {
  let order: DateOrder | undefined;
  for (const cell of cells) {
    const numbers = typeof cell === "string" ? inSlashes(cell.trim().replace(TIME_OF_DAY, "")) : undefined;
    const told = numbers && orderOf(numbers[0], numbers[1]);
    if (told === undefined) continue;
    if (order !== undefined && order !== told) return undefined;
    order = told;
  }
  return order;
}

function inSlashes(written: string): readonly [number, number, string] | undefined {
  const found = SLASHES.exec(written);
  // Of 23-03-15 the year may come first.
  const [, a, mark, b, year] = found ?? [];
  return year === undefined || (mark === "-" && year.length < 4) ? undefined : [Number(a), Number(b), year];
}

function orderOf(a: number, b: number): DateOrder | undefined {
  if (a > 12 === b > 12) return undefined;
  return a > 12 ? "day first" : "month first";
}

/** From 1; 0 for a word that is no month. */
function monthNamed(word: string): number {
  const plain = word.normalize("NFKD").replaceAll(/\p{M}/gu, "").toLowerCase();
  const starts = plain.startsWith("jui") ? plain.slice(0, 4) : plain.slice(0, 3);
  return plain.length < 3 ? 0 : MONTHS.findIndex((beginnings) => beginnings.split(" ").includes(starts)) + 1;
}

/** @param written - Year as it stands, of two or four digits */
function fromParts(written: string, month: number, onDay: string, what: string, text: string): Result<number | null> {
  const year = written.length > 2 ? Number(written) : Number(written) + (Number(written) < 80 ? 2000 : 1900);
  const day = Number(onDay);
  const ms = Date.UTC(year, month - 1, day);
  const back = new Date(ms);
  if (back.getUTCMonth() !== month - 1 || back.getUTCDate() !== day) return notADate(what, text);
  const serial = ms / DAY_MS + EPOCH;
  return serial >= RANGE.min && serial <= RANGE.max ? ok(serial) : notADate(what, text);
}

function inTwoWays(what: string, came: string): Result<never> {
  return fail({
    code: "ambiguous",
    what,
    came,
    question: "write the date as year-month-day, such as 2026-03-04",
  });
}

function notADate(what: string, came: string): Result<never> {
  return fail({ code: "not-understood", what, came, expected: "a date such as 2026-03-04" });
}

/** Day of the year, 0 to 365.24, for comparing like season with like. */
export function dayOfYear(serial: number): number {
  const date = new Date((serial - EPOCH) * DAY_MS);
  return serial - (Date.UTC(date.getUTCFullYear(), 0, 1) / DAY_MS + EPOCH);
}

/** ISO date of a worksheet day. */
export function isoDate(serial: number): string {
  return new Date((serial - EPOCH) * DAY_MS).toISOString().slice(0, 10);
}
