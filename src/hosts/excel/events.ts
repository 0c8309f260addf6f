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
    return this.#follow((context, stopped) =>
      context.workbook.worksheets.onChanged.add(async (event) => {
        // Our own writes are no edits by hand.
        if (event.triggerSource === "ThisLocalAddin") return;
        const areas = await this.#areas(event.worksheetId, event.address);
        for (const area of areas) if (!stopped()) listener(area);
      }),
    );
  }

  onSelection(listener: (at: Area) => void): () => void {
    return this.#follow((context, stopped) =>
      context.workbook.worksheets.onSelectionChanged.add(async (event) => {
        const [first] = await this.#areas(event.worksheetId, event.address);
        if (first && !stopped()) listener(first);
      }),
    );
  }

  onCalculated(listener: () => void): () => void {
    let waiting: ReturnType<typeof setTimeout> | undefined;
    return this.#follow((context, stopped) =>
      context.workbook.worksheets.onCalculated.add(() => {
        waiting ??= setTimeout(() => {
          waiting = undefined;
          if (!stopped()) listener();
        }, BURST);
        return Promise.resolve();
      }),
    );
  }

  /** Excel names the sheet by an id of its own; its name is asked for when something happened there. */
  async #areas(worksheetId: string, address: string): Promise<Area[]> {
    try {
      const sheet = await this.run("Following the sheet", async (context) => {
        const worksheet = context.workbook.worksheets.getItem(worksheetId);
        worksheet.load("name");
        await context.sync();
        return worksheet.name;
      });
      return address.split(",").map((part) => ({ sheet, ...rectangle(part) }));
    } catch (error) {
      // A sheet that was deleted meanwhile needs no follower.
      if (!(error instanceof WorkbookFault && error.reason === "missing")) this.#failed(error);
      return [];
    }
  }

  /** Excel takes a moment to begin and to end telling; the listener hears nothing after it was stopped. */
  #follow<T>(
    add: (context: Excel.RequestContext, stopped: () => boolean) => OfficeExtension.EventHandlerResult<T>,
  ): () => void {
    let stopped = false;
    const added = this.run("Following the sheet", async (context) => {
      const handler = add(context, () => stopped);
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
