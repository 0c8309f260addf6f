import type { Block, Cell } from "../../core/cell";
import { issueWords } from "../../core/fleet/issue-words";
import { textIn } from "../../core/readings/catalogue";
import { eachJobOfTable } from "../../core/readings/from-cells";
import type { Job } from "../../core/readings/types";
import { readTables, tableFiles } from "../../hosts/table/read-tables";
import { InputFault } from "../command";
import type { Complaint } from "./audit-chunk";
import type { PartFile } from "./part-file";

/** A table that rows are judged with, whole, and what of it could not be used. */
export interface DataTable {
  readonly cells: Block;
  readonly complaints: readonly Complaint[];
}

/** Reads machine data or known-good parts; a blank table where no file was named. */
export async function dataTable(file: string | undefined): Promise<DataTable> {
  if (file === undefined) return { cells: [[""]], complaints: [] };
  if (tableFiles(file)[0] !== file) throw new InputFault(`"${file}" is a folder; name the one file that is meant.`);
  const cells: (readonly Cell[])[] = [];
  const places: number[] = [0];
  for await (const { header, rows, firstRow } of readTables([file])) {
    if (cells.length === 0) cells.push(header);
    cells.push(...rows);
    places.push(...rows.map((_, i) => firstRow + i));
  }
  return { cells, complaints: cells.length > 0 ? complaintsOf(file, cells, places) : [] };
}

function complaintsOf(file: string, cells: Block, places: readonly number[]): readonly Complaint[] {
  const complaints: Complaint[] = [];
  const label = (column: number) => String(cells[0]![column] ?? "").trim();
  const names = new Set<string>();
  let first = true;
  for (const { row, job, issues } of eachJobOfTable(cells)) {
    for (const issue of issues) {
      const fault = issue.kind === "fault";
      // What is said of the headers comes with every row.
      if (!fault && !first) continue;
      complaints.push({
        file,
        row: fault ? places[row]! : 0,
        column: label(issue.column),
        what: issueWords(issue),
      });
    }
    first = false;
    const name = nameOf(job);
    if (name !== "" && names.has(name.toLowerCase()))
      complaints.push({
        file,
        row: places[row]!,
        column: "",
        what: `"${name}" comes again; of its rows the last counts.`,
      });
    names.add(name.toLowerCase());
  }
  return complaints;
}

const nameOf = (job: Job) => textIn(job, "machine-name") ?? "";

/** So many are said one by one. */
const MOST_SAID = 5;

/** What of these tables could not be used, for whoever waits for the audit; all of it is listed. */
export function saidOf(complaints: readonly Complaint[]): readonly string[] {
  const ofRows = complaints.filter(({ row }) => row > 0);
  const said = ofRows.slice(0, MOST_SAID).map(({ file, row, what }) => `"${file}", row ${row}: ${what}`);
  return ofRows.length > MOST_SAID ? [...said, `… and ${ofRows.length - MOST_SAID} more, all of them listed.`] : said;
}

/** Who was judged without machine data, and whose data served nobody: names are easily spelt in two ways. */
export async function unmatched(part: PartFile, machines: ReadonlyMap<string, Job>): Promise<readonly string[]> {
  if (machines.size === 0) return [];
  const without = new Map<string, string>();
  const met = new Set<string>();
  for await (const { machine } of part.readRows()) {
    const key = machine.toLowerCase();
    if (key === "") continue;
    met.add(key);
    if (!machines.has(key)) without.set(key, machine);
  }
  const unused = [...machines].filter(([key]) => !met.has(key)).map(([, job]) => nameOf(job));
  const such = (names: readonly string[]) =>
    `${names
      .slice(0, 3)
      .map((name) => `"${name}"`)
      .join(", ")}${names.length > 3 ? " …" : ""}`;
  return [
    ...(without.size > 0
      ? [`Without machine data: ${without.size} of ${met.size} machines, ${such([...without.values()])}.`]
      : []),
    ...(unused.length > 0
      ? [`Machine data that no row asked for: ${unused.length} of ${machines.size}, ${such(unused)}.`]
      : []),
  ];
}
