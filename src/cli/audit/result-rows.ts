import { isoDate } from "../../core/fleet/dates";
import { RiskRanking } from "../../core/fleet/risk-order";
import { LatestVisits } from "./latest-visits";
import type { PartFile } from "./part-file";
import type { Ordered, Ranked } from "./summary";

export const RESULT_COLUMNS = [
  "File",
  "Row",
  "Machine",
  "Date",
  "Part",
  "State",
  "Chance",
  "Next check",
  "Days until flat",
  "Order",
  "Verdict",
] as const;
export const COMPLAINT_COLUMNS = ["File", "Row", "Column", "What"] as const;

/** Results in the order of the input; read from the part file twice. */
export async function* rankedRows(part: PartFile): AsyncGenerator<Ranked> {
  const ranking = new RiskRanking();
  const visits = new LatestVisits();
  for await (const row of part.readRows()) {
    ranking.add(row);
    visits.add(row);
  }
  const order = ranking.order();
  const latest = visits.marks();
  let i = 0;
  for await (const row of part.readRows()) {
    yield { row: { ...row, order: order[i]! }, latest: latest[i] === 1 };
    i += 1;
  }
}

export function resultCells(row: Ordered): (string | number)[] {
  const rounded = (value: number | null, digits: number) => (value === null ? "" : Number(value.toFixed(digits)));
  return [
    row.file,
    row.row,
    row.machine,
    row.day === null ? "" : isoDate(row.day),
    row.part,
    row.state,
    rounded(row.chance, 4),
    row.nextCheck,
    rounded(row.days, 1),
    row.order,
    row.sentence,
  ];
}

export async function* complaintRows(part: PartFile): AsyncGenerator<(string | number)[]> {
  for await (const { file, row, column, what } of part.readComplaints())
    yield [file, row === 0 ? "header" : row, column, what];
}
