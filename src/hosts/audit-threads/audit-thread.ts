import type { Cell } from "../../core/cell";
import type { RestOfCall, AuditThread } from "./audit-in-parts";

/** What a thread sends back for each part; `undefined` where it failed. */
export type Audited = Cell[][] | undefined;

/** A part that is not answered yet. */
interface Waiting {
  resolve(cells: Cell[][]): void;
  reject(fault: Error): void;
}

/** A thread of the page, Excel's or the local one, that audits parts of a table. */
export function startAuditThread(rest: RestOfCall): AuditThread {
  const worker = new Worker(/* webpackChunkName: "audit-worker" */ new URL("./audit-worker", import.meta.url));
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
  worker.postMessage(rest);
  return {
    audit: (rows) =>
      new Promise((resolve, reject) => {
        waiting.push({ resolve, reject });
        worker.postMessage(rows);
      }),
    end: () => worker.terminate(),
  };
}
