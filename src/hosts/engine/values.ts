import { CellValueType, type ICellData, type Nullable } from "@univerjs/core";
import {
  ArrayValueObject,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  NumberValueObject,
  StringValueObject,
  type BaseReferenceObject,
  type BaseValueObject,
  type FunctionVariantType,
} from "@univerjs/engine-formula";
import type { Block, Cell, CellError } from "../../core/cell";

/**
 * Between the engine's value objects and plain cells. The sentence of an error travels as the value
 * object's custom data: it survives operators and nested calls, spills with its cell, and comes to
 * rest in the cell itself, where `cellOf` finds it.
 */
const MESSAGE = "message";

const ERRORS: ReadonlySet<string> = new Set(Object.values(ErrorType));

/** What a function was handed for one argument, as a block of cells; blanks stay blank. */
export function blockFrom(variant: FunctionVariantType): Block {
  if (variant.isReferenceObject()) return blockFrom((variant as BaseReferenceObject).toArrayValueObject());
  if (!variant.isArray()) return [[cellFrom(variant as BaseValueObject)]];
  const array = variant as ArrayValueObject;
  return Array.from({ length: array.getRowCount() }, (_, row) =>
    Array.from({ length: array.getColumnCount() }, (_, column) => cellFrom(array.get(row, column))),
  );
}

function cellFrom(value: Nullable<BaseValueObject>): Cell {
  if (!value || value.isNull()) return null;
  if (value.isError()) return errorCell(String(value.getValue()), value.getCustomData());
  if (value.isArray()) return cellFrom((value as ArrayValueObject).getFirstCell());
  const plain = value.getValue();
  return typeof plain === "string" || typeof plain === "number" || typeof plain === "boolean"
    ? plain
    : { error: "#VALUE!" };
}

/** What a function gives back: one value, or a block that spills. */
export function variantOf(block: readonly (readonly Cell[])[]): BaseValueObject {
  const rowCount = block.length;
  const columnCount = block[0]?.length ?? 0;
  if (rowCount === 1 && columnCount === 1) return valueOf(block[0]![0]);
  return ArrayValueObject.create({
    calculateValueList: block.map((row) => row.map(valueOf)),
    rowCount,
    columnCount,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  });
}

function valueOf(cell: Cell): BaseValueObject {
  if (cell === null || cell === undefined) return StringValueObject.create("");
  if (typeof cell === "string") return StringValueObject.create(cell);
  if (typeof cell === "number") return NumberValueObject.create(cell);
  if (typeof cell === "boolean") return BooleanValueObject.create(cell);
  const value = ErrorValueObject.create(cell.error as ErrorType, cell.message ?? "");
  return cell.message === undefined ? value : value.withCustomData({ [MESSAGE]: cell.message });
}

/** A stored cell as a plain one; text that looks like an error is one only where a formula put it. */
export function cellOf(stored: ICellData | null | undefined, calculated: boolean): Cell {
  const value = stored?.v ?? richText(stored);
  if (value === null || value === undefined) return "";
  if (typeof value === "string" && calculated && ERRORS.has(value)) return errorCell(value, stored!.custom);
  // TRUE and FALSE are stored as 1 and 0, and a number may be stored as its text.
  if (stored!.t === CellValueType.BOOLEAN && typeof value === "number") return value === 1;
  if (stored!.t === CellValueType.NUMBER && typeof value === "string" && value.trim() !== "") return Number(value);
  return value;
}

/** Text of several lines or looks is stored as a small document that ends with a break of its own. */
function richText(stored: ICellData | null | undefined): string | undefined {
  return stored?.p?.body?.dataStream.replace(/\r\n$/u, "").replaceAll("\r", "\n");
}

function errorCell(text: string, custom: Nullable<Record<string, unknown>>): CellError {
  const error = (ERRORS.has(text) ? text : "#VALUE!") as CellError["error"];
  const message = custom ? custom[MESSAGE] : undefined;
  return typeof message === "string" ? { error, message } : { error };
}
