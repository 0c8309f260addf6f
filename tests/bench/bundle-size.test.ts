import { existsSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { gzipSync } from "node:zlib";

const BUILT = path.resolve(__dirname, "../../dist/addin");

const OPENING: ReadonlySet<string> = new Set(["pane.js", "pane.css", "diagnosis.js", "steps.js"]);
/** Words, one file a language, of the counter, of new sheets and of what a workbook refuses. */
const ASKED: ReadonlySet<string> = new Set(["counter", "sheets", "hosts"]);
const opensIn = (language: "english" | "spanish") => (file: string) =>
  OPENING.has(file) || file === `${language}.js` || file === `phrases-${language}.js`;
/** What the audit of a long table alone asks for: the code of its threads, which share no file with the page. */
const LONG_AUDIT: ReadonlySet<string> = new Set(["long-audit.js", "audit-worker.js"]);
/** What a fleet's table shows as a history, which no pane asks for. */
const NOTICES = "notices.js";
const askedIn = (language: "english" | "spanish") => (file: string) =>
  file !== "functions.js" &&
  !OPENING.has(file) &&
  !LONG_AUDIT.has(file) &&
  file !== NOTICES &&
  (!LANGUAGE.test(file) || ASKED.has(file.replace(`-${language}.js`, "")));
/** What a cell that asks for its sentences in Spanish fetches; the pane shares the greater part. */
const SPANISH_CELLS: ReadonlySet<string> = new Set(["phrases-spanish.js", "cells-spanish.js"]);
const LANGUAGE = /(?:english|spanish)\.js$/u;

/**
 * What the add-in weighs on its way to Excel, Excel's own library not counted. Ceilings [kB gzip]:
 * the functions load before the first cell shows a value; the pane is weighed with the diagnosis that it
 * cannot judge a job without, and in either language; what lays out sheets, looks at tables and serves the
 * counter is fetched when asked for.
 */
const CEILINGS: readonly [what: string, belongs: (file: string) => boolean, kilobytes: number][] = [
  ["functions", (file) => file === "functions.js", 100],
  ["diagnosis behind VERDICT, AUDIT and the like", (file) => file === "diagnosis.js", 65],
  ["threads of a long table's AUDIT", (file) => LONG_AUDIT.has(file), 65],
  ["history of a fleet behind NOTICES", (file) => file === NOTICES, 15],
  ["sentences of functions in Spanish", (file) => SPANISH_CELLS.has(file), 22],
  ["pane as it opens in English, with its diagnosis", opensIn("english"), 150],
  ["pane as it opens in Spanish, with its diagnosis", opensIn("spanish"), 150],
  ["what the pane fetches when asked, in English", askedIn("english"), 50],
  ["what the pane fetches when asked, in Spanish", askedIn("spanish"), 50],
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
