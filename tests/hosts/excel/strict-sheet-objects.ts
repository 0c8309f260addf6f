import { overlaps, parseRange } from "../../../src/workbook/address";
import { client, found, OfficeError, type StrictContext } from "./strict-client";
import { USUAL_MARGINS, type Rectangle, type SheetState, type StrictBook } from "./strict-book";
import { unprotected } from "./strict-format";
import { addressOf, rangeSpec, tableSpec } from "./strict-range";

/** Ranges are handed to other calls; their address travels with them. */
export function nameable(object: object, address: () => string): object {
  return new Proxy(object, {
    get: (target, name) => (name === "__address" ? address : Reflect.get(target, name)),
    set: (target, name, value) => Reflect.set(target, name, value),
  });
}

export function addressOfFixed(sheet: SheetState, at: Rectangle): string {
  return addressOf(sheet, at).replaceAll(/([A-Z]+)(\d+)(?=:|$)/gu, "$$$1$$$2");
}

export function addTable(context: StrictContext, book: StrictBook, address: string, hasHeaders: boolean): never {
  const made: { sheet?: SheetState; table?: SheetState["tables"][number] } = {};
  context.enqueue(`add table at ${address}`, () => {
    const [, name, cells] = /^'?(.*?)'?!(.*)$/u.exec(address)!;
    const sheet = unprotected(book.sheet(name!.replaceAll("''", "'")));
    const at = parseRange(cells!)!;
    if (!hasHeaders) throw new Error("Tables have headers here.");
    if (sheet.tables.some((other) => overlaps(other.at, at)) || sheet.merges.some((merge) => overlaps(merge, at))) {
      throw new OfficeError("InvalidOperation", "A table cannot overlap another table or merged cells.");
    }
    made.sheet = sheet;
    made.table = { name: `Table${book.id()}`, at, style: "TableStyleMedium2" };
    sheet.tables.push(made.table);
    // Excel turns headers into text, names blank ones, and gives the table looks of its own.
    for (let c = 0; c < at.columns; c++) {
      const cell = book.cell(sheet, at.row, at.column + c);
      Object.assign(cell, {
        value: cell.value === "" ? `Column${c + 1}` : String(cell.value),
        type: "String",
        formula: "",
      });
      cell.looks.font.bold = true;
    }
  });
  return client(
    context,
    tableSpec(
      context,
      book,
      () => made.sheet!,
      () => made.table!,
    ),
  );
}

export function charts(context: StrictContext, book: StrictBook, sheetOf: () => SheetState, label: string): object {
  const collection = client(context, {
    label: `charts of ${label}`,
    items: () =>
      sheetOf().charts.map((chart) => ({
        label: `chart ${chart.name}`,
        read: { id: () => chart.id, name: () => chart.name },
        call: {
          delete: () =>
            context.enqueue(
              `delete chart ${chart.name}`,
              () => void sheetOf().charts.splice(sheetOf().charts.indexOf(chart), 1),
            ),
        },
      })),
  }) as object;
  const add = (kind: string, source: { __address: () => string }, by: string) => {
    const made: { chart?: SheetState["charts"][number] } = {};
    context.enqueue(`add chart to ${label}`, () => {
      made.chart = { id: book.id(), name: "Chart 1", detail: { kind, by, source: source.__address() } };
      unprotected(sheetOf()).charts.push(made.chart);
    });
    const detail = (path: string) => (value: string) => void (made.chart!.detail[path] = value);
    const text = (path: string) => client(context, { label: path, write: { text: detail(path) } });
    const series = (i: number) =>
      client(context, {
        label: `series ${i}`,
        write: { name: detail(`series ${i} name`), chartType: detail(`series ${i} drawn`) },
        call: {
          setValues: (at: { __address: () => string }) =>
            context.enqueue("set values", () => void (made.chart!.detail[`series ${i} y`] = at.__address())),
          setXAxisValues: (at: { __address: () => string }) =>
            context.enqueue("set x values", () => void (made.chart!.detail[`series ${i} x`] = at.__address())),
        },
      });
    let count = 1;
    return client(context, {
      label: "new chart",
      write: { name: (name: string) => void (made.chart!.name = name) },
      part: {
        title: () => text("title"),
        axes: () => ({ categoryAxis: { title: text("x title") }, valueAxis: { title: text("y title") } }),
        series: () => ({
          getItemAt: series,
          add: (name: string) => {
            const i = count++;
            context.enqueue(`add series ${name}`, () => void (made.chart!.detail[`series ${i} name`] = name));
            return series(i);
          },
        }),
      },
      call: {
        setPosition: (from: string, to: string) =>
          context.enqueue("set position", () => void (made.chart!.detail.position = `${from}:${to}`)),
      },
    });
  };
  return new Proxy(collection, { get: (target, name) => (name === "add" ? add : Reflect.get(target, name)) });
}

