/**
 * Stands for office.js on the built page of the add-in: the same globals, over the strict book.
 * `?excel=…` in the address says how: `none` (no Excel), `old` (ExcelApi 1.9), `hidden`.
 */
import { StrictBook } from "./strict-book";
import { StrictExcel } from "./strict-office";

const how = new URLSearchParams(location.search).get("excel");
const book = new StrictBook("Sheet1");
const excel = new StrictExcel(book);
if (how === "old") excel.version = 9;
const associated: Record<string, (...given: unknown[]) => unknown> = {};
let shown: ((event: { visibilityMode: string }) => void) | undefined;
if (how === "hidden") Object.defineProperty(document, "visibilityState", { value: "hidden" });

class ExcelError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

Object.assign(window, {
  standIn: { book, excel, associated, show: () => shown?.({ visibilityMode: "Taskpane" }) },
  Excel: {
    run: (options: unknown, batch?: unknown) =>
      excel.run(...((batch ? [options, batch] : [{}, options]) as Parameters<typeof excel.run>)),
  },
  CustomFunctions: {
    associate: (id: string, run: (...given: unknown[]) => unknown) => void (associated[id] = run),
    Error: ExcelError,
  },
  Office: {
    HostType: { Excel: "Excel" },
    VisibilityMode: { taskpane: "Taskpane", hidden: "Hidden" },
    context: { requirements: { isSetSupported: (set: string, version: string) => excel.supports(set, version) } },
    addin: {
      onVisibilityModeChanged: (listener: typeof shown) => {
        shown = listener;
        return Promise.resolve(() => Promise.resolve());
      },
    },
    onReady: (ready: (info: { host: string | null }) => void) => {
      const info = { host: how === "none" ? null : "Excel" };
      return Promise.resolve().then(() => {
        ready(info);
        return info;
      });
    },
  },
});
// Excel's library takes this away from the pages it runs on.
history.pushState = null as unknown as typeof history.pushState;
