import { isBlank, isCellError, type Block, type Cell } from "../../core/cell";
import { changesIn } from "../../core/fleet/audits-lately";
import { joinAudits } from "../../core/fleet/join-audits";
import { namedTable, type NamedTable } from "../../core/fleet/named-table";
import { toBlock } from "../../functions/arguments";

/** What `CHG.AUDIT` is called with, the table first and the names of its columns last. */
export type AuditCall = readonly unknown[];
/** What of a call is the same for all rows of its table: its arguments behind the table. */
export type RestOfCall = readonly Block[];

/** Audits rows of one table somewhere else. */
export interface AuditThread {
  /** @param rows - Rows without their header; of several such calls the first is answered first */
  audit(rows: Block): Promise<Cell[][]>;
  /** All that it was asked is answered: another table may have it. */
  done(): void;
  /** It is stopped, whatever it is at. */
  end(): void;
}

/** Fewer rows than this are done sooner than a thread is started. */
const WORTH_A_THREAD = 4_000;
/** More threads than this gain little, and take memory from the workbook. */
const MOST_THREADS = 8;
/** What is left is cut for so many parts a thread, so parts grow smaller: no thread is left with much at the end. */
const PARTS_A_THREAD = 4;
/** Rows with the same gaps serve each other; in fewer rows than this there are few of them. */
const LEAST_PART = 1_500;
/** While a thread works on one part the next is on its way. */
const PARTS_AHEAD = 2;
const NAMES = 4;

/** What is to be audited in how many threads. */
export interface AuditPlan {
  readonly table: NamedTable;
  /** Machine data, known-good parts, settings. */
  readonly basis: readonly Block[];
  readonly threads: number;
}

/**
 * Whether the audit of a table is long enough for threads.
 *
 * @param call - Arguments of `CHG.AUDIT`
 * @param processors - How many can work at once
 * @param worth - Rows that a thread is started for
 * @returns `undefined` where too few rows are new for that, or the arguments are not as they should be
 */
export function planAudit(call: AuditCall, processors: number, worth = WORTH_A_THREAD): AuditPlan | undefined {
  // A table of results by row asks with each of its rows, and with all machines.
  if (!Array.isArray(call[0]) || call[0].length < worth) return undefined;
  const [table, ...basis] = [0, 1, 2, 3].map((i) => toBlock(call[i]));
  const parted = namedTable(table!, toBlock(call[NAMES]));
  if (!parted.ok) return undefined;
  const { header, rows } = parted.value;
  const anew = changesIn(parted.value, basis)?.rows ?? rows;
  const threads = Math.min(processors, MOST_THREADS, Math.floor(anew.length / worth));
  return threads < 1 || header.every(isBlank) ? undefined : { table: parted.value, basis, threads };
}

/**
 * A long table's audit in several threads at once: the page and its pane go on answering meanwhile, and the
 * cells have their values sooner. The same cells as in one piece, which the next call of the same finds done.
 *
 * @param start - Starts a thread; may throw where there are none
 * @returns `undefined` where a thread failed: then it is for the caller to do
 */
export async function auditInParts(
  { table, basis, threads: count }: AuditPlan,
  start: (rest: RestOfCall) => AuditThread,
): Promise<Cell[][] | undefined> {
  const threads: AuditThread[] = [];
  try {
    for (let i = 0; i < count; i++) threads.push(start([...basis, [table.header]]));
    const parts = await share(partsOf(table.rows, count), threads);
    for (const thread of threads.splice(0)) thread.done();
    const failed = parts.find((cells) => cells.some(([first]) => isCellError(first)));
    return failed ?? joinAudits(table, basis, parts);
  } catch {
    return undefined;
  } finally {
    for (const thread of threads) thread.end();
  }
}

function partsOf(rows: Block, threads: number): readonly Block[] {
  const parts: Block[] = [];
  for (let from = 0; from < rows.length; from += parts.at(-1)!.length) {
    const left = rows.length - from;
    const size = Math.max(
      Math.min(LEAST_PART, Math.ceil(rows.length / threads)),
      Math.ceil(left / threads / PARTS_A_THREAD),
    );
    parts.push(rows.slice(from, from + size));
  }
  return parts;
}

/** Each thread takes the next part when it has one to spare; the answers come back in the order of the parts. */
async function share(parts: readonly Block[], threads: readonly AuditThread[]): Promise<readonly Cell[][][]> {
  const audited: Cell[][][] = [];
  const left = parts.entries();
  const serve = async (thread: AuditThread) => {
    for (const [i, part] of left) audited[i] = await thread.audit(part);
  };
  await Promise.all(Array.from({ length: PARTS_AHEAD }, () => threads.map(serve)).flat());
  return audited;
}
