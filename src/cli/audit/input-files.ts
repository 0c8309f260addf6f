import { readFileSync } from "node:fs";
import path from "node:path";
import { openPackage } from "../../hosts/file/open-package";
import { leftInFolder, readTables, tableFiles } from "../../hosts/table/read-tables";
import { NotATable } from "../../hosts/table/table-chunk";
import { InputFault } from "../command";
import type { Complaint } from "./audit-chunk";
import { RESULT_COLUMNS } from "./result-rows";
import { LISTS } from "./text-file";
import { RESULTS_TABLE } from "./write-workbook";

/** The tables to audit, and what else lies in their folder. */
export interface InputFiles {
  readonly files: readonly string[];
  /** What holds no table of a fleet, or is not read. */
  readonly complaints: readonly Complaint[];
  /** What earlier audits wrote. */
  readonly results: readonly string[];
}

/**
 * Parts a folder's tables from what is none, before any row is audited. A file that is named itself is taken at its word.
 *
 * @throws WorkbookFault where nothing can be audited, InputFault where a table would be written over
 */
export async function inputFiles(given: string, outputs: readonly string[]): Promise<InputFiles> {
  const found = tableFiles(given);
  const files: string[] = [];
  const left = leftInFolder(given);
  const complaints: Complaint[] = [
    ...left.folders.map((file) => notRead(file, "a folder in the folder; it was not looked into")),
    ...left.files.map((file) => notRead(file, "a spreadsheet of another kind; save it as .xlsx to have it read")),
  ];
  const results: string[] = [];
  let fault: NotATable | undefined;
  for (const file of found) {
    const what = file === given ? "a table" : await kindOf(file);
    if (what === "a table") files.push(file);
    else if (what === "results") results.push(file);
    else {
      fault ??= what;
      complaints.push(notRead(file, "no table of a fleet: no header row is understood; left out"));
    }
  }
  if (files.length === 0) throw fault ?? new InputFault(`The folder "${given}" holds nothing but results of audits.`);
  for (const output of outputs) {
    if (files.some((file) => path.resolve(file) === path.resolve(output)))
      throw new InputFault(`"${output}" is a table to audit, and would be written over; choose another name.`);
  }
  return { files, complaints, results };
}

function notRead(file: string, what: string): Complaint {
  return { file, row: 0, column: "", what };
}

async function kindOf(file: string): Promise<"a table" | "results" | NotATable> {
  if (LISTS.some((name) => file.endsWith(`.${name}.csv`))) return "results";
  if (/\.xlsx$/iu.test(file) && holdsResults(file)) return "results";
  try {
    for await (const { header } of readTables([file]))
      return header.join() === RESULT_COLUMNS.join() ? "results" : "a table";
    return "a table";
  } catch (error) {
    if (error instanceof NotATable) return error;
    throw error;
  }
}

function holdsResults(file: string): boolean {
  const parts = openPackage(
    readFileSync(file),
    file,
    (part) => !part.includes("/worksheets/") && !part.includes("Strings"),
  );
  const text = new TextDecoder();
  return [...parts].some(
    ([part, bytes]) => part.includes("/tables/") && text.decode(bytes).includes(`name="${RESULTS_TABLE}"`),
  );
}
