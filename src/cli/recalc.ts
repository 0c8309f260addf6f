import path from "node:path";
import { recalculate } from "../hosts/file/recalc";
import { readArguments } from "./arguments";
import { UsageFault, type Command } from "./command";
import { readBytes, workbookOutput, writeBytes } from "./output-file";
import { asInputFault } from "./workbook-fault";

/** `chargewright recalc IN.xlsx -o OUT.xlsx`: last values of our functions, all else left as it was. */
export const recalcCommand: Command = {
  help: [
    "Usage: chargewright recalc IN.xlsx -o OUT.xlsx [--json] [--force]",
    "",
    "Fills in the last values of Chargewright's functions, and of what depends on them. Nothing else",
    "in the file changes. A value that the engine cannot work out again keeps what the file came with,",
    "and its cell is named.",
    "",
    "  -o, --output     the workbook to write",
    "  --json           print what was done as JSON",
    "  --force          replace OUT where it exists",
  ].join("\n"),

  async run(args, io) {
    const { options, operands } = readArguments(args, {
      output: { type: "string", short: "o" },
      json: { type: "boolean" },
      force: { type: "boolean" },
    });
    const [input, ...more] = operands;
    if (input === undefined || more.length > 0)
      throw new UsageFault("name one workbook, as in: recalc in.xlsx -o out.xlsx.");
    const output = workbookOutput(options.output, options.force, `recalc ${input} -o out.xlsx`);
    const bytes = readBytes(input);
    let done;
    try {
      done = await recalculate(bytes, path.basename(input));
    } catch (error) {
      throw asInputFault(error);
    }
    writeBytes(output, done.bytes);
    if (options.json) {
      const { ours, due, written, kept } = done;
      io.out(JSON.stringify({ output, ours, due, written, kept }, null, 1));
    } else {
      for (const { cell, formula, reason } of done.kept)
        io.complain(`${cell} keeps its last value (${formula}): ${reason}`);
      io.out(
        `${output}: ${done.ours} formulas of ours, ${done.written} values written${done.kept.length > 0 ? `, ${done.kept.length} kept` : ""}`,
      );
    }
    return 0;
  },
};
