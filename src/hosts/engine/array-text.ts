import { ArrayValueObject, ValueObjectFactory, type BaseValueObject } from "@univerjs/engine-formula";

/** What is used of an array that is made from the text of its formula. */
interface ArrayText {
  _rowCount: number;
  _columnCount: number;
  _formatValue(raw: unknown): BaseValueObject[][];
}

let ours: ArrayText["_formatValue"] | undefined;

/**
 * The engine cuts `{"Key-off draw, allowed",3}` at every comma, also within the quotes: three cells of
 * which none is what was written. With this it cuts between the cells only.
 */
export function cutArraysBetweenCells(): void {
  const arrays = ArrayValueObject.prototype as unknown as Partial<ArrayText>;
  const theirs = arrays._formatValue;
  if (!theirs || theirs === ours) return;
  ours = arrays._formatValue = function (this: ArrayText, raw) {
    if (typeof raw !== "string" || !raw.includes('"')) return theirs.call(this, raw);
    const rows = cutOutsideQuotes(raw.slice(1, -1), ";").map((row) =>
      cutOutsideQuotes(row, ",").map((cell) => ValueObjectFactory.create(cell.trim())),
    );
    this._rowCount = rows.length;
    this._columnCount = Math.max(...rows.map((row) => row.length));
    return rows;
  };
}

function cutOutsideQuotes(text: string, separator: string): string[] {
  const parts = [""];
  let quoted = false;
  for (const sign of text) {
    if (sign === '"') quoted = !quoted;
    if (sign === separator && !quoted) parts.push("");
    else parts[parts.length - 1] += sign;
  }
  return parts;
}
