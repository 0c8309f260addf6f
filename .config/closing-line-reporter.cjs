const closingLine = require("./closing-line.cjs");

/** The closing line of one run of Jest. */
module.exports = class ClosingLineReporter {
  onRunComplete(_contexts, results) {
    closingLine(results);
  }
};