export function freezePanes(
  context: StrictContext,
  book: StrictBook,
  sheetOf: () => SheetState,
  label: string,
): object {
  const set = (what: string, rows: () => number, columns: () => number) =>
    context.enqueue(
      `${what} ${label}`,
      () => void (unprotected(sheetOf()).frozen = { rows: rows(), columns: columns() }),
    );
  return {
    freezeRows: (count: number) =>
      set(
        "freeze rows of",
        () => count,
        () => 0,
      ),
    freezeColumns: (count: number) =>
      set(
        "freeze columns of",
        () => 0,
        () => count,
      ),
    freezeAt: (at: { __address: () => string }) => {
      const corner = () => parseRange(at.__address().replace(/^.*!/u, ""))!;
      set(
        "freeze",
        () => corner().rows,
        () => corner().columns,
      );
    },
    unfreeze: () =>
      set(
        "unfreeze",
        () => 0,
        () => 0,
      ),
    getLocationOrNullObject: () => {
      const at = () => ({
        row: 0,
        column: 0,
        rows: sheetOf().frozen.rows || 1_048_576,
        columns: sheetOf().frozen.columns || 16_384,
      });
      return client(context, {
        ...found(rangeSpec(context, book, sheetOf, at, `frozen part of ${label}`)),
        isNull: () => sheetOf().frozen.rows === 0 && sheetOf().frozen.columns === 0,
      });
    },
  };
}

export function pageLayout(context: StrictContext, sheetOf: () => SheetState, label: string): object {
  const print = () => unprotected(sheetOf()).print;
  const place = (key: "area" | "titles") =>
    client(context, {
      label: `print ${key} of ${label}`,
      isNull: () => sheetOf().print[key] === null,
      read: {
        address: () =>
          `${addressOf(sheetOf(), { row: 0, column: 0, rows: 1, columns: 1 }).split("!")[0]}!${sheetOf().print[key]}`,
      },
    });
  const margins = Object.keys(USUAL_MARGINS);
  return client(context, {
    label: `page layout of ${label}`,
    read: {
      orientation: () => sheetOf().print.orientation,
      zoom: () => sheetOf().print.zoom,
      ...Object.fromEntries(margins.map((name) => [name, () => sheetOf().print.margins[name]])),
    },
    write: {
      ...Object.fromEntries(margins.map((name) => [name, (points: number) => void (print().margins[name] = points)])),
      orientation: (value: string) => void (print().orientation = value),
      zoom: (value: object) => void (print().zoom = value),
    },
    part: {
      headersFooters: () => ({
        defaultForAllPages: client(context, {
          label: `footer of ${label}`,
          read: { centerFooter: () => sheetOf().print.footer },
          write: { centerFooter: (value: string) => void (print().footer = value) },
        }),
      }),
    },
    call: {
      getPrintAreaOrNullObject: () => place("area"),
      getPrintTitleRowsOrNullObject: () => place("titles"),
      setPrintArea: (address: string) => context.enqueue("set print area", () => void (print().area = address)),
      setPrintTitleRows: (address: string) => context.enqueue("set title rows", () => void (print().titles = address)),
    },
  });
}

/** Print area and title rows are names of the sheet. */
export function printName(context: StrictContext, sheetOf: () => SheetState, name: string): object {
  const key = name === "Print_Area" ? "area" : "titles";
  return client(context, {
    label: name,
    isNull: () => sheetOf().print[key] === null,
    read: { name: () => name },
    call: { delete: () => context.enqueue(`delete ${name}`, () => void (sheetOf().print[key] = null)) },
  });
}
