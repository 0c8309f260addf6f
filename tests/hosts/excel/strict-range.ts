import { overlaps, rangeName, sheetPrefix } from "../../../src/workbook/address";
import { client, found, OfficeError, type Spec, type StrictContext } from "./strict-client";
import {
  PLAIN,
  type CellState,
  type Content,
  type Looks,
  type Rectangle,
  type SheetState,
  type StrictBook,
} from "./strict-book";

type Find<T> = () => T;

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

/** Refuses what a protected sheet refuses. */
export function unprotected(sheet: SheetState): SheetState {
  if (sheet.protected) throw new OfficeError("AccessDenied", "The sheet is protected.");
  return sheet;
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

function block(book: StrictBook, sheet: SheetState, at: Rectangle): CellState[][] {
  return Array.from({ length: at.rows }, (_, r) =>
    Array.from({ length: at.columns }, (__, c) => book.cell(sheet, at.row + r, at.column + c)),
  );
}

/** Only what was asked for comes back. */
function picked(looks: Looks, wanted: Record<string, unknown>): object {
  return Object.fromEntries(
    Object.entries(wanted).map(([key, want]) => {
      const value = (looks as unknown as Record<string, unknown>)[key];
      if (value === undefined) throw new OfficeError("InvalidArgument", `Cells have no ${key}.`);
      if (key === "borders") {
        return [
          key,
          Object.fromEntries(
            Object.entries(value as object).map(([side, border]) => [
              side,
              picked(border as Looks, want as Record<string, unknown>),
            ]),
          ),
        ];
      }
      return [key, typeof value === "object" ? picked(value as Looks, want as Record<string, unknown>) : value];
    }),
  );
}

function setLooks(looks: Looks, given: Partial<Looks>): void {
  for (const [key, value] of Object.entries(given)) {
    if (key === "fill") setFill(looks, value as Partial<Looks["fill"]>);
    else if (key === "borders") {
      for (const [side, border] of Object.entries(value as Looks["borders"])) setBorder(looks, side as "top", border);
    } else if (typeof value === "object") Object.assign(looks[key as "font"], value);
    else Object.assign(looks, { [key]: value });
  }
}

/** A colour makes a fill solid, white included; a pattern of none alone takes the colour away. */
function setFill(looks: Looks, fill: Partial<Looks["fill"]>): void {
  if (fill.color === undefined && fill.pattern === "None") looks.fill = PLAIN().fill;
  else looks.fill = { ...looks.fill, ...fill, pattern: fill.pattern === "None" ? "Solid" : (fill.pattern ?? "Solid") };
}

function setBorder(
  looks: Looks,
  side: "top" | "bottom" | "left" | "right",
  border: Partial<Looks["borders"]["top"]>,
): void {
  looks.borders[side] = border.style === "None" ? PLAIN().borders[side] : { ...looks.borders[side], ...border };
}

type Change = (edit: (cell: CellState, r: number, c: number) => void) => void;

function format(
  context: StrictContext,
  book: StrictBook,
  sheetOf: Find<SheetState>,
  atOf: Find<Rectangle>,
  label: string,
  change: Change,
): object {
  const looks = (edit: (looks: Looks) => void) => change((cell) => edit(cell.looks));
  const setter = (name: string, edit: (looks: Looks, value: never) => void) => (value: never) =>
    looks((one) => edit(one, value)) ?? name;
  return client(context, {
    label: `format of ${label}`,
    read: {
      columnWidth: () => sheetOf().widths.get(atOf().column) ?? 48,
      rowHeight: () => sheetOf().heights.get(atOf().row) ?? 15,
    },
    write: {
      horizontalAlignment: setter("align", (one, value) => (one.horizontalAlignment = value)),
      verticalAlignment: setter("vertical", (one, value) => (one.verticalAlignment = value)),
      wrapText: setter("wrap", (one, value) => (one.wrapText = value)),
      columnWidth: (width: number) => void unprotected(sheetOf()).widths.set(atOf().column, width),
      rowHeight: (height: number) => void unprotected(sheetOf()).heights.set(atOf().row, height),
    },
    part: {
      font: () =>
        client(context, {
          label: `font of ${label}`,
          write: Object.fromEntries(
            ["bold", "italic", "size", "color"].map((name) => [
              name,
              setter(name, (one, value) => Object.assign(one.font, { [name]: value })),
            ]),
          ),
        }),
      fill: () =>
        client(context, {
          label: `fill of ${label}`,
          write: { color: setter("fill", (one, value) => setFill(one, { color: value })) },
        }),
      protection: () =>
        client(context, {
          label: `protection of ${label}`,
          read: {
            locked: () => {
              const all = block(book, sheetOf(), atOf())
                .flat()
                .map((cell) => cell.locked);
              return all.every((one) => one === all[0]) ? all[0]! : null;
            },
          },
        }),
      borders: () => ({ getItem: (side: string) => border(context, atOf, label, change, side) }),
    },
  });
}

function border(context: StrictContext, atOf: Find<Rectangle>, label: string, change: Change, side: string): object {
  const touched = (r: number, c: number): ("top" | "bottom" | "left" | "right")[] => {
    const { rows, columns } = atOf();
    switch (side) {
      case "EdgeTop":
        return r === 0 ? ["top"] : [];
      case "EdgeBottom":
        return r === rows - 1 ? ["bottom"] : [];
      case "EdgeLeft":
        return c === 0 ? ["left"] : [];
      case "EdgeRight":
        return c === columns - 1 ? ["right"] : [];
      case "InsideHorizontal":
        if (rows === 1) throw new OfficeError("InvalidArgument", "One row has no inside lines.");
        return [...(r > 0 ? (["top"] as const) : []), ...(r < rows - 1 ? (["bottom"] as const) : [])];
      case "InsideVertical":
        if (columns === 1) throw new OfficeError("InvalidArgument", "One column has no inside lines.");
        return [...(c > 0 ? (["left"] as const) : []), ...(c < columns - 1 ? (["right"] as const) : [])];
      default:
        throw new OfficeError("InvalidArgument", `There is no side ${side}.`);
    }
  };
  const set = (name: string) => (value: never) =>
    change((cell, r, c) => touched(r, c).forEach((at) => setBorder(cell.looks, at, { [name]: value })));
  return client(context, { label: `${side} of ${label}`, write: { style: set("style"), color: set("color") } });
}

function validation(
  context: StrictContext,
  every: <T>(pick: (cell: CellState) => T) => T[][],
  change: Change,
  label: string,
): object {
  const one = () => {
    const all = every((cell) => JSON.stringify(cell.validation)).flat();
    return all.every((text) => text === all[0]) ? (JSON.parse(all[0]!) as Record<string, unknown> | null) : "mixed";
  };
  const part = (name: string, otherwise: unknown) => () => {
    const rule = one();
    return rule === null || rule === "mixed" ? otherwise : ((rule as Record<string, unknown>)[name] ?? otherwise);
  };
  const set = (name: string) => (value: never) =>
    change((cell) => {
      if (name !== "rule" && !cell.validation)
        throw new OfficeError("InvalidOperation", "There is no rule for it to hang on.");
      if (name === "prompt" && (value as { title: string }).title.length > 32)
        throw new OfficeError("InvalidArgument", "The title is too long.");
      cell.validation = { ...(cell.validation as object | null), [name]: value };
    });
  return client(context, {
    label: `validation of ${label}`,
    read: {
      type: () => {
        const rule = one();
        return rule === null
          ? "None"
          : rule === "mixed"
            ? "Inconsistent"
            : "rule" in rule && "list" in (rule.rule as object)
              ? "List"
              : "Custom";
      },
      rule: part("rule", {}),
      errorAlert: part("errorAlert", { message: "", showAlert: true, style: "Stop", title: "" }),
      prompt: part("prompt", { message: "", showPrompt: true, title: "" }),
      ignoreBlanks: part("ignoreBlanks", true),
    },
    write: {
      rule: set("rule"),
      errorAlert: set("errorAlert"),
      prompt: set("prompt"),
      ignoreBlanks: set("ignoreBlanks"),
    },
    call: {
      clear: () => context.enqueue(`clear validation of ${label}`, () => change((cell) => (cell.validation = null))),
    },
  });
}

function rules(
  context: StrictContext,
  book: StrictBook,
  sheetOf: Find<SheetState>,
  atOf: Find<Rectangle>,
  label: string,
): object {
  return client(context, {
    label: `colour rules of ${label}`,
    items: () =>
      sheetOf()
        .rules.filter((rule) => overlaps(rule.at, atOf()))
        .map((rule) => ({
          label: `colour rule ${rule.id}`,
          read: { id: () => rule.id },
          call: {
            delete: () =>
              context.enqueue(`delete colour rule ${rule.id}`, () => {
                const sheet = unprotected(sheetOf());
                if (!sheet.rules.includes(rule)) throw new OfficeError("ItemNotFound", "The rule is gone.");
                sheet.rules.splice(sheet.rules.indexOf(rule), 1);
              }),
          },
        })),
    call: {
      add: (type: string) => {
        if (type !== "Custom") throw new Error("Only rules by formula are known here.");
        const made: { rule?: SheetState["rules"][number] } = {};
        context.enqueue(`add colour rule to ${label}`, () => {
          made.rule = { id: book.id(), at: atOf(), formula: "", fill: "", colour: "" };
          unprotected(sheetOf()).rules.push(made.rule);
        });
        const set = (name: "formula" | "fill" | "colour") => (value: string) => void (made.rule![name] = value);
        return {
          custom: {
            rule: client(context, { label: "rule", write: { formula: set("formula") } }),
            format: {
              fill: client(context, { label: "rule fill", write: { color: set("fill") } }),
              font: client(context, { label: "rule font", write: { color: set("colour") } }),
            },
          },
        };
      },
    },
  });
}

export function tableSpec(
  context: StrictContext,
  sheetOf: Find<SheetState>,
  tableOf: Find<SheetState["tables"][number]>,
): Spec {
  return {
    label: "table",
    read: { name: () => tableOf().name },
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
      convertToRange: () => {
        context.enqueue("convert table to range", () => {
          const sheet = unprotected(sheetOf());
          sheet.tables.splice(sheet.tables.indexOf(tableOf()), 1);
        });
      },
    },
  };
}
