import { readFileSync, writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { gzipSync } from "node:zlib";
import { frameOf } from "../core/diagnosis/frame";
import { SINGLES } from "../core/diagnosis/hypotheses";
import { covariates, COVARIATES, FEATURES, runningFeatures } from "../core/diagnosis/running-features";
import { packAll, packComponent } from "../core/diagnosis/signature-codec";
import { jobsFromFile } from "../core/readings/from-job-file";
import { fitMixture } from "./simulation/normal-mixture";
import { Random } from "./simulation/random";

/**
 * Fits the signatures of battery and running readings to simulated jobs and writes them as data.
 *
 *   node -r ./.config/typescript.cjs src/tools/fit-diagnosis.ts --jobs FILE[,FILE] [--components 3] [--seed 7]
 *        [--out src/core/diagnosis/fitted-signatures.ts]
 *
 * The jobs come from simulate-jobs.ts with --whole.
 */
const { values: options } = parseArgs({
  options: {
    jobs: { type: "string" },
    components: { type: "string", default: "3" },
    seed: { type: "string", default: "7" },
    out: { type: "string", default: "src/core/diagnosis/fitted-signatures.ts" },
    origin: { type: "string", default: "" },
  },
});

interface Row {
  readonly name: string;
  readonly x: Float64Array;
}

interface Case {
  readonly truth: { readonly faultId: string; readonly variant: string; readonly regulator: string };
}

/** Jobs that the catalogue refuses (a reading no meter could show) are left out and counted. */
function readRows(path: string): Row[] {
  const { cases } = JSON.parse(readFileSync(path, "utf8")) as { cases: Case[] };
  let refused = 0;
  const read = cases.flatMap((one): Row[] => {
    const jobs = jobsFromFile([one]);
    if (!jobs.ok) {
      refused += 1;
      return [];
    }
    const { job } = jobs.value[0]!;
    const { faultId, variant, regulator } = one.truth;
    const fault = faultId.replaceAll("_", "-");
    const hypothesis =
      SINGLES.find((h) => h.fault === fault && h.variant === variant) ?? SINGLES.find((h) => h.fault === fault)!;
    const frame = frameOf(job);
    return [
      {
        name: `${hypothesis.running}|${regulator}`,
        x: Float64Array.from([...covariates(frame), ...runningFeatures(job, frame)]),
      },
    ];
  });
  console.error(`${path}: ${read.length} jobs, ${refused} refused by the catalogue`);
  return read;
}

const rows = options.jobs!.split(",").flatMap(readRows);
const coordinates = [...COVARIATES, ...FEATURES];
const n = coordinates.length;
const centre = coordinates.map((_, i) => median(rows.map((r) => r.x[i]!).filter((v) => !Number.isNaN(v))));
const scale = coordinates.map((_, i) =>
  Math.sqrt(
    rows.reduce((sum, r) => (Number.isNaN(r.x[i]!) ? sum : sum + (r.x[i]! - centre[i]!) ** 2), 0) / rows.length,
  ),
);
const random = new Random(Number(options.seed));

// A reading that is only taken on some jobs (after recharging) is filled in from its sisters.
const RECHARGED = coordinates.indexOf("recharged-rest");
fillFromSisters(rows, RECHARGED, random);

const names = [...new Set(rows.map((r) => r.name))].sort();
const floor = Float64Array.from(scale.map((s) => s * 0.012));
const chunks: Uint8Array[] = [];
const counts = new Map<string, { series: number; shunt: number }>();
for (const name of names) {
  const own = rows.filter((r) => r.name === name).map((r) => r.x);
  const wanted = Math.max(1, Math.min(Number(options.components), Math.floor(own.length / (6 * n))));
  const fitted = fitMixture(own, wanted, floor, random);
  const [running, kind] = name.split("|") as [string, "series" | "shunt"];
  counts.set(running, { series: 0, shunt: 0, ...counts.get(running), [kind]: fitted.length });
  for (const component of fitted) chunks.push(packComponent(component, component.lower, centre, scale));
  console.error(`${name}: ${own.length} jobs, ${fitted.length} components`);
}

const mixtures = [...counts].map(([running, { series, shunt }]) => [running, series, shunt] as const);
const { wide, data } = packAll(Buffer.concat(chunks), n);
const short = (list: readonly number[]) => `[${list.map((v) => Number(v.toPrecision(6))).join(", ")}]`;
writeFileSync(
  options.out,
  `import type { PackedSignatures } from "./signature-codec";

/**
 * Made by src/tools/fit-diagnosis.ts; not to be edited by hand. ${options.origin}
 * ${rows.length} simulated jobs, at most ${options.components} components a signature, fitting seed ${options.seed}.
 */
export const FITTED_SIGNATURES: PackedSignatures = {
  coordinates: ${JSON.stringify(coordinates)},
  covariates: ${COVARIATES.length},
  centre: ${short(centre)},
  scale: ${short(scale)},
  mixtures: ${JSON.stringify(mixtures)},
  wide: "${wide}",
  data: "${data}",
};
`,
);
console.error(`${chunks.length} components, ${data.length} letters, ${gzipSync(Buffer.from(data)).length} bytes gzip`);

function median(list: number[]): number {
  const sorted = list.sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

function fillFromSisters(all: readonly Row[], coordinate: number, source: Random): void {
  const pools = new Map<string, number[]>();
  for (const { name, x } of all)
    if (!Number.isNaN(x[coordinate]!)) pools.set(name, [...(pools.get(name) ?? []), x[coordinate]!]);
  for (const { name, x } of all) if (Number.isNaN(x[coordinate]!)) x[coordinate] = source.pick(pools.get(name) ?? [0]);
}
