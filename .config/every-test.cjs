/**
 * Runs every test: those without a browser on all cores, then those in a browser one file at a time,
 * for a page that shares its cores with another test answers late.
 */
const os = require("node:os");
const path = require("node:path");
const { runCLI } = require("jest");
const closingLine = require("./closing-line.cjs");

const root = path.join(__dirname, "..");
const config = path.join(__dirname, "jest.config.cjs");
const BROWSER = "/tests/browser/";

async function main() {
  const runs = [];
  for (const part of [
    { testPathIgnorePatterns: ["/node_modules/", BROWSER], maxWorkers: os.availableParallelism() },
    { testPathPatterns: [BROWSER], runInBand: true },
  ]) {
    runs.push((await runCLI({ ...part, config, _: [], $0: "jest" }, [root])).results);
  }
  closingLine(...runs);
  process.exit(runs.every(({ success }) => success) ? 0 : 1);
}

void main();
