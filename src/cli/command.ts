/**
 * What every command of the command line is made of. A command's module holds its help and does its
 * own work; `commands.ts` names it and loads it only when it is asked for, so that `--help` and the
 * light commands start at once.
 */
export interface Command {
  /** Printed by `chargewright NAME --help`; ends without a line break. */
  readonly help: string;
  /** Does the work; rejects with `UsageFault` where the arguments cannot be followed. */
  run(args: readonly string[], io: Io): Promise<ExitCode>;
}

/** 0: all done; 1: something in the input could not be done; 2: the command was not understood. */
export type ExitCode = 0 | 1 | 2;

/** Where a command writes, so that tests read what a person would. */
export interface Io {
  /** Results, one line a call. */
  out(line: string): void;
  /** Complaints and progress, one line a call. */
  complain(line: string): void;
}

/** The arguments cannot be followed; the message says what to write instead. */
export class UsageFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = "UsageFault";
  }
}

/** The input cannot be used (a missing file, a truncated one); the message says what to do. */
export class InputFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = "InputFault";
  }
}
