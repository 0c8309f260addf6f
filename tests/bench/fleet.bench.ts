import { cpus } from "node:os";
import { verdictFor, weighAll } from "../../src/core/diagnosis/diagnose";
import { bestCheckLabel, nextChecks } from "../../src/core/diagnosis/next-check";
import { machinesFromCells } from "../../src/core/fleet/audit-cells";
import { eachJobOfTable, jobsFromTable, mergeJobs } from "../../src/core/readings/from-cells";
import type { Job } from "../../src/core/readings/types";
import { audit } from "../../src/functions/fleet";
import { fleetRows, machineRows } from "./fleet-rows";

/**
 * What a row of a fleet's audit costs, and what each column of it does: microseconds of processor time
 * and, since machines differ, ratios to a plain sum of products on the same machine. Prints, and judges
 * nothing.
 *
 *   node -r ./.config/typescript.cjs tests/bench/fleet.bench.ts [rows]
 */
const count = Number(process.argv[2] ?? 10_000);
const TYPES = 12;

function processorTime(work: () => void): number {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return user + system;
}

const table = fleetRows(count, TYPES);
const machineTable = machineRows(TYPES);
const machines = machinesFromCells(machineTable);
const jobs: readonly Job[] = jobsFromTable(table).map(({ job }) => {
  const name = job.get("machine-name");
  return mergeJobs(machines.get(name?.kind === "text" ? name.value.toLowerCase() : "") ?? new Map(), job);
});

/** A sum of a thousand products: what the times are measured against [µs]. */
function yardstick(): number {
  const a = Float64Array.from({ length: 100 }, (_, i) => 1 / (i + 1));
  let sum = 0;
  const rounds = 100_000;
  const time = processorTime(() => {
    for (let r = 0; r < rounds; r++) for (let i = 0; i < a.length; i++) sum += a[i]! * a[99 - i]!;
  });
  if (!Number.isFinite(sum)) throw new Error("the yardstick has run away");
  return (time / rounds) * 10;
}

const each = (work: (job: Job) => unknown) => () => jobs.forEach(work);
const parts: readonly (readonly [string, () => void])[] = [
  ["reading the cells", () => [...eachJobOfTable(table)].length],
  ["weighing the readings", each((job) => weighAll(job, {}))],
  ["verdict with its sentence", each((job) => verdictFor(job))],
  ["verdict and name of the next check", each((job) => bestCheckLabel(weighAll(job, {})))],
  ["all next checks with their words", each((job) => nextChecks(job))],
  ["row of the audit in a worksheet call", () => audit(table, machineTable)],
];

audit(fleetRows(2000, TYPES), machineTable);
const yard = yardstick();
console.log(`${count} rows, ${cpus()[0]?.model ?? "unknown processor"}; a yardstick is a sum of 1000 products`);
for (const [name, work] of parts) {
  const perRow = processorTime(work) / count;
  console.log(
    `${name.padEnd(38)} ${perRow.toFixed(1).padStart(8)} µs a row ${(perRow / yard).toFixed(2).padStart(6)} yardsticks`,
  );
}
