import { overlaps, parseRange, rangeName, sheetPrefix } from "../../../src/workbook/address";
import { client, found, OfficeError, type Spec, type StrictContext } from "./strict-client";
import type { CellState, Content, Looks, Rectangle, SheetState, StrictBook } from "./strict-book";
import { block, format, picked, setLooks, unprotected, type Find } from "./strict-format";
import { rules, validation } from "./strict-rules";

/** A range; where it lies is found anew by every request, as Excel does. */
export function range(
  context: StrictContext,
  book: StrictBook,
  sheetOf: Find<SheetState>,
  atOf: Find<Rectangle>,
  label: string,
): never {
  return client(context, rangeSpec(context, book, sheetOf, atOf, label));
}

export function addressOf(sheet: SheetState, ...areas: Rectangle[]): string {
  return areas.map((at) => sheetPrefix(sheet.name) + rangeName(at)).join(",");
}

export function rangeSpec(
  context: StrictContext,
  book: StrictBook,
  sheetOf: Find<SheetState>,
  atOf: Find<Rectangle>,
  label: string,
): Spec {
  const cells = () => block(book, sheetOf(), atOf());
  const every = <T>(pick: (cell: CellState) => T) => cells().map((row) => row.map(pick));
  const change = (edit: (cell: CellState, r: number, c: number) => void) => {
    unprotected(sheetOf());
    cells().forEach((row, r) => row.forEach((cell, c) => edit(cell, r, c)));
  };
  const sameShape = (values: readonly (readonly unknown[])[]) => {
    const { rows, columns } = atOf();
    if (values.length !== rows || values.some((row) => row.length !== columns)) {
      throw new OfficeError(
        "InvalidArgument",
        "The number of rows or columns in the input array doesn't match the range.",
      );
    }
  };
  const orNull = (what: string, find: () => { sheet: SheetState; at: Rectangle } | undefined, areas = false): never => {
    const spec = found(
      rangeSpec(
        context,
        book,
        () => find()!.sheet,
        () => find()!.at,
        what,
      ),
    );
    return client(context, {
      ...spec,
      ...(areas ? { read: { address: () => addressOf(find()!.sheet, find()!.at) } } : {}),
      isNull: () => !find(),
    });
  };

  return {
    label,
    exists: () => void atOf(),
    read: {
      values: () => every((cell) => cell.value),
      // A cell that a neighbour fills reads as if its value had been typed there.
      formulas: () => every((cell) => (cell.formula === "" ? cell.value : cell.formula)),
      valueTypes: () => every((cell) => cell.type),
      numberFormat: () => every((cell) => cell.numberFormat),
      rowIndex: () => atOf().row,
      columnIndex: () => atOf().column,
      rowCount: () => atOf().rows,
      columnCount: () => atOf().columns,
      address: () => addressOf(sheetOf(), atOf()),
      hasSpill: () => {
        const { row, column } = atOf();
        const anchors = new Set([...sheetOf().cells.values()].map((cell) => cell.parent));
        const all = cells().flatMap((line, r) =>
          line.map((cell, c) => cell.parent !== null || anchors.has(`${row + r},${column + c}`)),
        );
        return all.every((one) => one === all[0]) ? all[0]! : null;
      },
    },
    write: {
      formulas: (values: Content[][]) => {
        sameShape(values);
        const { row, column } = atOf();
        values.forEach((line, r) => line.forEach((value, c) => book.enter(sheetOf(), row + r, column + c, value)));
      },
      numberFormat: (formats: (string | null)[][]) => {
        sameShape(formats);
        const apply = (cell: CellState, r: number, c: number) =>
          void (cell.numberFormat = formats[r]![c] ?? cell.numberFormat);
        // Unlocked cells of a protected sheet take values, not formats; nulls leave them alone.
        if (formats.flat().some((format) => format !== null)) change(apply);
      },
    },
    part: {
      format: () => format(context, book, sheetOf, atOf, label, change),
      dataValidation: () => validation(context, every, change, label),
      conditionalFormats: () => rules(context, book, sheetOf, atOf, label),
      worksheet: () => client(context, { label: `sheet of ${label}`, read: { name: () => sheetOf().name } }),
    },
    call: {
      getCellProperties: (options: { format: Record<string, unknown> }) => {
        const result: { value?: unknown } = {};
        let value: unknown;
        context.enqueue(`looks of ${label}`, () => {
          const looks = structuredClone(every((cell) => ({ format: picked(cell.looks, options.format) })));
          context.arrive(() => (value = looks));
        });
        Object.defineProperty(result, "value", {
          get: () => {
            if (value === undefined)
              throw new OfficeError("ValueNotLoaded", `looks of ${label} are read before the sync`);
            return value;
          },
        });
        return result;
      },
      setCellProperties: (values: { format: Partial<Looks> }[][]) => {
        const copy = structuredClone(values);
        context.enqueue(`set looks of ${label}`, () => {
          sameShape(copy);
          change((cell, r, c) => setLooks(cell.looks, copy[r]![c]!.format as Looks));
        });
      },
      getMergedAreasOrNullObject: () => {
        const touched = () => sheetOf().merges.filter((merge) => overlaps(merge, atOf()));
        return client(context, {
          label: `merged cells of ${label}`,
          isNull: () => touched().length === 0,
          read: { address: () => addressOf(sheetOf(), ...touched()) },
        });
      },
      getSpillParentOrNullObject: () =>
        orNull(`spill parent of ${label}`, () => {
          const { row, column } = atOf();
          const parent = book.cell(sheetOf(), row, column).parent;
          const spills = [...sheetOf().cells.values()].some((cell) => cell.parent === `${row},${column}`);
          const at = parent ?? (spills ? `${row},${column}` : null);
          if (at === null) return undefined;
          const [r, c] = at.split(",").map(Number) as [number, number];
          return { sheet: sheetOf(), at: { row: r, column: c, rows: 1, columns: 1 } };
        }),
      getSpillingToRangeOrNullObject: () =>
        orNull(`spill of ${label}`, () => {
          const { row, column } = atOf();
          const children = [...sheetOf().cells]
            .filter(([, cell]) => cell.parent === `${row},${column}`)
            .map(([key]) => key.split(",").map(Number));
          if (children.length === 0) return undefined;
          const rows = Math.max(...children.map(([r]) => r! - row + 1));
          const columns = Math.max(...children.map(([, c]) => c! - column + 1));
          return { sheet: sheetOf(), at: { row, column, rows, columns } };
        }),
      getTables: (whole: boolean) => {
        if (whole !== false) throw new Error("Only tables that touch the range are asked for.");
        return client(context, {
          label: `tables of ${label}`,
          items: () =>
            sheetOf()
              .tables.filter((table) => overlaps(table.at, atOf()))
              .map((table) =>
                tableSpec(
                  context,
                  book,
                  () => sheetOf(),
                  () => table,
                ),
              ),
        });
      },
      merge: () =>
        context.enqueue(`merge ${label}`, () => {
          const sheet = unprotected(sheetOf());
          const at = atOf();
          if (sheet.tables.some((table) => overlaps(table.at, at)))
            throw new OfficeError("InvalidOperation", "A table cannot be merged.");
          block(book, sheet, at)
            .flat()
            .slice(1)
            .forEach((cell) => Object.assign(cell, { value: "", type: "Empty", formula: "" }));
          sheet.merges.push({ row: at.row, column: at.column, rows: at.rows, columns: at.columns });
        }),
      unmerge: () =>
        context.enqueue(`unmerge ${label}`, () => {
          const sheet = unprotected(sheetOf());
          sheet.merges = sheet.merges.filter((merge) => !overlaps(merge, atOf()));
        }),
      select: () =>
        context.enqueue(`select ${label}`, () => {
          book.selected = atOf();
          book.onSelect();
        }),
    },
  };
}

