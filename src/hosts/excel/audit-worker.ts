import type { AuditCall } from "./audit-in-parts";
import { fetchOnCall } from "./function-parts";

/** A thread that audits the rows it is handed; `undefined` goes back where that failed. */
addEventListener("message", ({ data }: MessageEvent<AuditCall>) => {
  void fetchOnCall()
    .then(({ AUDIT }) => postMessage(AUDIT!(...data)))
    .catch(() => postMessage(undefined));
});
