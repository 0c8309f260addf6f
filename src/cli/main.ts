import manifest from "../../package.json";
import { COMMANDS } from "./commands";
import { InputFault, UsageFault, type ExitCode, type Io } from "./command";

/** Runs the command line on its arguments (without `node` and the script) and gives the exit code. */
export async function main(args: readonly string[], io: Io): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined || name === "--help" || name === "-h" || (name === "help" && rest.length === 0)) {
    io.out(overview());
    return name === undefined ? 2 : 0;
  }
  if (name === "--version") {
    io.out(manifest.version);
    return 0;
  }
  const wanted = name === "help" ? rest[0]! : name;
  const entry = COMMANDS.find((command) => command.name === wanted);
  if (!entry) {
    io.complain(`chargewright: there is no command "${wanted}". Commands: ${COMMANDS.map((c) => c.name).join(", ")}.`);
    io.complain(`Try: chargewright --help`);
    return 2;
  }
  const command = await entry.load();
  if (name === "help" || asksForHelp(rest)) {
    io.out(command.help);
    return 0;
  }
  try {
    return await command.run(rest, io);
  } catch (error) {
    if (error instanceof UsageFault) {
      io.complain(`chargewright ${entry.name}: ${error.message}`);
      io.complain(`Try: chargewright ${entry.name} --help`);
      return 2;
    }
    if (error instanceof InputFault) {
      io.complain(`chargewright ${entry.name}: ${error.message}`);
      return 1;
    }
    throw error;
  }
}

/** `--help` counts anywhere before a `--`, after which everything is input. */
function asksForHelp(args: readonly string[]): boolean {
  const end = args.indexOf("--");
  const before = end < 0 ? args : args.slice(0, end);
  return before.includes("--help") || before.includes("-h");
}

function overview(): string {
  const width = Math.max(...COMMANDS.map((command) => command.name.length));
  return [
    "chargewright: charging-system diagnostics for small engines and powersports machines",
    "",
    "Usage: chargewright COMMAND [arguments]",
    "",
    "Commands:",
    ...COMMANDS.map((command) => `  ${command.name.padEnd(width)}  ${command.summary}`),
    "",
    "chargewright COMMAND --help tells more. Exit codes: 0 done, 1 something in the input could not",
    "be done, 2 the command was not understood.",
  ].join("\n");
}
