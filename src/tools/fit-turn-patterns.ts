import { writeFileSync } from "node:fs";
import { parseArgs } from "node:util";
import { specimen } from "./simulation/faulty-system";
import { drawMachine, WIDE } from "./simulation/machine";
import { noLoadVolts } from "./simulation/no-load";
import { Random } from "./simulation/random";

/**
 * How shorted turns show in the no-load AC of the three pairs: draws damaged stators, solves them by
 * phasors and gathers them into a few typical patterns per size and connection.
 *
 *   node -r ./.config/typescript.cjs src/tools/fit-turn-patterns.ts [--draws 6000] [--seed 5] [--patterns 7]
 *        [--out src/core/diagnosis/turn-patterns.ts]
 */
const { values: options } = parseArgs({
  options: {
    draws: { type: "string", default: "6000" },
    seed: { type: "string", default: "5" },
    patterns: { type: "string", default: "7" },
    out: { type: "string", default: "src/core/diagnosis/turn-patterns.ts" },
  },
});

type Point = readonly [number, number, number];
const random = new Random(Number(options.seed));
const groups = new Map<string, Point[]>();
for (let i = 0; i < Number(options.draws); i++) {
  const made = specimen(drawMachine(random, WIDE), ["stator-turns-shorted"], random);
  const short = made.system.alternator.turnShort!;
  const rpm = made.machine.noLoadRpm * random.between(0.97, 1.03);
  const sound = (made.machine.emfPerKrpm * rpm) / 1000;
  const volts = noLoadVolts(made, rpm);
  // Turned so that the damaged winding is A.
  const log = (pair: number) => Math.log(volts[(pair + short.winding) % 3]! / sound);
  const key = `turns-${made.variant} ${made.machine.connection}`;
  groups.set(key, [...(groups.get(key) ?? []), [log(0), log(1), log(2)]]);
}

const table: Record<string, Record<string, readonly (readonly number[])[]>> = {};
for (const [key, points] of [...groups].sort(([a], [b]) => a.localeCompare(b))) {
  const [state, connection] = key.split(" ") as [string, string];
  table[state] = { ...table[state], [connection]: gather(points, Number(options.patterns)) };
  console.error(`${key}: ${points.length} stators`);
}

writeFileSync(
  options.out,
  `/**
 * Made by src/tools/fit-turn-patterns.ts; not to be edited by hand. ${options.draws} damaged stators, seed ${options.seed}.
 *
 * Winding A has shorted turns: natural logarithm of AB, BC, CA against a sound stator, the pattern's
 * share, and the spread within it.
 */
export type TurnPattern = readonly [ab: number, bc: number, ca: number, share: number, spread: number];

export const TURN_PATTERNS: Readonly<Record<"turns-few" | "turns-some" | "turns-many", Readonly<Record<"delta" | "wye", readonly TurnPattern[]>>>> = ${JSON.stringify(
    table,
    null,
    2,
  )
    .replaceAll(
      /\[\s+(-?[\d.e-]+),\s+(-?[\d.e-]+),\s+(-?[\d.e-]+),\s+(-?[\d.e-]+),\s+(-?[\d.e-]+)\s+\]/gu,
      "[$1, $2, $3, $4, $5]",
    )
    .replaceAll(/"(delta|wye)"/gu, "$1")};
`,
);

/** Plain k-means from spread-out starts. */
function gather(points: readonly Point[], count: number): readonly (readonly number[])[] {
  const far = (a: Point, b: Point) => (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2;
  let centres: Point[] = Array.from(
    { length: count },
    (_, i) => points[Math.floor(((i + 0.5) * points.length) / count)]!,
  );
  let of: number[] = [];
  for (let round = 0; round < 40; round++) {
    of = points.map((p) => centres.reduce((best, c, i) => (far(p, c) < far(p, centres[best]!) ? i : best), 0));
    centres = centres.map((c, i) => {
      const own = points.filter((_, k) => of[k] === i);
      const mean = (axis: 0 | 1 | 2) => own.reduce((sum, p) => sum + p[axis], 0) / own.length;
      return own.length === 0 ? c : [mean(0), mean(1), mean(2)];
    });
  }
  return centres
    .map((c, i) => {
      const own = points.filter((_, k) => of[k] === i);
      const spread = Math.sqrt(own.reduce((sum, p) => sum + far(p, c), 0) / Math.max(1, 3 * own.length));
      return [
        ...c.map((v) => Number(v.toFixed(4))),
        Number((own.length / points.length).toFixed(4)),
        Number(Math.max(spread, 0.003).toFixed(4)),
      ];
    })
    .filter((row) => row[3]! > 0);
}
