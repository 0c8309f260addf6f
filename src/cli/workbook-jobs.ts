import path from "node:path";
import type { FiledJob } from "../core/readings/from-job-file";
import { faultMessage } from "../core/result";
import { readWorkbook, valuesOf } from "../hosts/file/read-workbook";
import { cellName, sheetPrefix } from "../workbook/address";
import { locateReadings, readJobSheet } from "../workbook/job-sheet";
import { InputFault } from "./command";
import { readBytes } from "./output-file";
import { asInputFault } from "./workbook-fault";

/** Jobs of a workbook, and the cells of them that could not be read. */
export interface WorkbookJobs {
  readonly jobs: readonly FiledJob[];
  readonly complaints: readonly string[];
}

/** Every sheet of a workbook that is one machine's job, read with the values that the file holds. */
export function jobsOfWorkbook(file: string): WorkbookJobs {
  const jobs: FiledJob[] = [];
  const complaints: string[] = [];
  for (const sheet of sheetsOf(file)) {
    const values = valuesOf(sheet);
    const place = locateReadings(values);
    if (!place) continue;
    const { job, faults } = readJobSheet(values, place.cells);
    jobs.push({ id: sheet.name, job });
    for (const [id, fault] of faults) {
      const { row, column } = place.cells.get(id)!;
      complaints.push(`${sheetPrefix(sheet.name)}${cellName(row, column)}: ${faultMessage(fault)}`);
    }
  }
  if (jobs.length === 0)
    throw new InputFault(
      `no sheet of "${file}" is one machine's job, with labels such as Rested voltage in a column and the readings beside them; for a table of machines, use: audit ${file} -o result.xlsx.`,
    );
  return { jobs, complaints };
}

function sheetsOf(file: string) {
  try {
    return readWorkbook(readBytes(file), path.basename(file)).sheets;
  } catch (error) {
    throw asInputFault(error);
  }
}
