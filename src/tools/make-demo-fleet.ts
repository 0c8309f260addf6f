import { closeSync, openSync, writeSync } from "node:fs";
import { parseArgs } from "node:util";
import { stringify } from "csv-stringify/sync";
import { COLUMNS, demoStretches } from "./demo-fleet/demo-fleet";

/**
 * Writes the demo fleet of an invented yard as a text table, and what was planted in it; of any size,
 * since rows are written as they are made.
 *
 *   node -r ./.config/typescript.cjs src/tools/make-demo-fleet.ts --out FILE.csv [--planted FILE.json]
 *        [--machines 40 | --rows 1000000] [--years 3] [--seed 20]
 */
function run(): void {
  const { values } = parseArgs({
    options: {
      out: { type: "string" },
      planted: { type: "string" },
      machines: { type: "string" },
      rows: { type: "string" },
      years: { type: "string", default: "3" },
      seed: { type: "string", default: "20" },
    },
  });
  const rows = Number(values.rows ?? Infinity);
  const machines = Number(values.machines ?? (values.rows === undefined ? 40 : Infinity));
  const [years, seed] = [Number(values.years), Number(values.seed)];
  if (values.out === undefined || !(machines >= 1) || !(rows >= 1) || !(years >= 1) || !Number.isInteger(seed))
    throw new Error("--out FILE.csv, --machines, --rows and --years from 1 up, --seed a whole number.");
  const table = openSync(values.out, "w");
  const planted = values.planted === undefined ? undefined : openSync(values.planted, "w");
  writeSync(table, stringify([[...COLUMNS]]));
  let mark = "[\n";
  for (const stretch of demoStretches({ seed, machines, years, rows })) {
    writeSync(table, stringify(stretch.rows.map((row) => [...row])));
    if (planted === undefined) continue;
    for (const one of stretch.planted) {
      writeSync(planted, mark + JSON.stringify(one));
      mark = ",\n";
    }
  }
  closeSync(table);
  if (planted === undefined) return;
  writeSync(planted, mark === "[\n" ? "[]\n" : "\n]\n");
  closeSync(planted);
}

if (require.main === module) run();
