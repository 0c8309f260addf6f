import type { Cell, CellError } from "../../core/cell";
import type { CellWrite } from "../../workbook/port";

/** A value that Excel read, as a plain cell; blank is `""`. */
export function readCell(value: unknown, type: unknown): Cell {
  if (type === "Error") return { error: String(value) as CellError["error"] };
  if (typeof value === "string" || typeof value === "number" || typeof value === "boolean") return value;
  return "";
}

/** A formula that Excel read, or `""`; text that merely begins with `=` reads the same as its value. */
export function readFormula(formula: unknown, value: unknown): string {
  return typeof formula === "string" && formula.startsWith("=") && formula !== value ? formula : "";
}

/** What is handed to Excel for one cell; `null` leaves it alone. */
export function cellInput(write: CellWrite): string | number | boolean | null {
  if (write === undefined) return null;
  if (typeof write === "object") return write.formula;
  return typeof write === "string" ? asText(write) : write;
}

/** What brings a cell back that was read with its value, formula and type. */
export function cellAgain(value: unknown, formula: unknown, type: unknown): string | number | boolean {
  const written = readFormula(formula, value);
  if (written !== "") return written;
  if (type === "String") return asText(String(value));
  return typeof value === "number" || typeof value === "boolean" ? value : String(value ?? "");
}

/**
 * Text that Excel would turn into something else when it is entered: a formula, a number, a date
 * (`May 5`, `1-2`), a share, money, a truth value, an error. An apostrophe keeps it text.
 */
const TURNS = /^\s*(?:[=+\-@'#.,(%$€£¥]|\d|\p{L}+\.?[\s,/-]*\d|(?:true|false)\s*$)/iu;

function asText(text: string): string {
  return TURNS.test(text) ? `'${text}` : text;
}
