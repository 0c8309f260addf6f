import { closeSync, openSync, readSync, rmSync, writeSync } from "node:fs";
import { GrowingColumn } from "../../core/fleet/growing-column";

/** Written in pieces of this many bytes. */
const PIECE = 1 << 16;

/**
 * Lines set aside on disk until all are there and their order is known. In memory stay a key, a place
 * and a length: 20 bytes a line, however long it is.
 */
export class Spool<T> {
  private readonly handle: number;
  private readonly keys = new GrowingColumn(Float64Array);
  private readonly starts = new GrowingColumn(Float64Array);
  private readonly lengths = new GrowingColumn(Uint32Array);
  private waiting: Buffer[] = [];
  private waitingBytes = 0;
  private bytes = 0;

  constructor(private readonly path: string) {
    this.handle = openSync(path, "w+");
  }

  get length(): number {
    return this.keys.length;
  }

  /** @param key - Lines come back by rising keys; those of one key as they were added */
  add(key: number, value: T): void {
    const line = Buffer.from(JSON.stringify(value));
    this.keys.push(key);
    this.starts.push(this.bytes);
    this.lengths.push(line.length);
    this.bytes += line.length;
    this.waiting.push(line);
    this.waitingBytes += line.length;
    if (this.waitingBytes >= PIECE) this.flush();
  }

  *inOrder(): Generator<T> {
    this.flush();
    const { keys, starts, lengths } = this;
    const order = Uint32Array.from({ length: this.length }, (_, i) => i);
    order.sort((a, b) => keys.at(a) - keys.at(b) || a - b);
    for (const i of order) {
      const line = Buffer.alloc(lengths.at(i));
      readSync(this.handle, line, 0, line.length, starts.at(i));
      yield JSON.parse(line.toString()) as T;
    }
  }

  remove(): void {
    closeSync(this.handle);
    rmSync(this.path, { force: true });
  }

  private flush(): void {
    if (this.waitingBytes > 0) writeSync(this.handle, Buffer.concat(this.waiting));
    this.waiting = [];
    this.waitingBytes = 0;
  }
}
