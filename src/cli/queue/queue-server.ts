import { createHash } from "node:crypto";
import { deflateRawSync, inflateRawSync } from "node:zlib";
import Redis from "ioredis";
import manifest from "../../../package.json";
import type { Block } from "../../core/cell";
import type { TableChunk } from "../../hosts/table/table-chunk";
import { InputFault, UsageFault } from "../command";

/** Programs of one version work together: another one may judge otherwise. */
export const QUEUE_NAME = `chargewright-audit-${manifest.version}`;
/** What a run leaves behind when nobody fetches it is gone after so long [s]. */
export const KEPT_SECONDS = 24 * 3600;
/** A worker that has not been heard of for so long has lost its rows to another [ms]. */
export const LOCK_MS = 10_000;

/** Rows on their way to a worker. */
export interface Task {
  readonly run: string;
  readonly chunk: TableChunk;
}

/** What all rows of a run are judged with, as cells. */
export interface RunTables {
  readonly machines: Block;
  readonly knownGood: Block;
  readonly settings: Block;
}

/** Connects to the server, or says that there is none; afterwards a lost connection is taken up again by itself. */
export async function connect(address: string): Promise<Redis> {
  let url: URL;
  try {
    url = new URL(address);
  } catch {
    throw new UsageFault(`--queue ${address}: an address such as redis://localhost:6379.`);
  }
  if (!["redis:", "rediss:"].includes(url.protocol))
    throw new UsageFault(`--queue ${plain(url)}: an address that begins with redis:// or rediss://.`);
  let attempt = true;
  const redis = new Redis(address, {
    lazyConnect: true,
    maxRetriesPerRequest: null,
    connectTimeout: 5000,
    retryStrategy: (times) => (attempt ? null : Math.min(times * 200, 5000)),
  });
  let reason = "";
  redis.on("error", (error: Error) => (reason = error.message));
  try {
    await redis.connect();
    await redis.ping();
  } catch (error) {
    redis.disconnect();
    const why = reason || (error instanceof Error ? error.message : String(error));
    throw new InputFault(
      `no queue server answers at ${plain(url)} (${why}); start one (redis-server), or check the address.`,
    );
  }
  attempt = false;
  return redis;
}

/** An address without its password. */
export function plain(url: URL): string {
  return `${url.protocol}//${url.host}`;
}

/** The same input under the same program is the same run: started again, it finds what is done already. */
export function runName(signature: string): string {
  return createHash("sha256").update(`${manifest.version}\n${signature}`).digest("hex").slice(0, 24);
}

export function taskName(run: string, { next, rows }: TableChunk): string {
  return `${run}-${next.file}-${next.rows - rows.length}`;
}

/** Values in the server are small: text of tables packs to a tenth. */
export function pack(value: unknown): Buffer {
  return deflateRawSync(JSON.stringify(value));
}

export function unpack<T>(packed: Buffer): T {
  return JSON.parse(inflateRawSync(packed).toString("utf8")) as T;
}

export const tablesKey = (run: string) => `${QUEUE_NAME}:tables:${run}`;
export const resultKey = (task: string) => `${QUEUE_NAME}:result:${task}`;
