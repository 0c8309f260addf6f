const fs = require("node:fs");
const path = require("node:path");

/** Closes a run with one plain line, `N passed, N failed`, and leaves it where CI picks it up. */
module.exports = class ClosingLine {
  onRunComplete(_contexts, results) {
    const failed = results.numFailedTests + results.numRuntimeErrorTestSuites;
    const skipped = results.numPendingTests + results.numTodoTests;
    const line = `${results.numPassedTests} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`;
    const folder = path.join(__dirname, "..", ".cache");
    fs.mkdirSync(folder, { recursive: true });
    fs.writeFileSync(path.join(folder, "closing-line"), `${line}\n`);
    process.stdout.write(`\n${line}\n`);
  }
};
