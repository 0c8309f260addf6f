import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { withFunctionTable } from "./function-help";
import { describeFunctions } from "./function-metadata";
import { workedExamples } from "./worked-examples";

/** Brings the table of functions in the README up to date: `npm run docs`. */
const file = path.resolve(__dirname, "../../README.md");
const before = readFileSync(file, "utf8");
const after = withFunctionTable(before, describeFunctions(), workedExamples());
if (after !== before) writeFileSync(file, after);
process.stdout.write(after === before ? "README.md is up to date.\n" : "README.md: table of functions written.\n");
