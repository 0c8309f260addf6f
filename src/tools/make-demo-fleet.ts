import { writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { stringify } from "csv-stringify/sync";
import { demoFleet } from "./demo-fleet/demo-fleet";

/**
 * Writes the demo fleet of an invented yard as a text table, and what was planted in it.
 *
 *   node -r ./.config/typescript.cjs src/tools/make-demo-fleet.ts --out FILE.csv [--planted FILE.json]
 *        [--machines 40] [--years 3] [--seed 20]
 */
function run(): void {
  const { values } = parseArgs({
    options: {
      out: { type: "string" },
      planted: { type: "string" },
      machines: { type: "string", default: "40" },
      years: { type: "string", default: "3" },
      seed: { type: "string", default: "20" },
    },
  });
  const [machines, years, seed] = [values.machines, values.years, values.seed].map(Number) as [number, number, number];
  if (values.out === undefined || !(machines >= 1) || !(years >= 1) || !Number.isInteger(seed))
    throw new Error("--out FILE.csv, --machines and --years from 1 up, --seed a whole number.");
  const fleet = demoFleet({ seed, machines, years });
  writeFileSync(values.out, stringify([[...fleet.header], ...fleet.rows.map((row) => [...row])]));
  if (values.planted !== undefined)
    writeFileSync(values.planted, `[\n${fleet.planted.map((one) => JSON.stringify(one)).join(",\n")}\n]\n`);
}

if (require.main === module) run();
