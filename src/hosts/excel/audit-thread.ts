import type { Cell } from "../../core/cell";
import type { AuditThread } from "./audit-in-parts";

/** A thread of the add-in's page that audits part of a table. */
export function startAuditThread(): AuditThread {
  const worker = new Worker(/* webpackChunkName: "audit-worker" */ new URL("./audit-worker", import.meta.url));
  return {
    audit: (call) =>
      new Promise<Cell[][]>((resolve, reject) => {
        worker.onmessage = ({ data }: MessageEvent<Cell[][] | undefined>) =>
          data ? resolve(data) : reject(new Error("The audit failed in its thread."));
        worker.onerror = (event) => {
          event.preventDefault();
          reject(new Error(event.message));
        };
        worker.postMessage(call);
      }),
    end: () => worker.terminate(),
  };
}
