import { parseArgs, type ParseArgsConfig } from "node:util";
import { UsageFault } from "./command";

type Options = NonNullable<ParseArgsConfig["options"]>;

/**
 * Reads the arguments of a command. An unknown or incomplete option becomes a `UsageFault` that
 * names it; what a shell cannot have meant as an option (`-5`, a lone `-`) stays an operand.
 */
export function readArguments<const O extends Options>(args: readonly string[], options: O) {
  try {
    const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
    return { options: values, operands: positionals };
  } catch (error) {
    throw new UsageFault(sentence(error));
  }
}

function sentence(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  const unknown = /Unknown option '([^']+)'/.exec(message);
  if (unknown) return `${unknown[1]} is not an option of this command.`;
  const incomplete = /Option '([^']+)' argument missing/.exec(message);
  if (incomplete) return `${incomplete[1]!.replace(" <value>", "")} needs a value after it.`;
  const surplus = /Option '([^']+)' does not take an argument/.exec(message);
  if (surplus) return `${surplus[1]} takes no value.`;
  const ambiguous = /Option '([^']+)' argument is ambiguous/.exec(message);
  if (ambiguous) return `${ambiguous[1]!.replace(" <value>", "")} needs a value after it.`;
  return message.split("\n")[0]!;
}
