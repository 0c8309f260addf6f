import { parseRange } from "../../workbook/address";
import { WorkbookFault, type Area } from "../../workbook/port";

type Run = <T>(doing: string, batch: (context: Excel.RequestContext) => Promise<T>) => Promise<T>;

/** Recalculation comes in bursts, one event a sheet; listeners hear of a burst once [ms]. */
const BURST = 60;

/** What people do in the sheet, as the port tells it: edits by hand, selections, recalculations. */
export class ExcelEvents {
  constructor(
    private readonly run: Run,
    private readonly report: (fault: WorkbookFault) => void,
  ) {}

  onEdit(listener: (change: Area) => void): () => void {
    return this.#follow((context) =>
      context.workbook.worksheets.onChanged.add(async (event) => {
        // Our own writes are no edits by hand.
        if (event.triggerSource === "ThisLocalAddin") return;
        await this.#tellAreas(event.worksheetId, event.address, listener);
      }),
    );
  }

  onSelection(listener: (at: Area) => void): () => void {
    return this.#follow((context) =>
      context.workbook.worksheets.onSelectionChanged.add((event) =>
        this.#tellAreas(event.worksheetId, event.address.split(",")[0]!, listener),
      ),
    );
  }

  onCalculated(listener: () => void): () => void {
    let waiting: ReturnType<typeof setTimeout> | undefined;
    const stop = this.#follow((context) =>
      context.workbook.worksheets.onCalculated.add(() => {
        waiting ??= setTimeout(() => {
          waiting = undefined;
          listener();
        }, BURST);
        return Promise.resolve();
      }),
    );
    return () => {
      clearTimeout(waiting);
      stop();
    };
  }

  /** Excel names the sheet by an id of its own; its name is asked for when something happened there. */
  async #tellAreas(worksheetId: string, address: string, listener: (at: Area) => void): Promise<void> {
    try {
      const sheet = await this.run("Following the sheet", async (context) => {
        const worksheet = context.workbook.worksheets.getItem(worksheetId);
        worksheet.load("name");
        await context.sync();
        return worksheet.name;
      });
      for (const part of address.split(",")) listener({ sheet, ...rectangle(part) });
    } catch (error) {
      // A sheet that was deleted meanwhile needs no follower.
      if (!(error instanceof WorkbookFault && error.reason === "missing")) this.#failed(error);
    }
  }

  #follow<T>(add: (context: Excel.RequestContext) => OfficeExtension.EventHandlerResult<T>): () => void {
    let stopped = false;
    const added = this.run("Following the sheet", async (context) => {
      const handler = add(context);
      await context.sync();
      return handler;
    });
    added.catch((error: unknown) => this.#failed(error));
    return () => {
      if (stopped) return;
      stopped = true;
      added
        .then(async (handler) => {
          handler.remove();
          await handler.context.sync();
        })
        // Nothing is left to be done for a listener that nobody waits for.
        .catch(() => undefined);
    };
  }

  #failed(error: unknown): void {
    this.report(
      error instanceof WorkbookFault
        ? error
        : new WorkbookFault(
            "Excel does not tell of edits in the sheet; close the pane and open it again to see them.",
            "host",
          ),
    );
  }
}

/** An address of an event; whole rows (`3:5`) and whole columns (`A:C`) have their full length. */
function rectangle(address: string): Omit<Area, "sheet"> {
  const plain = address.replace(/^.*!/u, "").trim();
  const whole = /^\$?([A-Z]+|\d+):\$?([A-Z]+|\d+)$/iu.exec(plain);
  const full = !whole
    ? plain
    : /\d/u.test(whole[1]!)
      ? `A${whole[1]}:XFD${whole[2]}`
      : `${whole[1]}1:${whole[2]}1048576`;
  return parseRange(full) ?? { row: 0, column: 0, rows: 1_048_576, columns: 16_384 };
}
