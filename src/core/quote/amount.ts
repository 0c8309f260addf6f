import Big from "big.js";
import { isCellError, type Cell } from "../cell";

/** Digits that a sheet keeps of a number; what lies behind them is the binary fraction's own noise. */
const SHEET_DIGITS = 15;

/** Signs that stand for one currency, or a few; a dollar sign is that of any other. */
const SIGNS: Readonly<Record<string, string>> = {
  "€": "EUR",
  "£": "GBP",
  "¥": "JPY CNY",
  "₹": "INR",
  "₩": "KRW",
  "₺": "TRY",
};
const DOLLARS = "$";

/** Whether an amount is written in another currency: money is not exchanged silently. A sign nobody knows is none. */
export function isForeign(cell: Cell, currency: string): boolean {
  if (typeof cell !== "string") return false;
  const code = /^\s*([A-Z]{3})\b|\b([A-Z]{3})\s*$/u.exec(cell);
  if (code) return (code[1] ?? code[2]) !== currency;
  const sign = /\p{Sc}/u.exec(cell)?.[0];
  if (sign === DOLLARS) return Object.values(SIGNS).some((own) => own.includes(currency));
  const own = sign === undefined ? undefined : SIGNS[sign];
  return own !== undefined && !own.includes(currency);
}

/**
 * Reads an amount as sheets hold it: a number, or text such as `12.50`, `12,50`, `1'234.50`, `$ 12.50`, `35 %`.
 *
 * @returns `undefined` where it is no amount, or one that could be read in two ways: money is not guessed
 */
export function decimalOf(cell: Cell): Big | undefined {
  if (typeof cell === "number") {
    return Number.isFinite(cell) ? new Big(cell.toPrecision(SHEET_DIGITS)) : undefined;
  }
  if (typeof cell !== "string" || isCellError(cell)) return undefined;
  const share = /%\s*$/u.test(cell);
  let digits = cell.replaceAll(/[%\s'’\u00a0\u202f]/gu, "").replaceAll(/^\p{Sc}|\p{Sc}$|^[A-Z]{3}|[A-Z]{3}$/gu, "");
  const [comma, point] = [digits.lastIndexOf(","), digits.lastIndexOf(".")];
  // One mark with three digits behind it could part the thousands.
  if (/^[+-]?[1-9]\d{0,2}[.,]\d{3}$/u.test(digits)) return undefined;
  if (comma > point) digits = digits.replaceAll(".", "").replace(",", ".");
  else digits = digits.replaceAll(",", "");
  if (!/^[+-]?(?:\d+\.?\d*|\.\d+)$/u.test(digits)) return undefined;
  const number = new Big(
    digits
      .replace(/^\+/u, "")
      .replace(/\.$/u, "")
      .replace(/^(-?)\./u, "$10."),
  );
  return share ? number.div(100) : number;
}
