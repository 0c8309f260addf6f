const fs = require("node:fs");
const path = require("node:path");

/** Closes a run with one plain line, `N passed, N failed`, and leaves it where CI picks it up. */
module.exports = function closingLine(...runs) {
  const sum = (count) => runs.reduce((total, results) => total + count(results), 0);
  const passed = sum((results) => results.numPassedTests);
  const failed = sum((results) => results.numFailedTests + results.numRuntimeErrorTestSuites);
  const skipped = sum((results) => results.numPendingTests + results.numTodoTests);
  const line = `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`;
  const folder = path.join(__dirname, "..", ".cache");
  fs.mkdirSync(folder, { recursive: true });
  fs.writeFileSync(path.join(folder, "closing-line"), `${line}\n`);
  process.stdout.write(`\n${line}\n`);
};
