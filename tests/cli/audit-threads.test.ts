import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { parse } from "csv-parse/sync";
import { stringify } from "csv-stringify/sync";

/** The built command line in processes of its own: threads start from its files, and a kill is a real one. */
const COMMAND = path.join(__dirname, "../../dist/cli/chargewright.js");
const folder = mkdtempSync(path.join(tmpdir(), "threads-"));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string) => path.join(folder, name);

interface Ended {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly complaints: string;
}

/** Runs an audit; `stopWhen` is asked again and again, and once it says yes the process is killed. */
function audit(output: string, threads: number, stopWhen?: () => boolean, ...more: string[]): Promise<Ended> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [
      COMMAND,
      "audit",
      at("fleet.csv"),
      "-o",
      output,
      "--threads",
      `${threads}`,
      ...more,
    ]);
    let complaints = "";
    child.stderr.on("data", (data: Buffer) => (complaints += data.toString()));
    const asking = stopWhen && setInterval(() => stopWhen() && child.kill("SIGKILL"), 5);
    child.on("close", (code, signal) => {
      clearInterval(asking);
      resolve({ code, signal, complaints });
    });
  });
}

/** Everything that a run has written beside its output, by what follows the output's own name. */
function written(output: string): Record<string, string> {
  const stem = path.basename(output).replace(/\.\w+$/u, "");
  const files = readdirSync(folder).filter((name) => name.startsWith(`${stem}.`));
  return Object.fromEntries(files.map((name) => [name.slice(stem.length), readFileSync(at(name), "utf8")]));
}

describe("audit by several threads", () => {
  let alone: Record<string, string>;

  beforeAll(async () => {
    if (!existsSync(COMMAND)) throw new Error("dist/cli is not built; run: npm run build:cli");
    // The demo fleet four times, each time under other names: cells that cannot be read and a history are in it.
    const [header, ...rows] = parse(readFileSync(path.join(__dirname, "../fleet/demo-fleet.csv"))) as string[][];
    const [machine, serial] = [header!.indexOf("Machine"), header!.indexOf("Serial no")];
    const fleet = [1, 2, 3, 4].flatMap((yard) =>
      rows.map((row) =>
        row.map((cell, c) => ((c === machine || c === serial) && cell !== "" ? `${cell} ${yard}` : cell)),
      ),
    );
    writeFileSync(at("fleet.csv"), stringify([header!, ...fleet]));
    expect(await audit(at("one.csv"), 1)).toMatchObject({ code: 0 });
    alone = written("one.csv");
    expect(Object.keys(alone).sort()).toEqual([".csv", ".not-understood.csv", ".noticed.csv", ".trends.csv"]);
    expect(alone[".csv"]!.split("\n")).toHaveLength(fleet.length + 2);
  });

  it("writes byte for byte what one thread writes", async () => {
    expect(await audit(at("by-two.csv"), 2)).toMatchObject({ code: 0 });
    expect(written("by-two.csv")).toEqual(alone);
  });

  it("goes on after a kill, with another number of threads, and loses and doubles nothing", async () => {
    const output = at("killed.csv");
    const killed = await audit(output, 2, () => existsSync(`${output}.mark`));
    expect(killed.signal).toBe("SIGKILL");
    expect(existsSync(output)).toBe(false);
    const resumed = await audit(output, 1);
    expect(resumed.code).toBe(0);
    expect(resumed.complaints).toMatch(/Going on after [1-9]\d* rows/);
    expect(written("killed.csv")).toEqual(alone);
  });

  it("goes on after a kill while the results were written", async () => {
    const output = at("late.csv");
    // Whether the kill comes before the last file or after it, the next run makes all of them whole.
    await audit(output, 2, () => existsSync(`${output}.noticed.part`));
    expect(await audit(output, 1, undefined, "--force")).toMatchObject({ code: 0 });
    expect(written("late.csv")).toEqual(alone);
  });
});
