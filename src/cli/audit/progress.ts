import { statSync } from "node:fs";
import type { Position } from "../../hosts/table/table-chunk";
import type { Io } from "../command";

const WIDTH = 24;

/** How far an audit is: a bar that redraws itself on a terminal, a line each tenth elsewhere. */
export class Progress {
  private readonly sizes: readonly number[];
  private readonly whole: number;
  private tenth: number;

  constructor(
    private readonly io: Io,
    files: readonly string[],
    from: Position,
  ) {
    this.sizes = files.map((file) => statSync(file).size);
    this.whole = this.sizes.reduce((a, b) => a + b, 0);
    this.tenth = Math.floor(this.share(from) * 10);
  }

  at(position: Position, rows: number): void {
    const share = this.share(position);
    if (process.stderr.isTTY) {
      const full = Math.round(share * WIDTH);
      process.stderr.write(
        `\r[${"#".repeat(full)}${".".repeat(WIDTH - full)}] ${Math.floor(share * 100)} %  ${rows} rows `,
      );
    } else if (Math.floor(share * 10) > this.tenth) {
      this.tenth = Math.floor(share * 10);
      this.io.complain(`${this.tenth * 10} %: ${rows} rows`);
    }
  }

  end(): void {
    if (process.stderr.isTTY) process.stderr.write("\r\u001b[K");
  }

  /** By bytes where they are known, by files otherwise. */
  private share({ file, byte }: Position): number {
    const before = this.sizes.slice(0, file).reduce((a, b) => a + b, 0);
    return this.whole === 0 ? 1 : Math.min(1, (before + byte) / this.whole);
  }
}
