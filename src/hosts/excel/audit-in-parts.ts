import { isBlank, isCellError, type Cell } from "../../core/cell";
import { changesIn } from "../../core/fleet/audits-lately";
import { joinAudits } from "../../core/fleet/join-audits";
import { namedTable } from "../../core/fleet/named-table";
import { toBlock } from "../../functions/arguments";

/** What `CHG.AUDIT` is called with, the table first and the names of its columns last. */
export type AuditCall = readonly unknown[];

/** Audits part of a table somewhere else. */
export interface AuditThread {
  audit(call: AuditCall): Promise<Cell[][]>;
  end(): void;
}

/** Fewer rows than this are done sooner than a thread is started. */
const WORTH_A_THREAD = 4_000;
/** More threads than this gain little, and take memory from the workbook. */
const MOST_THREADS = 8;
const NAMES = 4;

/**
 * A long table's audit in several threads at once: the page and its pane go on answering meanwhile, and the
 * cells have their values sooner. The same cells as in one piece.
 *
 * @param call - Arguments of `CHG.AUDIT`
 * @param start - Starts a thread; may throw where there are none
 * @param processors - How many can work at once
 * @param worth - Rows that a thread is started for
 * @returns `undefined` where too few rows are new for that or a thread failed: then it is for the caller to do
 */
export async function auditInParts(
  call: AuditCall,
  start: () => AuditThread,
  processors: number,
  worth = WORTH_A_THREAD,
): Promise<Cell[][] | undefined> {
  const [table, ...others] = [0, 1, 2, 3].map((i) => toBlock(call[i]));
  const parted = namedTable(table!, toBlock(call[NAMES]));
  if (!parted.ok) return undefined;
  const { header, rows } = parted.value;
  const anew = changesIn(parted.value, others)?.rows ?? rows;
  const count = Math.min(processors, MOST_THREADS, Math.floor(anew.length / worth));
  if (count < 1 || header.every(isBlank)) return undefined;
  const threads: AuditThread[] = [];
  try {
    const size = Math.ceil(rows.length / count);
    const parts = await Promise.all(
      Array.from({ length: count }, (_, i) => {
        const thread = start();
        threads.push(thread);
        return thread.audit([rows.slice(i * size, (i + 1) * size), ...others, [header]]);
      }),
    );
    const failed = parts.find((cells) => cells.some(([first]) => isCellError(first)));
    return failed ?? joinAudits(parted.value, others, parts);
  } catch {
    return undefined;
  } finally {
    for (const thread of threads) thread.end();
  }
}
