import { ICommandService, IUndoRedoService, type Injector, type IMutationInfo } from "@univerjs/core";
import { WorkbookFault } from "../../workbook/port";

/**
 * Mutations carried out one by one, each with the way back: all of them together become one undo
 * step, or are taken back together when one fails.
 */
export class Changes {
  private readonly done: IMutationInfo[] = [];
  private readonly back: IMutationInfo[] = [];
  private readonly commands: ICommandService;

  constructor(
    private readonly injector: Injector,
    private readonly unit: string,
  ) {
    this.commands = injector.get(ICommandService);
  }

  /** Carries out one mutation; `undo` must be made before it, from the state it changes. */
  run(mutation: IMutationInfo, undo: IMutationInfo): void {
    if (!this.commands.syncExecuteCommand(mutation.id, mutation.params)) {
      throw new WorkbookFault(
        `The grid refused a change (${mutation.id}). Nothing was written; please report it.`,
        "host",
      );
    }
    this.done.push(mutation);
    this.back.unshift(undo);
  }

  /** Makes what was done one step for the undo key. */
  commit(): void {
    if (this.done.length === 0) return;
    this.injector
      .get(IUndoRedoService)
      .pushUndoRedo({ unitID: this.unit, undoMutations: this.back, redoMutations: this.done });
  }

  /** Takes everything back, newest first. */
  takeBack(): void {
    for (const { id, params } of this.back) this.commands.syncExecuteCommand(id, params);
  }
}
