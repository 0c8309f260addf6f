import { isCellError } from "../core/cell";
import { FUNCTIONS, type FunctionTable, type WorksheetFunction } from "../functions/registry";
import { anyArgument, changed } from "./random-cells";
import { Random } from "./simulation/random";
import { workedExamples, type WorkedExample } from "./worked-examples";

/** What a fuzz found, and how much of it were values, blanks and errors. */
export interface FuzzReport {
  readonly calls: number;
  readonly cells: { readonly values: number; readonly blanks: number; readonly errors: number };
  /** Functions that never once answered with a value. */
  readonly neverAnswered: readonly string[];
  readonly slips: readonly FuzzSlip[];
}

export interface FuzzSlip {
  readonly name: string;
  readonly call: number;
  readonly what: string;
  readonly given: string;
}

const MOST_ARGUMENTS = 9;
const MOST_SLIPS = 20;
/** Arguments of each function that were answered with values, to be changed bit by bit. */
const MOST_KEPT = 40;

/**
 * Calls every worksheet function with random cells in random shapes and checks that nothing leaves
 * but values, blanks and documented errors: no throw, no NaN, no ragged block, no error without its
 * sentence, and the same answer to the same question. Half of the calls change arguments that were
 * answered before, starting from the worked examples, so that the fuzz gets past the first check.
 *
 * @param calls - How many calls in all; the functions take turns
 * @param seed - The same seed makes the same calls
 * @param functions - Functions by name; all of them where left out
 * @param examples - Arguments to start from, by function
 */
export function fuzzFunctions(
  calls: number,
  seed: number,
  functions: FunctionTable = FUNCTIONS,
  examples: readonly WorkedExample[] = workedExamples(),
): FuzzReport {
  const dice = new Random(seed);
  const names = Object.keys(functions);
  const kept = new Map(names.map((name) => [name, examples.filter((e) => e.name === name).map((e) => e.given)]));
  const cells = { values: 0, blanks: 0, errors: 0 };
  const answered = new Set<string>();
  const slips: FuzzSlip[] = [];
  for (let call = 0; call < calls && slips.length < MOST_SLIPS; call++) {
    const name = names[call % names.length]!;
    const pool = kept.get(name)!;
    const given =
      pool.length > 0 && dice.chance(0.6)
        ? changed(dice, dice.pick(pool))
        : Array.from({ length: dice.below(MOST_ARGUMENTS + 1) }, () => anyArgument(dice));
    const { block, fault } = answerOf(functions[name]!, given, call % 50 === 0);
    if (fault !== undefined) {
      slips.push({ name, call, what: fault, given: describe(given) });
      continue;
    }
    let values = 0;
    for (const cell of block.flat()) {
      if (isCellError(cell)) cells.errors++;
      else if (cell === "") cells.blanks++;
      else values++;
    }
    cells.values += values;
    if (values === 0) continue;
    answered.add(name);
    if (pool.length < MOST_KEPT) pool.push(given);
    else pool[dice.below(MOST_KEPT)] = given;
  }
  return { calls, cells, neverAnswered: names.filter((name) => !answered.has(name)), slips };
}

/** Calls a function, twice where asked, and looks at all that comes back. */
function answerOf(
  run: WorksheetFunction,
  given: readonly unknown[],
  twice: boolean,
): { block: unknown[][]; fault?: string } {
  try {
    const block: unknown = run(...given);
    const fault =
      faultOfBlock(block) ??
      (twice && JSON.stringify(run(...given)) !== JSON.stringify(block)
        ? "answered the same question in two ways"
        : undefined);
    return { block: block as unknown[][], ...(fault === undefined ? {} : { fault }) };
  } catch (error) {
    return {
      block: [],
      fault: `threw ${error instanceof Error ? `${error.name}: ${error.message}\n${error.stack?.split("\n")[1] ?? ""}` : String(error)}`,
    };
  }
}

/** What is wrong with a block that leaves a function; `undefined` where nothing is. */
function faultOfBlock(block: unknown): string | undefined {
  if (!Array.isArray(block) || block.length === 0) return "did not answer with rows";
  const width = Array.isArray(block[0]) ? block[0].length : 0;
  if (width === 0) return "answered with an empty row";
  for (const row of block) {
    if (!Array.isArray(row) || row.length !== width) return "answered with a ragged block";
    for (const cell of row) {
      const fault = faultOfCell(cell);
      if (fault) return fault;
    }
  }
  return undefined;
}

function faultOfCell(cell: unknown): string | undefined {
  if (typeof cell === "string" || typeof cell === "boolean") return undefined;
  if (typeof cell === "number") return Number.isFinite(cell) ? undefined : `let ${cell} out`;
  if (!isCellError(cell)) return `let ${cell === null ? "null" : typeof cell} out`;
  if (cell.error === "#N/A") return undefined;
  if (cell.error !== "#VALUE!") return `answered ${cell.error}, which carries no message`;
  if (!cell.message) return "answered #VALUE! without its sentence";
  if (/undefined|NaN|\[object|null/u.test(cell.message.replaceAll(/"[^"]*"/gu, ""))) return `said: ${cell.message}`;
  return /[.…]$|\w$|²$|\)$/u.test(cell.message) ? undefined : `said no sentence: ${cell.message}`;
}

function describe(given: readonly unknown[]): string {
  const text = JSON.stringify(given, (_, value: unknown) => {
    if (typeof value === "number" && !Number.isFinite(value)) return `number ${value}`;
    if (typeof value === "bigint" || typeof value === "symbol" || typeof value === "function") return typeof value;
    return value === undefined ? "undefined" : value;
  });
  return text.length <= 1200 ? text : `${text.slice(0, 1200)}…`;
}

/* node -r ./.config/typescript.cjs src/tools/fuzz-functions.ts [calls] [seed] */
if (require.main === module) {
  const [calls = 1_000_000, seed = 20261125] = process.argv.slice(2).map(Number);
  const started = process.hrtime.bigint();
  const report = fuzzFunctions(calls, seed);
  const seconds = Number(process.hrtime.bigint() - started) / 1e9;
  const { values, blanks, errors } = report.cells;
  console.log(
    `${report.calls} calls of ${Object.keys(FUNCTIONS).length} functions, seed ${seed}, ${seconds.toFixed(1)} s`,
  );
  console.log(
    `${values} values, ${blanks} blanks, ${errors} documented errors; never answered: ${report.neverAnswered.join(", ") || "none"}`,
  );
  for (const slip of report.slips) console.log(`${slip.name}, call ${slip.call}: ${slip.what}\n  ${slip.given}`);
  console.log(report.slips.length === 0 ? "nothing else left a function" : `${report.slips.length} slips`);
  process.exitCode = report.slips.length === 0 ? 0 : 1;
}
