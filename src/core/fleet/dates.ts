import { isBlank, isCellError, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";

/** Worksheet day 25569 is 1970-01-01. */
const EPOCH = 25569;
const DAY_MS = 86_400_000;
/** 1980-01-01 to 2099-12-31, as worksheet days. */
const RANGE = { min: 29221, max: 73050 };

/**
 * Reads a date cell as a worksheet day number. Dates arrive as day numbers or as text; text is read
 * as ISO 8601, or day and month in either order where only one order is possible.
 *
 * @param cell - Day number, `2026-03-04`, `2026-03-04T10:00`, `4.3.2026`, `13/2/2026`
 * @returns Worksheet day [d]; `null` for blank; `ambiguous` where day and month can be swapped
 */
export function parseDate(cell: Cell, what: string): Result<number | null> {
  if (isBlank(cell)) return ok(null);
  if (typeof cell === "number") {
    return cell >= RANGE.min && cell <= RANGE.max ? ok(cell) : notADate(what, String(cell));
  }
  if (isCellError(cell) || typeof cell !== "string")
    return notADate(what, isCellError(cell) ? cell.error : String(cell));
  const text = cell.trim();
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ].*)?$/u.exec(text);
  if (iso) return fromParts(Number(iso[1]), Number(iso[2]), Number(iso[3]), what, text);
  const dots = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/u.exec(text);
  if (dots) return fromParts(Number(dots[3]), Number(dots[2]), Number(dots[1]), what, text);
  const slashes = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4})$/u.exec(text);
  if (!slashes) return notADate(what, text);
  const [a, b, year] = [Number(slashes[1]), Number(slashes[2]), Number(slashes[3])];
  if (a <= 12 && b <= 12 && a !== b) {
    return fail({
      code: "ambiguous",
      what,
      came: text,
      question: "write the date as year-month-day, such as 2026-03-04",
    });
  }
  return a > 12 ? fromParts(year, b, a, what, text) : fromParts(year, a, b, what, text);
}

function fromParts(year: number, month: number, day: number, what: string, text: string): Result<number | null> {
  const ms = Date.UTC(year, month - 1, day);
  const back = new Date(ms);
  if (back.getUTCMonth() !== month - 1 || back.getUTCDate() !== day) return notADate(what, text);
  const serial = ms / DAY_MS + EPOCH;
  return serial >= RANGE.min && serial <= RANGE.max ? ok(serial) : notADate(what, text);
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
