import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";

export const ROOT = path.resolve(__dirname, "../..");
const SKIPPED = new Set(["node_modules", "dist", "coverage", ".cache", ".git"]);

/** Every file of the project below a folder, by its path from the root. */
export function filesBelow(folder = ".", ends?: RegExp): string[] {
  return readdirSync(path.join(ROOT, folder), { withFileTypes: true })
    .filter((entry) => !SKIPPED.has(entry.name))
    .flatMap((entry) => {
      const name = path.posix.join(folder, entry.name);
      if (entry.isDirectory()) return filesBelow(name, ends);
      return ends === undefined || ends.test(name) ? [name] : [];
    })
    .sort();
}

export function textOf(file: string): string {
  return readFileSync(path.join(ROOT, file), "utf8");
}

/** Where a pattern stands in a text: `line: what stands there`. */
export function linesWith(text: string, pattern: RegExp): string[] {
  return text.split("\n").flatMap((line, i) => (pattern.test(line) ? [`${i + 1}: ${line.trim().slice(0, 120)}`] : []));
}
