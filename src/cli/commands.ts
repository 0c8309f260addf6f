import type { Command } from "./command";

/** One line of the table of commands: what it is for, and where its module lies. */
export interface CommandEntry {
  readonly name: string;
  readonly summary: string;
  readonly load: () => Promise<Command>;
}

/** Every command, in the order in which the help lists them. */
export const COMMANDS: readonly CommandEntry[] = [
  {
    name: "calc",
    summary: "calculate worksheet formulas and print their values",
    load: async () => (await import("./calc")).calc,
  },
  {
    name: "diagnose",
    summary: "weigh the readings of a job file: part at fault, evidence, next check",
    load: async () => (await import("./diagnose")).diagnoseCommand,
  },
  {
    name: "audit",
    summary: "go through a fleet's tables: states, next checks, who to bring in first",
    load: async () => (await import("./audit")).auditCommand,
  },
  {
    name: "work",
    summary: "audit rows that another computer hands out through a queue",
    load: async () => (await import("./work")).workCommand,
  },
  {
    name: "template",
    summary: "write a template as a workbook file",
    load: async () => (await import("./template")).templateCommand,
  },
  {
    name: "recalc",
    summary: "fill the last values of our functions into a workbook file",
    load: async () => (await import("./recalc")).recalcCommand,
  },
  {
    name: "serve",
    summary: "open the workbook with its task pane in the browser, on this computer only",
    load: async () => (await import("./serve")).serve,
  },
];
