import type { ExcelHost } from "../../../src/hosts/excel/excel-host";
import { rangeName } from "../../../src/workbook/address";
import { client, found, OfficeError, StrictContext, type Failure, type Spec } from "./strict-client";
import { range, rangeSpec, tableSpec } from "./strict-range";
import type { Rectangle, SheetState, StrictBook } from "./strict-book";
import { addressOfFixed, addTable, charts, freezePanes, nameable, pageLayout, printName } from "./strict-sheet-objects";

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
                book,
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
