import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fleetRows } from "../bench/fleet-rows";

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
function audit(output: string, threads: number, stopWhen?: () => boolean): Promise<Ended> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [COMMAND, "audit", at("fleet.csv"), "-o", output, "--threads", `${threads}`]);
    let complaints = "";
    child.stderr.on("data", (data: Buffer) => (complaints += data.toString()));
    const asking = stopWhen && setInterval(() => stopWhen() && child.kill("SIGKILL"), 5);
    child.on("close", (code, signal) => {
      clearInterval(asking);
      resolve({ code, signal, complaints });
    });
  });
}

describe("audit by several threads", () => {
  beforeAll(async () => {
    if (!existsSync(COMMAND)) throw new Error("dist/cli is not built; run: npm run build:cli");
    writeFileSync(
      at("fleet.csv"),
      fleetRows(8000, 500)
        .map((row) => row.join(","))
        .join("\n"),
    );
    expect(await audit(at("one.csv"), 1)).toMatchObject({ code: 0 });
  });

  it("writes byte for byte what one thread writes", async () => {
    const output = at("by-two.csv");
    expect(await audit(output, 2)).toMatchObject({ code: 0 });
    expect(readFileSync(output, "utf8")).toBe(readFileSync(at("one.csv"), "utf8"));
  });

  it("goes on after a kill, with another number of threads, and loses and doubles nothing", async () => {
    const output = at("killed.csv");
    const killed = await audit(output, 2, () => existsSync(`${output}.mark`));
    expect(killed.signal).toBe("SIGKILL");
    expect(existsSync(output)).toBe(false);
    const resumed = await audit(output, 1);
    expect(resumed.code).toBe(0);
    expect(resumed.complaints).toMatch(/Going on after [1-9]\d* rows/);
    expect(readFileSync(output, "utf8")).toBe(readFileSync(at("one.csv"), "utf8"));
    expect(existsSync(`${output}.part`) || existsSync(`${output}.mark`)).toBe(false);
  });
});
