import { parentPort, workerData } from "node:worker_threads";
import type { AuditOptions } from "../../core/fleet/audit";
import type { TableChunk } from "../../hosts/table/table-chunk";
import { auditChunk } from "./audit-chunk";

/** One of several threads that audit chunks; what it answers is what one thread alone would. */
parentPort!.on("message", (chunk: TableChunk) => {
  parentPort!.postMessage(auditChunk(chunk, workerData as AuditOptions));
});
