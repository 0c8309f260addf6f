import type { ExcelHost } from "../../../src/hosts/excel/excel-host";
import { overlaps, parseRange, rangeName } from "../../../src/workbook/address";
import { client, found, OfficeError, StrictContext, type Failure, type Spec } from "./strict-client";
import { addressOf, range, rangeSpec, tableSpec, unprotected } from "./strict-range";
import { type Rectangle, type SheetState, type StrictBook } from "./strict-book";

interface Event {
  worksheetId: string;
  address: string;
  triggerSource: string;
}
type Handler = (event: Event) => Promise<void>;
type EventName = "onChanged" | "onSelectionChanged" | "onCalculated";

/** Excel over a `StrictBook`, as the host of the port is given it. */
export class StrictExcel implements ExcelHost {
  /** Options and contexts of all runs, for tests to look at. */
  readonly runs: { options: Excel.RunOptions; context: StrictContext }[] = [];
  readonly handlers: Record<EventName, Set<Handler>> = {
    onChanged: new Set(),
    onSelectionChanged: new Set(),
    onCalculated: new Set(),
  };
  failure: Failure | undefined;
  /** Handlers that are busy with what a batch made happen. */
  readonly #telling: Promise<void>[] = [];
  version = 20;

  constructor(readonly book: StrictBook) {
    book.onSelect = () => {
      this.#telling.push(this.fire("onSelectionChanged", book.sheets[book.active]!.name, rangeName(book.selected)));
    };
  }

  async run<T>(options: Excel.RunOptions, batch: (context: Excel.RequestContext) => Promise<T>): Promise<T> {
    const context = new StrictContext(this.failure);
    this.runs.push({ options, context });
    const answer = await batch(this.#context(context) as Excel.RequestContext);
    await Promise.all(this.#telling.splice(0));
    return answer;
  }

  supports(set: string, version: string): boolean {
    return set === "ExcelApi" && Number(version.split(".")[1]) <= this.version;
  }

  /** As if something happened in the sheet. */
  async fire(name: EventName, sheet: string, address: string, triggerSource = "Unknown"): Promise<void> {
    const worksheetId = this.book.sheet(sheet).id;
    await Promise.all([...this.handlers[name]].map((handler) => handler({ worksheetId, address, triggerSource })));
  }

  #context(context: StrictContext): unknown {
    const { book } = this;
    return {
      sync: () => context.sync(),
      application: {
        suspendApiCalculationUntilNextSync: () => context.enqueue("suspend calculation", () => undefined),
      },
      workbook: {
        worksheets: this.#worksheets(context),
        tables: {
          add: (address: string, hasHeaders: boolean) => addTable(context, book, address, hasHeaders),
          getItemOrNullObject: (name: string) => {
            const find = () => {
              for (const sheet of book.sheets)
                for (const table of sheet.tables)
                  if (table.name.toUpperCase() === name.toUpperCase()) return { sheet, table };
              return undefined;
            };
            return client(context, {
              ...tableSpec(
                context,
                () => find()!.sheet,
                () => find()!.table,
              ),
              isNull: () => !find(),
            });
          },
        },
        names: {
          add: (name: string, at: { readonly __address: () => string }) =>
            context.enqueue(`add name ${name}`, () => {
              if (book.names.has(name)) throw new OfficeError("ItemAlreadyExists", `The name ${name} exists.`);
              book.names.set(name, `=${at.__address()}`);
            }),
          getItemOrNullObject: (name: string) =>
            client(context, {
              label: `name ${name}`,
              isNull: () => !book.names.has(name),
              read: { formula: () => book.names.get(name) },
              call: { delete: () => context.enqueue(`delete name ${name}`, () => void book.names.delete(name)) },
            }),
        },
        getSelectedRange: () =>
          range(
            context,
            book,
            () => book.sheets[book.active]!,
            () => {
              if (book.severalSelected) throw new OfficeError("InvalidSelection", "The selection is not one range.");
              return book.selected;
            },
            "selection",
          ),
        getActiveCell: () =>
          range(
            context,
            book,
            () => book.sheets[book.active]!,
            () => ({ ...book.selected, rows: 1, columns: 1 }),
            "active cell",
          ),
      },
    };
  }

  #worksheets(context: StrictContext): unknown {
    const { book } = this;
    const following = (name: EventName) => ({
      add: (handler: Handler) => {
        context.enqueue(`follow ${name}`, () => void this.handlers[name].add(handler));
        return {
          context: { sync: () => context.sync() },
          remove: () => context.enqueue(`stop following ${name}`, () => void this.handlers[name].delete(handler)),
        };
      },
    });
    const items = client(context, {
      label: "sheets",
      items: () => book.sheets.map((sheet) => ({ label: sheet.name, read: { name: () => sheet.name } })),
    });
    const spec = (label: string, sheetOf: () => SheetState) => this.#sheetSpec(context, label, sheetOf);
    const own = {
      getItem: (name: string) =>
        client(context, { ...spec(name, () => book.sheet(name)), exists: () => void book.sheet(name) }),
      getItemOrNullObject: (name: string) =>
        client(context, { ...spec(name, () => book.sheet(name)), isNull: () => !book.find(name) }),
      getActiveWorksheet: () =>
        client(
          context,
          spec("active sheet", () => book.sheets[book.active]!),
        ),
      add: (name: string) => context.enqueue(`add sheet ${name}`, () => void book.addSheet(name)),
      onChanged: following("onChanged"),
      onSelectionChanged: following("onSelectionChanged"),
      onCalculated: following("onCalculated"),
    };
    return new Proxy(items as object, {
      get: (target, name) => (Object.hasOwn(own, name) ? own[name as "add"] : Reflect.get(target, name)),
    });
  }

