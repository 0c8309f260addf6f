import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";

/**
 * What the add-in weighs on its way to Excel, Excel's own library not counted. Ceilings [kB gzip]:
 * the functions load before the first cell shows a value, the pane before it can be used; the
 * diagnosis is fetched by whichever asks for it first, so the pane is weighed with it.
 */
const CEILINGS: readonly [what: string, files: readonly string[], kilobytes: number][] = [
  ["functions", ["functions.js"], 100],
  ["diagnosis behind VERDICT, AUDIT and the like", ["diagnosis.js"], 60],
  ["pane with its diagnosis", ["pane.js", "pane.css", "diagnosis.js"], 150],
];

const BUILT = path.resolve(__dirname, "../../dist/addin");

describe("size of the add-in", () => {
  for (const [what, files, ceiling] of CEILINGS) {
    it(`${what}: at most ${ceiling} kB`, () => {
      if (!existsSync(path.join(BUILT, "addin.html"))) throw new Error("Build the add-in first: npm run build:addin");
      const sizes = files.map((file) => gzipSync(readFileSync(path.join(BUILT, file)), { level: 9 }).length / 1000);
      const total = sizes.reduce((sum, size) => sum + size, 0);
      process.stdout.write(
        `${what}: ${total.toFixed(1)} kB gzip (${files.map((file, i) => `${file} ${sizes[i]!.toFixed(1)}`).join(", ")})\n`,
      );
      expect(total).toBeLessThanOrEqual(ceiling);
    });
  }
});
