import {
  createReadStream,
  existsSync,
  fsyncSync,
  closeSync,
  ftruncateSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import { createInterface } from "node:readline";
import type { Position } from "../../hosts/table/table-chunk";
import { START } from "../../hosts/table/table-chunk";
import type { ChunkResult, Complaint, RowResult } from "./audit-chunk";

interface Mark {
  /** What was audited: files with size and time; another input starts anew. */
  readonly input: string;
  readonly position: Position;
  readonly bytes: number;
  readonly rows: number;
  readonly complaints: number;
}

/**
 * Results so far, beside the output: a run that was killed goes on where its last complete chunk
 * ended. Results are appended first and marked as done after, so a half-written chunk is cut off.
 */
export class PartFile {
  private readonly path: string;
  private readonly markPath: string;
  private handle = -1;
  private bytes = 0;
  rows = 0;
  complaints = 0;

  constructor(
    output: string,
    private readonly input: string,
  ) {
    this.path = `${output}.part`;
    this.markPath = `${output}.mark`;
  }

  /** Opens the file and says where to go on. */
  open(): Position {
    const mark = this.readMark();
    this.handle = openSync(this.path, mark ? "r+" : "w");
    if (mark) ftruncateSync(this.handle, mark.bytes);
    this.bytes = mark?.bytes ?? 0;
    this.rows = mark?.rows ?? 0;
    this.complaints = mark?.complaints ?? 0;
    return mark?.position ?? START;
  }

  add(result: ChunkResult, position: Position): void {
    const lines = [
      ...result.rows.map((row) => JSON.stringify({ row })),
      ...result.complaints.map((complaint) => JSON.stringify({ complaint })),
    ];
    const data = Buffer.from(lines.map((line) => `${line}\n`).join(""));
    writeSync(this.handle, data, 0, data.length, this.bytes);
    this.bytes += data.length;
    this.rows += result.rows.length;
    this.complaints += result.complaints.length;
    fsyncSync(this.handle);
    const { input, bytes, rows, complaints } = this;
    const mark: Mark = { input, position, bytes, rows, complaints };
    writeFileSync(`${this.markPath}.new`, JSON.stringify(mark));
    renameSync(`${this.markPath}.new`, this.markPath);
  }

  close(): void {
    closeSync(this.handle);
  }

  /** Every row, in the order of the tables. */
  readRows(): AsyncGenerator<RowResult> {
    return this.lines<RowResult>("row");
  }

  readComplaints(): AsyncGenerator<Complaint> {
    return this.lines<Complaint>("complaint");
  }

  private async *lines<T>(kind: "row" | "complaint"): AsyncGenerator<T> {
    const start = `{"${kind}":`;
    for await (const line of createInterface({ input: createReadStream(this.path), crlfDelay: Infinity })) {
      if (line.startsWith(start)) yield (JSON.parse(line) as Record<typeof kind, T>)[kind];
    }
  }

  remove(): void {
    rmSync(this.path, { force: true });
    rmSync(this.markPath, { force: true });
  }

  private readMark(): Mark | undefined {
    if (!existsSync(this.markPath) || !existsSync(this.path)) return undefined;
    try {
      const mark = JSON.parse(readFileSync(this.markPath, "utf8")) as Mark;
      return mark.input === this.input && statSync(this.path).size >= mark.bytes ? mark : undefined;
    } catch {
      return undefined;
    }
  }
}
