import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { ChargingSystem, Conditions } from "../core/circuit/types";
import { MEASURES, netlist, TOLERANCES, type Measure, type RunWindow } from "./ngspice-netlist";

/** Means of one run, with the processor time that ngspice took. */
export type Simulated = Readonly<Record<Measure, number>> & { readonly cpuMs: number };

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
      // The shell's own count of its children's time stands in the last line.
      const { stdout, stderr } = spawnSync("sh", ["-c", `ngspice -b '${file}'; times`], { encoding: "utf8" });
      if (/aborted|too small/u.test(stdout + stderr)) continue;
      const found = MEASURES.map((name) => new RegExp(`^${name}\\s*=\\s*([-+0-9.e]+)`, "imu").exec(stdout)?.[1]);
      if (found.some((text) => text === undefined)) continue;
      return {
        ...(Object.fromEntries(MEASURES.map((name, k) => [name, Number(found[k])])) as Record<Measure, number>),
        cpuMs: childMilliseconds(stdout),
      };
    }
    return null;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** User and system time of the children, from the output of `times`: `0m1.23s 0m0.04s`. */
function childMilliseconds(output: string): number {
  const last = output.trimEnd().split("\n").at(-1) ?? "";
  let total = 0;
  for (const [, minutes, seconds] of last.matchAll(/(\d+)m([\d.]+)s/gu))
    total += 60_000 * Number(minutes) + 1000 * Number(seconds);
  return total;
}
