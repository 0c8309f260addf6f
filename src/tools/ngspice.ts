import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { ChargingSystem, Conditions } from "../core/circuit/types";
import { MEASURES, netlist, TOLERANCES, type Measure, type RunWindow } from "./ngspice-netlist";

/** Means of one run, with the time that ngspice took. */
export type Simulated = Readonly<Record<Measure, number>> & { readonly wallMs: number };

/** True where ngspice is installed (Debian: `apt-get install ngspice`). */
export function ngspiceInstalled(): boolean {
  return spawnSync("ngspice", ["--version"], { stdio: "ignore" }).status === 0;
}

/** One run; `null` where ngspice does not get through at any of its settings. */
export function simulate(system: ChargingSystem, at: Conditions, startAmps: number, run: RunWindow): Simulated | null {
  const folder = mkdtempSync(join(tmpdir(), "charging-circuit-"));
  try {
    for (const how of TOLERANCES) {
      const file = join(folder, "circuit.cir");
      writeFileSync(file, netlist(system, at, startAmps, run, how));
      const started = process.hrtime.bigint();
      const { stdout, stderr } = spawnSync("ngspice", ["-b", file], { encoding: "utf8" });
      const wallMs = Number(process.hrtime.bigint() - started) / 1e6;
      if (/aborted|too small/u.test(stdout + stderr)) continue;
      const found = MEASURES.map((name) => new RegExp(`^${name}\\s*=\\s*([-+0-9.e]+)`, "imu").exec(stdout)?.[1]);
      if (found.some((text) => text === undefined)) continue;
      return {
        ...(Object.fromEntries(MEASURES.map((name, k) => [name, Number(found[k])])) as Record<Measure, number>),
        wallMs,
      };
    }
    return null;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
