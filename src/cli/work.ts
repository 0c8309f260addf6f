import path from "node:path";
import { availableParallelism } from "node:os";
import { Worker as Thread } from "node:worker_threads";
import { Worker } from "bullmq";
import type Redis from "ioredis";
import { optionsFromCells } from "../core/diagnosis/to-cells";
import type { AuditOptions } from "../core/fleet/audit";
import { machinesFromCells } from "../core/fleet/audit-cells";
import { faultMessage } from "../core/result";
import { readArguments } from "./arguments";
import { Desk } from "./audit/pool";
import { UsageFault, type Command, type Io } from "./command";
import { MOST_LOST } from "./queue/audit-on-queue";
import {
  connect,
  KEPT_SECONDS,
  LOCK_MS,
  pack,
  plain,
  QUEUE_NAME,
  resultKey,
  tablesKey,
  unpack,
  type RunTables,
  type Task,
} from "./queue/queue-server";

/** `chargewright work --queue redis://…`: audits rows that another computer hands out. */
export const workCommand: Command = {
  help: [
    "Usage: chargewright work --queue ADDRESS [--threads N]",
    "",
    "Audits rows that `chargewright audit … --queue ADDRESS` hands out, until it is told to stop",
    "(Ctrl-C; the rows in hand are finished first). Any number of workers on any number of computers",
    "may share a queue; rows of a worker that is cut off go to another one. Tables stay with the",
    "command that audits them: a worker needs nothing but the queue server.",
    "",
    "  --queue ADDRESS   the queue server, such as redis://localhost:6379",
    "  --threads N       rows of so many tasks at once (as many as the computer has)",
  ].join("\n"),

  async run(args, io) {
    const { options, operands } = readArguments(args, { queue: { type: "string" }, threads: { type: "string" } });
    if (operands.length > 0) throw new UsageFault(`"${operands[0]}": a worker is told by the queue what to do.`);
    if (options.queue === undefined)
      throw new UsageFault("say which queue, as in: work --queue redis://localhost:6379.");
    const threads = options.threads === undefined ? availableParallelism() : Number(options.threads);
    if (!Number.isInteger(threads) || threads < 1 || threads > 64)
      throw new UsageFault(`--threads ${options.threads}: a whole number from 1 to 64.`);
    const redis = await connect(options.queue);
    const stop = new Promise<void>((resolve) => {
      for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => resolve());
    });
    const forTasks = redis.duplicate();
    const worker = work(redis, forTasks, threads, io);
    io.out(`At the queue of ${plain(new URL(options.queue))}, ${threads} at once.`);
    await stop;
    await worker.close();
    // The library leaves connections that were given to it open.
    forTasks.disconnect();
    redis.disconnect();
    return 0;
  },
};

/**
 * Takes tasks, audits each on a thread of its own and puts the result down before the task is marked
 * as done: a worker that is cut off in between leaves a task that another one does again, to the same
 * result under the same name.
 */
function work(redis: Redis, forTasks: Redis, threads: number, io: Io) {
  const desks = new Desks();
  const worker = new Worker<Task, number>(
    QUEUE_NAME,
    async (job) => {
      const { run, chunk } = job.data;
      const rows = `rows ${chunk.firstRow} to ${chunk.firstRow + chunk.rows.length - 1} of ${path.basename(chunk.file)}`;
      io.out(`took ${rows}`);
      const result = await desks.audit(run, () => optionsOf(redis, run), chunk);
      await redis.set(resultKey(job.id!), pack(result), "EX", KEPT_SECONDS);
      io.out(`did ${rows}`);
      return chunk.rows.length;
    },
    {
      connection: forTasks,
      concurrency: threads,
      lockDuration: LOCK_MS,
      stalledInterval: LOCK_MS / 2,
      maxStalledCount: MOST_LOST,
    },
  );
  // A lost connection is taken up again by itself; said, not fatal.
  worker.on("error", (error) => io.complain(`queue: ${error.message}`));
  worker.on("closed", () => desks.close());
  return worker;
}

async function optionsOf(redis: Redis, run: string): Promise<AuditOptions> {
  const packed = await redis.getBuffer(tablesKey(run));
  if (!packed) throw new Error("what these rows are judged with is gone from the queue server");
  const { machines, knownGood, settings } = unpack<RunTables>(packed);
  const known = optionsFromCells(knownGood, settings);
  if (!known.ok) throw new Error(faultMessage(known.fault));
  return { ...known.value, machines: machinesFromCells(machines) };
}

/** Threads that audit, so that this one can go on telling the server that the rows are in hand. */
class Desks {
  private run = "";
  private options: Promise<AuditOptions> | undefined;
  private free: { run: string; thread: Thread; desk: Desk }[] = [];

  async audit(run: string, read: () => Promise<AuditOptions>, chunk: Task["chunk"]) {
    if (run !== this.run || !this.options) {
      this.run = run;
      this.options = read();
      this.options.catch(() => (this.options = undefined));
    }
    const options = await this.options;
    const place = this.free.findIndex((one) => one.run === run);
    const seat = place >= 0 ? this.free.splice(place, 1)[0]! : this.seat(run, options);
    const result = await seat.desk.audit(chunk);
    this.free.push(seat);
    return result;
  }

  close(): void {
    for (const { thread } of this.free.splice(0)) void thread.terminate();
  }

  private seat(run: string, options: AuditOptions) {
    // Threads of an earlier run hold its machine data.
    this.close();
    const thread = new Thread(THREAD, { workerData: options });
    return { run, thread, desk: new Desk(thread) };
  }
}

/** Built beside the command line. */
const THREAD = path.join(__dirname, "audit-worker.js");
