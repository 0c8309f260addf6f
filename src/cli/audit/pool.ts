import path from "node:path";
import { Worker } from "node:worker_threads";
import type { AuditOptions } from "../../core/fleet/audit";
import type { TableChunk } from "../../hosts/table/table-chunk";
import { auditChunk, type ChunkResult } from "./audit-chunk";

/** Built beside the command line. */
const WORKER = path.join(__dirname, "audit-worker.js");

export interface Audited {
  readonly chunk: TableChunk;
  readonly result: ChunkResult;
}

/**
 * Audits chunks on `threads` threads and gives the results in the order of the chunks, holding no
 * more than two chunks a thread in memory.
 */
export async function* auditInOrder(
  chunks: AsyncIterable<TableChunk>,
  threads: number,
  options: AuditOptions,
): AsyncGenerator<Audited> {
  if (threads <= 1) {
    for await (const chunk of chunks) yield { chunk, result: auditChunk(chunk, options) };
    return;
  }
  const workers = Array.from({ length: threads }, () => new Worker(WORKER, { workerData: options }));
  const idle = workers.map((worker) => new Desk(worker));
  const waiting: { chunk: TableChunk; result: Promise<ChunkResult> }[] = [];
  let turn = 0;
  try {
    for await (const chunk of chunks) {
      const desk = idle[turn++ % idle.length]!;
      waiting.push({ chunk, result: desk.audit(chunk) });
      if (waiting.length >= threads * 2) {
        const first = waiting.shift()!;
        yield { chunk: first.chunk, result: await first.result };
      }
    }
    for (const { chunk, result } of waiting) yield { chunk, result: await result };
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
}

/** One worker's post box: answers come in the order of the questions. */
export class Desk {
  private readonly open: { resolve: (result: ChunkResult) => void; reject: (error: Error) => void }[] = [];

  constructor(private readonly worker: Worker) {
    worker.on("message", (result: ChunkResult) => this.open.shift()?.resolve(result));
    worker.on("error", (error) => {
      for (const { reject } of this.open.splice(0)) reject(error);
    });
  }

  audit(chunk: TableChunk): Promise<ChunkResult> {
    const answer = new Promise<ChunkResult>((resolve, reject) => {
      this.open.push({ resolve, reject });
      this.worker.postMessage(chunk);
    });
    // A worker that fails is reported where its answer is awaited, which may be later.
    answer.catch(() => undefined);
    return answer;
  }
}