export function tableSpec(
  context: StrictContext,
  book: StrictBook,
  sheetOf: Find<SheetState>,
  tableOf: Find<SheetState["tables"][number]>,
): Spec {
  return {
    label: "table",
    read: { name: () => tableOf().name, showTotals: () => false, showHeaders: () => true },
    write: {
      name: (name: string) => {
        if (!/^[A-Za-z_\\][\w.\\]*$/u.test(name))
          throw new OfficeError("InvalidArgument", `${name} is no name for a table.`);
        tableOf().name = name;
      },
      style: (style: string) => {
        tableOf().style = style;
      },
    },
    call: {
      getRange: () => range(context, book, sheetOf, () => tableOf().at, "table"),
      resize: (to: { __address: () => string }) =>
        context.enqueue("resize table", () => {
          const sheet = unprotected(sheetOf());
          const at = parseRange(to.__address().replace(/^.*!/u, ""))!;
          const table = tableOf();
          if (at.row !== table.at.row)
            throw new OfficeError("InvalidArgument", "The header row of a table stays where it is.");
          const others = sheet.tables.filter((other) => other !== table);
          if (others.some((other) => overlaps(other.at, at)) || sheet.merges.some((merge) => overlaps(merge, at)))
            throw new OfficeError("InvalidOperation", "A table cannot overlap another table or merged cells.");
          table.at = at;
        }),
      convertToRange: () => {
        context.enqueue("convert table to range", () => {
          const sheet = unprotected(sheetOf());
          sheet.tables.splice(sheet.tables.indexOf(tableOf()), 1);
        });
      },
    },
  };
}
