import { isCellError, type Cell, type CellError } from "../core/cell";
import { faultMessage, type Fault, type Result } from "../core/result";
import { toBlock, type Argument } from "./arguments";

/** What a computation may put into cells: one value, or several that spill sideways. */
export type CellAnswer = Cell | readonly Cell[];

type Values<A extends readonly Argument<unknown>[]> = {
  -readonly [K in keyof A]: A[K] extends Argument<infer T> ? T : never;
};

/**
 * Carries a computation on single values over the cells of its arguments: one reading or 50,000
 * rows take the same way. Shapes broadcast as in the worksheet itself: a single cell stands for
 * all, a single row or column is repeated. The result has the common shape.
 *
 * @param args - How each argument is read, in order
 * @param compute - The computation; a list as answer spills sideways and wants one column of input
 * @param given - What the host handed over
 * @param blank - What stands where a needed reading is blank: `""`, or `not read` for judgements
 * @returns Cells; a fault becomes a `#VALUE!` that carries its sentence; never throws, never NaN
 */
export function overCells<const A extends readonly Argument<unknown>[]>(
  args: A,
  compute: (...values: Values<A>) => Result<CellAnswer>,
  given: readonly unknown[],
  blank: CellAnswer = "",
): Cell[][] {
  const blocks = args.map((_, i) => toBlock(given[i]));
  const rows = Math.max(...blocks.map((block) => block.length));
  const columns = Math.max(...blocks.map((block) => block[0]!.length));
  for (const [i, block] of blocks.entries()) {
    const fits =
      (block.length === 1 || block.length === rows) && (block[0]!.length === 1 || block[0]!.length === columns);
    if (!fits) {
      return [
        [
          faultCell({
            code: "shape",
            what: args[i]!.name,
            came: `a range of ${block.length} × ${block[0]!.length} cells`,
            expected: `one cell or ${rows} × ${columns} cells like the other arguments`,
          }),
        ],
      ];
    }
  }
  const answers: CellAnswer[][] = [];
  let width = 1;
  for (let r = 0; r < rows; r++) {
    const line: CellAnswer[] = [];
    for (let c = 0; c < columns; c++) {
      const answer = answerAt(args, compute, blocks, r, c, blank);
      if (Array.isArray(answer)) width = Math.max(width, answer.length);
      line.push(answer);
    }
    answers.push(line);
  }
  if (width === 1) return answers.map((line) => line.map((a) => outgoing(Array.isArray(a) ? a[0] : (a as Cell))));
  if (columns > 1) {
    return [
      [
        faultCell({
          code: "shape",
          what: args[0]!.name,
          came: `${columns} columns`,
          expected: "one column: each result spills sideways",
        }),
      ],
    ];
  }
  return answers.map(([answer]) => {
    const cells = Array.isArray(answer) ? (answer as Cell[]) : [answer as Cell];
    const filler = isCellError(cells[0]) ? cells[0] : "";
    return Array.from({ length: width }, (_, i) => outgoing(i < cells.length ? cells[i] : filler));
  });
}

function answerAt<A extends readonly Argument<unknown>[]>(
  args: A,
  compute: (...values: Values<A>) => Result<CellAnswer>,
  blocks: readonly (readonly (readonly Cell[])[])[],
  r: number,
  c: number,
  blank: CellAnswer,
): CellAnswer {
  const values: unknown[] = [];
  let missing = false;
  for (let i = 0; i < args.length; i++) {
    const argument = args[i]!;
    const block = blocks[i]!;
    const line = block[block.length === 1 ? 0 : r]!;
    const cell = line[line.length === 1 ? 0 : c];
    if (isCellError(cell) && cell.error === "#N/A") return cell;
    const read = argument.read(cell);
    if (!read.ok) return faultCell(read.fault);
    if (read.value !== null) values.push(read.value);
    else if (argument.whenBlank) values.push(argument.whenBlank.value);
    else missing = true;
  }
  if (missing) return blank;
  const result = compute(...(values as Values<A>));
  return result.ok ? result.value : faultCell(result.fault);
}

/** A fault as the error cell that carries its sentence. */
export function faultCell(fault: Fault): CellError {
  return { error: "#VALUE!", message: faultMessage(fault) };
}

/** Cells of a whole-block answer, or the one error cell of its fault. */
export function blockOrFault(result: Result<readonly (readonly Cell[])[]>): Cell[][] {
  return result.ok ? result.value.map((row) => row.map(outgoing)) : [[faultCell(result.fault)]];
}

/** Last gate to a cell: no NaN, no infinity, no null leaves. */
function outgoing(cell: Cell): Cell {
  if (cell === null || cell === undefined) return "";
  if (typeof cell === "number" && !Number.isFinite(cell)) {
    return { error: "#VALUE!", message: "These values have no finite result; check each argument." };
  }
  return cell;
}
