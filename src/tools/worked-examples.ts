import { readFileSync } from "node:fs";
import { functionFiles, FUNCTIONS_FOLDER } from "./function-metadata";

/** One `@example` of a worksheet function: the formula as typed, what it gives in words. */
export interface WorkedExample {
  readonly name: string;
  readonly formula: string;
  /** Arguments as the host would hand them over; `null` for one left out. */
  readonly given: readonly unknown[];
  /** What stands after "gives". */
  readonly gives: string;
}

const EXAMPLE = /@example\s+(=CHG\.([A-Z][A-Z0-9]*)\((.*)\)) gives (.+)$/gmu;

/** Reads the worked example of every function from the doc comments of `src/functions`. */
export function workedExamples(folder = FUNCTIONS_FOLDER): WorkedExample[] {
  return functionFiles(folder).flatMap((file) => examplesIn(readFileSync(file, "utf8")));
}

export function examplesIn(source: string): WorkedExample[] {
  return [...source.matchAll(EXAMPLE)].map(([, formula, name, inside, gives]) => ({
    name: name!,
    formula: formula!,
    given: argumentsOf(inside!),
    gives: gives!.trim(),
  }));
}

/** Literals between the brackets of a formula: numbers, text, TRUE and FALSE, `{1,2;3,4}`, nothing. */
export function argumentsOf(inside: string): unknown[] {
  if (inside.trim() === "") return [];
  const given: unknown[] = [];
  let rest = inside;
  for (;;) {
    const block = /^\s*\{([^}]*)\}\s*/u.exec(rest);
    const one = block ?? /^\s*(?:"(?:[^"]|"")*"|[^,]*)\s*/u.exec(rest)!;
    given.push(block ? block[1]!.split(";").map((row) => splitRow(row).map(literal)) : literal(one[0]));
    rest = rest.slice(one[0].length);
    if (rest === "") return given;
    if (!rest.startsWith(",")) throw new Error(`Arguments are parted by commas: ${inside}`);
    rest = rest.slice(1);
  }
}

function splitRow(row: string): string[] {
  return row.match(/"(?:[^"]|"")*"|[^,]+|(?<=,)(?=,)/gu) ?? [];
}

function literal(text: string): unknown {
  const word = text.trim();
  if (word === "") return null;
  if (word.startsWith('"')) return word.slice(1, -1).replaceAll('""', '"');
  if (/^(?:TRUE|FALSE)$/u.test(word)) return word === "TRUE";
  const value = Number(word);
  if (Number.isNaN(value)) throw new Error(`An example holds literals only: ${word}`);
  return value;
}
