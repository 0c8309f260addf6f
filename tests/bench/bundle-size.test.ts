import { existsSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";

const BUILT = path.resolve(__dirname, "../../dist/addin");

const OPENING: ReadonlySet<string> = new Set(["pane.js", "pane.css", "diagnosis.js"]);

/**
 * What the add-in weighs on its way to Excel, Excel's own library not counted. Ceilings [kB gzip]:
 * the functions load before the first cell shows a value; the pane is weighed with the diagnosis that it
 * cannot judge a job without; what lays out sheets and looks at tables is fetched when asked for.
 */
const CEILINGS: readonly [what: string, belongs: (file: string) => boolean, kilobytes: number][] = [
  ["functions", (file) => file === "functions.js", 100],
  ["diagnosis behind VERDICT, AUDIT and the like", (file) => file === "diagnosis.js", 65],
  ["pane as it opens, with its diagnosis", (file) => OPENING.has(file), 150],
  ["a second language", (file) => file === "spanish.js", 35],
  [
    "what the pane fetches when asked, in one language",
    (file) => file !== "functions.js" && file !== "spanish.js" && !OPENING.has(file),
    50,
  ],
];

describe("size of the add-in", () => {
  for (const [what, belongs, ceiling] of CEILINGS) {
    it(`${what}: at most ${ceiling} kB`, () => {
      if (!existsSync(path.join(BUILT, "addin.html"))) throw new Error("Build the add-in first: npm run build:addin");
      const files = readdirSync(BUILT).filter((file) => /\.(?:js|css)$/u.test(file) && belongs(file));
      expect(files.length).toBeGreaterThan(0);
      const sizes = files.map((file) => gzipSync(readFileSync(path.join(BUILT, file)), { level: 9 }).length / 1000);
      const total = sizes.reduce((sum, size) => sum + size, 0);
      const each = files.map((file, i) => `${file} ${sizes[i]!.toFixed(1)}`).join(", ");
      process.stdout.write(`${what}: ${total.toFixed(1)} kB gzip (${each})\n`);
      expect(total).toBeLessThanOrEqual(ceiling);
    });
  }
});
