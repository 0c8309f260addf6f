import type { Block, Cell } from "../../core/cell";
import type { RestOfCall, AuditThread } from "./audit-in-parts";

/** What a thread is sent: first what is the same for all rows of a table, then the parts of the table. */
export type Asked = { readonly rest: RestOfCall } | { readonly rows: Block };
/** What a thread sends back for each part; `undefined` where it failed. */
export type Audited = Cell[][] | undefined;

/** A part that is not answered yet. */
interface Waiting {
  resolve(cells: Cell[][]): void;
  reject(fault: Error): void;
}

/** So long a thread that has done its work waits for another table before it goes [ms]. */
const KEPT = 30_000;

/** Threads without work, each with what will end it. */
const idle = new Map<Worker, ReturnType<typeof setTimeout>>();

/**
 * A thread of the page, Excel's or the local one, that audits parts of a table. One that was at work a moment ago is
 * taken again: the first rows of a new one cost three times what its later ones do.
 */
export function startAuditThread(rest: RestOfCall): AuditThread {
  const worker =
    idleWorker() ?? new Worker(/* webpackChunkName: "audit-worker" */ new URL("./audit-worker", import.meta.url));
  const waiting: Waiting[] = [];
  worker.onmessage = ({ data }: MessageEvent<Audited>) => {
    const part = waiting.shift()!;
    if (data) part.resolve(data);
    else part.reject(new Error("The audit failed in its thread."));
  };
  worker.onerror = (event) => {
    event.preventDefault();
    for (const part of waiting) part.reject(new Error(event.message));
  };
  const ask = (asked: Asked) => worker.postMessage(asked);
  ask({ rest });
  return {
    audit: (rows) =>
      new Promise((resolve, reject) => {
        waiting.push({ resolve, reject });
        ask({ rows });
      }),
    done: () => keep(worker),
    end: () => worker.terminate(),
  };
}

function keep(worker: Worker): void {
  const timer = setTimeout(() => {
    idle.delete(worker);
    worker.terminate();
  }, KEPT);
  idle.set(worker, timer);
}

function idleWorker(): Worker | undefined {
  for (const [worker, timer] of idle) {
    clearTimeout(timer);
    idle.delete(worker);
    return worker;
  }
  return undefined;
}