  #sheetSpec(context: StrictContext, label: string, sheetOf: () => SheetState): Spec {
    const { book } = this;
    const at = (rectangle: () => Rectangle, what: string) =>
      nameable(range(context, book, sheetOf, rectangle, `${label} ${what}`), () =>
        addressOfFixed(sheetOf(), rectangle()),
      );
    return {
      label,
      read: { name: () => sheetOf().name },
      part: {
        protection: () =>
          client(context, { label: `protection of ${label}`, read: { protected: () => sheetOf().protected } }),
        charts: () => charts(context, book, sheetOf, label),
        freezePanes: () => freezePanes(context, book, sheetOf, label),
        pageLayout: () => pageLayout(context, sheetOf, label),
        names: () => ({ getItemOrNullObject: (name: string) => printName(context, sheetOf, name) }),
      },
      call: {
        activate: () => context.enqueue(`activate ${label}`, () => void (book.active = book.sheets.indexOf(sheetOf()))),
        delete: () =>
          context.enqueue(`delete ${label}`, () => void book.sheets.splice(book.sheets.indexOf(sheetOf()), 1)),
        getRangeByIndexes: (row: number, column: number, rows: number, columns: number) => {
          const valid = row >= 0 && column >= 0 && rows > 0 && columns > 0;
          return at(() => {
            if (!valid) throw new OfficeError("InvalidArgument", "The range is not there.");
            return { row, column, rows, columns };
          }, `${row},${column} ${rows}×${columns}`);
        },
        getRange: () => at(() => ({ row: 0, column: 0, rows: 1_048_576, columns: 16_384 }), "whole"),
        getUsedRangeOrNullObject: (valuesOnly: boolean) => {
          if (valuesOnly !== true) throw new Error("Only filled cells are asked for.");
          const filled = () =>
            [...sheetOf().cells]
              .filter(([, cell]) => cell.type !== "Empty")
              .map(([key]) => key.split(",").map(Number) as [number, number]);
          const used = () => {
            const keys = filled();
            const [row, column] = [Math.min(...keys.map(([r]) => r)), Math.min(...keys.map(([, c]) => c))];
            return {
              row,
              column,
              rows: Math.max(...keys.map(([r]) => r)) - row + 1,
              columns: Math.max(...keys.map(([, c]) => c)) - column + 1,
            };
          };
          return client(context, {
            ...found(rangeSpec(context, book, sheetOf, used, `${label} used`)),
            isNull: () => filled().length === 0,
          });
        },
      },
    };
  }
}

/** Ranges are handed to other calls; their address travels with them. */
function nameable(object: object, address: () => string): object {
  return new Proxy(object, {
    get: (target, name) => (name === "__address" ? address : Reflect.get(target, name)),
    set: (target, name, value) => Reflect.set(target, name, value),
  });
}

function addressOfFixed(sheet: SheetState, at: Rectangle): string {
  return addressOf(sheet, at).replaceAll(/([A-Z]+)(\d+)(?=:|$)/gu, "$$$1$$$2");
}

function addTable(context: StrictContext, book: StrictBook, address: string, hasHeaders: boolean): never {
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
      () => made.sheet!,
      () => made.table!,
    ),
  );
}

function charts(context: StrictContext, book: StrictBook, sheetOf: () => SheetState, label: string): object {
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
        write: { name: detail(`series ${i} name`) },
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

function freezePanes(context: StrictContext, book: StrictBook, sheetOf: () => SheetState, label: string): object {
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

function pageLayout(context: StrictContext, sheetOf: () => SheetState, label: string): object {
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
  return client(context, {
    label: `page layout of ${label}`,
    read: { orientation: () => sheetOf().print.orientation, zoom: () => sheetOf().print.zoom },
    write: {
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
function printName(context: StrictContext, sheetOf: () => SheetState, name: string): object {
  const key = name === "Print_Area" ? "area" : "titles";
  return client(context, {
    label: name,
    isNull: () => sheetOf().print[key] === null,
    read: { name: () => name },
    call: { delete: () => context.enqueue(`delete ${name}`, () => void (sheetOf().print[key] = null)) },
  });
}
