import { Queue, QueueEvents, type Job } from "bullmq";
import type { TableChunk } from "../../hosts/table/table-chunk";
import type { ChunkResult } from "../audit/audit-chunk";
import type { Audited } from "../audit/pool";
import { InputFault, type Io } from "../command";
import {
  connect,
  KEPT_SECONDS,
  pack,
  QUEUE_NAME,
  resultKey,
  runName,
  tablesKey,
  taskName,
  unpack,
  type RunTables,
  type Task,
} from "./queue-server";

/** Chunks under way at once: enough for dozens of workers, and bounded in memory. */
const UNDER_WAY = 64;
/** Rows lose their worker at most so often; more means that they themselves end it. */
export const MOST_LOST = 3;
const PATIENCE_MS = 5000;

/** Hands chunks to workers on any number of hosts and gives the results in the order of the chunks. */
export async function* auditOnQueue(
  chunks: AsyncIterable<TableChunk>,
  address: string,
  signature: string,
  tables: RunTables,
  io: Io,
): AsyncGenerator<Audited> {
  const redis = await connect(address);
  const waiting: { chunk: TableChunk; job: Job<Task> }[] = [];
  const run = runName(signature);
  const queue = new Queue<Task>(QUEUE_NAME, { connection: redis, streams: { events: { maxLen: 1000 } } });
  const forEvents = redis.duplicate();
  const events = new QueueEvents(QUEUE_NAME, { connection: forEvents });
  const alone = setTimeout(() => void sayWhenAlone(queue, io), PATIENCE_MS);
  const collect = async ({ chunk, job }: (typeof waiting)[number]): Promise<Audited> => {
    const key = resultKey(job.id!);
    try {
      await job.waitUntilFinished(events);
    } catch (error) {
      await job.remove().catch(() => undefined);
      throw new InputFault(
        `rows ${chunk.firstRow} to ${chunk.firstRow + chunk.rows.length - 1} of "${chunk.file}" could not be audited: ${(error as Error).message}`,
      );
    }
    const packed = await redis.getBuffer(key);
    if (!packed) throw new InputFault("a result is gone from the queue server; start the audit again to go on.");
    return { chunk, result: unpack<ChunkResult>(packed) };
  };
  const forget = async ({ job }: (typeof waiting)[number]) => {
    await job.remove();
    await redis.del(resultKey(job.id!));
  };
  try {
    await events.waitUntilReady();
    await redis.set(tablesKey(run), pack(tables), "EX", KEPT_SECONDS);
    const next = async () => {
      const first = waiting.shift()!;
      const audited = await collect(first);
      return { first, audited };
    };
    for await (const chunk of chunks) {
      const name = taskName(run, chunk);
      // A task of this name that is there already is the same rows, done or under way.
      const job = await queue.add(
        "rows",
        { run, chunk },
        {
          jobId: name,
          removeOnComplete: { age: KEPT_SECONDS },
          removeOnFail: { age: KEPT_SECONDS },
        },
      );
      waiting.push({ chunk, job });
      if (waiting.length < UNDER_WAY) continue;
      const { first, audited } = await next();
      yield audited;
      await forget(first);
    }
    while (waiting.length > 0) {
      const { first, audited } = await next();
      yield audited;
      await forget(first);
    }
    await redis.del(tablesKey(run));
  } finally {
    clearTimeout(alone);
    await events.close();
    await queue.close();
    // The library leaves connections that were given to it open.
    forEvents.disconnect();
    redis.disconnect();
  }
}

async function sayWhenAlone(queue: Queue, io: Io): Promise<void> {
  const workers = await queue.getWorkersCount().catch(() => 1);
  if (workers === 0) io.complain("No worker is at this queue yet; start one with: chargewright work --queue ADDRESS");
}
