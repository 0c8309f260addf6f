import {
  WorkbookFault,
  type Area,
  type HostInfo,
  type ReadArea,
  type Step,
  type TableArea,
  type Workbook,
} from "../workbook/port";
import { packed, type Answered, type DeskEvent, type SharedCall } from "./share-protocol";

/** How a phone reaches the computer: one question and answer, and what comes unasked. */
export interface Line {
  ask(body: string): Promise<Answered>;
  listen(listener: (event: DeskEvent) => void): void;
}

/**
 * The workbook on the shop's computer, seen from a phone. It is the same workbook: what is typed here
 * stands there at once. Only where one looks (sheet and selection) is each one's own.
 */
export class RemoteWorkbook implements Workbook {
  readonly host: HostInfo = { kind: "grid", tables: true, undo: true };
  private shown: string | undefined;
  private selected: Area | undefined;
  private readonly editing = new Set<(change: Area) => void>();
  private readonly calculating = new Set<() => void>();
  private readonly selecting = new Set<(at: Area) => void>();

  constructor(private readonly line: Line) {
    line.listen((event) => {
      if (event.kind === "edit") for (const listener of this.editing) listener(event.at);
      if (event.kind === "calculated") for (const listener of this.calculating) listener();
    });
  }

  sheetNames = () => this.call<readonly string[]>("sheetNames");
  usedArea = (sheet: string) => this.call<Area>("usedArea", sheet);
  read = (at: Area) => this.call<ReadArea>("read", at);
  mergedIn = (at: Area) => this.call<readonly Area[]>("mergedIn", at);
  tablesIn = (at: Area) => this.call<readonly TableArea[]>("tablesIn", at);
  apply = (batch: readonly Step[]) => this.call<void>("apply", batch);

  async activeSheet(): Promise<string> {
    this.shown ??= await this.call<string>("activeSheet");
    return this.shown;
  }

  async activateSheet(sheet: string): Promise<void> {
    await this.select({ sheet, row: 0, column: 0, rows: 1, columns: 1 });
  }

  async selection(): Promise<Area> {
    return this.selected ?? { sheet: await this.activeSheet(), row: 0, column: 0, rows: 1, columns: 1 };
  }

  async select(at: Area): Promise<void> {
    const names = await this.sheetNames();
    if (!names.includes(at.sheet))
      throw new WorkbookFault(`There is no sheet "${at.sheet}" in this workbook.`, "missing");
    this.shown = at.sheet;
    this.selected = at;
    for (const listener of this.selecting) listener(at);
  }

  onEdit = (listener: (change: Area) => void) => listenTo(this.editing, listener);
  onCalculated = (listener: () => void) => listenTo(this.calculating, listener);
  onSelection = (listener: (at: Area) => void) => listenTo(this.selecting, listener);

  private async call<T>(method: SharedCall, ...args: readonly unknown[]): Promise<T> {
    const answer = await this.line.ask(packed({ method, args }));
    if ("fault" in answer) throw new WorkbookFault(answer.fault.message, answer.fault.reason);
    return answer.value as T;
  }
}

function listenTo<T>(listeners: Set<T>, listener: T): () => void {
  listeners.add(listener);
  return () => void listeners.delete(listener);
}
