import type { ProofOutcome } from "../core/diagnosis/proof";
import { faultOf } from "../core/diagnosis/faults";
import { freeSheetName } from "../workbook/free-sheet-name";
import type { Step, Workbook } from "../workbook/port";
import { dayOf } from "../workbook/visits-sheet";
import type { Assessment } from "./assess";
import type { OpenJob } from "./open-job";
import type { TicketWords } from "./words/ticket-english";

/** One line of the ticket: a title, a heading, a sentence, or a name with what belongs to it. */
export interface TicketLine {
  readonly kind: "title" | "heading" | "sentence" | "pair";
  readonly text: string;
  readonly value?: string;
}

/** How the readings after the repair came out, as far as a customer wants to know. */
const REPAIR: Readonly<Record<ProofOutcome, "proven" | "notCured" | undefined>> = {
  repaired: "proven",
  "not repaired": "notCured",
  "something new": "notCured",
  unproven: undefined,
};

/**
 * What the customer reads: the finding with how sure it is, part by part, and what comes next. It
 * promises no more than the verdict does: a part that is not proven is not sold.
 */
export function ticketLines(
  open: OpenJob,
  assessment: Assessment,
  repaired: ProofOutcome | undefined,
  words: TicketWords,
): readonly TicketLine[] {
  const outcome = repaired && REPAIR[repaired];
  const cell = (id: string) => String(open.before.typed.get(id) ?? "").trim();
  const pair = (text: string, value: string): TicketLine[] => (value === "" ? [] : [{ kind: "pair", text, value }]);
  const heading = (text: string): TicketLine => ({ kind: "heading", text });
  const sentence = (text: string): TicketLine => ({ kind: "sentence", text });
  return [
    { kind: "title", text: words.title },
    ...pair(words.job, cell("job-number")),
    ...pair(words.customer, cell("customer")),
    ...pair(words.machine, cell("machine-name")),
    ...pair(words.date, dayOf(open.before.typed.get("visit-date"))),
    ...pair(words.complaint, cell("complaint")),
    heading(words.found),
    sentence(findingWords(assessment, words)),
    ...(assessment.explained
      ? [
          heading(words.parts),
          ...assessment.explained.diagnosis.parts.flatMap(({ part, state }) =>
            pair(words.part[part], words.state[state]),
          ),
        ]
      : []),
    heading(words.next),
    sentence(nextWords(assessment, words)),
    ...(outcome === undefined ? [] : [heading(words.proof), sentence(words[outcome])]),
  ];
}

function findingWords({ explained }: Assessment, words: TicketWords): string {
  if (!explained) return words.verdict.nothing;
  const { part, state } = explained.diagnosis.verdict;
  if (part === "none") return state === "serviceable" ? words.verdict.healthy : words.verdict.healthySoFar;
  const verdict = explained.diagnosis.parts.find((other) => other.part === part);
  const fault = verdict ? (words.fault[verdict.fault] ?? faultOf(verdict.fault).label.toLowerCase()) : words.part[part];
  switch (state) {
    case "faulty":
      return words.verdict.faulty(fault);
    case "suspect":
      return words.verdict.suspect(fault);
    default:
      return words.verdict.unproven(fault);
  }
}

function nextWords({ explained, nextChecks }: Assessment, words: TicketWords): string {
  if (explained?.diagnosis.verdict.state === "faulty") return words.repair;
  const next = nextChecks[0];
  return next ? words.nextCheck(next.minutes) : words.nothingMore;
}

/** Writes the ticket on a sheet of its own, laid out to be printed; returns the sheet's name. */
export async function writeTicket(
  workbook: Workbook,
  lines: readonly TicketLine[],
  words: TicketWords,
): Promise<string> {
  // Comes with what lays out templates, which is fetched when it is asked for.
  const sheet = freeSheetName(words.sheet, await workbook.sheetNames());
  const at = (row: number, columns = 2) => ({ sheet, row, column: 0, rows: 1, columns });
  const steps: Step[] = [
    { do: "add sheet", sheet },
    { do: "column width", sheet, column: 0, characters: 32 },
    { do: "column width", sheet, column: 1, characters: 48 },
    {
      do: "write",
      at: { sheet, row: 0, column: 0, rows: lines.length, columns: 2 },
      values: lines.map(({ text, value = "" }) => [text, value]),
    },
  ];
  lines.forEach(({ kind, text }, row) => {
    if (kind === "title") steps.push({ do: "format", at: at(row), format: { bold: true, size: 15, colour: "1F4E5F" } });
    if (kind === "heading")
      steps.push({ do: "format", at: at(row), format: { bold: true, size: 11, border: "bottom" } });
    if (kind === "sentence") {
      steps.push({ do: "merge", at: at(row) }, { do: "format", at: at(row), format: { wrap: true, vertical: "top" } });
      steps.push({ do: "row height", sheet, row, points: 15 * Math.max(1, Math.ceil(text.length / 75)) });
    }
    if (kind === "pair") steps.push({ do: "format", at: { ...at(row, 1), column: 1 }, format: { wrap: true } });
  });
  steps.push({
    do: "print",
    at: { sheet, row: 0, column: 0, rows: lines.length, columns: 2 },
    setup: { orientation: "portrait", fitWidthPages: 1, fitHeightPages: 1 },
  });
  await workbook.apply(steps);
  await workbook.activateSheet(sheet);
  return sheet;
}
