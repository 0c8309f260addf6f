import { CellValueType, type ICellData } from "@univerjs/core";

/** A value as the engine stores it; text stays text, whatever it looks like. */
export function storedValue(value: string | number | boolean): ICellData {
  if (typeof value === "number") return { v: value, t: CellValueType.NUMBER };
  if (typeof value === "boolean") return { v: value ? 1 : 0, t: CellValueType.BOOLEAN };
  return { v: value, t: CellValueType.STRING };
}
