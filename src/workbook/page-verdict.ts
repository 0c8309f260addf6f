import { CHECKS } from "../core/readings/checks";
import { PARTS } from "../core/readings/types";
import { cellName } from "./address";
import { shownOrNothing } from "./blank-guard";
import { LOOK, PART_COLOURS, PART_STATES } from "./look";
import type { PageArguments } from "./page-arguments";
import { COLUMN, LAST, type PageLayout, type PageSetting } from "./page-layout";
import { linesTogether, type Line } from "./page-lines";
import type { CellFormat } from "./port";
import { stretch, type SheetDraft } from "./sheet-draft";
import { askedIn, saidCell } from "./sheet-language";
import type { PageTemplate } from "./template-schema";

/** What the functions of the verdict answer, in columns. */
const VERDICT = { part: 0, state: 1, chance: 2, sentence: 3, columns: 4 } as const;
const NEXT = { check: 0, minutes: 1, why: 2, columns: 3 } as const;
const WHY = { about: 0, words: 1, columns: 2 } as const;
const CHECK_LABELS = CHECKS.map(({ label }) => label);
const CAUSE = { fault: 0, part: 1, chance: 2, columns: 5 } as const;

const LEFT = COLUMN.state;
const COLUMNS = LAST + 1 - LEFT;

/**
 * Draws the verdict beside the facts: the answer first, the next check, what fits, why. The functions
 * spill into cells at the right of the printed page, where nothing can stand in their way; the page
 * shows them through plain formulas, which may be merged, wrapped and coloured in every host.
 */
export function drawVerdict(
  draft: SheetDraft,
  { template, language }: PageSetting,
  layout: PageLayout,
  args: PageArguments,
): void {
  const { verdict } = template;
  const top = layout.factRows.first;
  const { readings, machine, knownGood } = args;
  const given = askedIn(language, 4, [readings, machine, ...(knownGood === undefined ? [] : [knownGood])]);
  const working = drawWorkings(draft, template, top, given);

  draft.put(top, LEFT, verdict.title).format(stretch(top, LEFT, COLUMNS), LOOK.heading);
  const part = cellName(working.verdict, COLUMN.workings + VERDICT.part);
  const state = cellName(working.verdict, COLUMN.workings + VERDICT.state);
  const chance = cellName(working.verdict, COLUMN.workings + VERDICT.chance);
  let row = top + 1;
  const show = (rows: number, formula: string, format: CellFormat) => {
    const at = stretch(row, LEFT, COLUMNS, rows);
    draft.put(row, LEFT, { formula }).merge(at).format(at, format);
    row += rows;
  };
  const heading = (text: string) => {
    draft.put(row, LEFT, text).format(stretch(row, LEFT, COLUMNS), LOOK.step);
    row += 1;
  };
  // As the sentences say it: no reading makes a cause certain, and none rules one out.
  const said = (share: string) => {
    const whole = `ROUND(100*${share},0)`;
    return `IF(${whole}=100,"${verdict.certain}",IF(${whole}=0,"${verdict.hardly}",${whole}&" %"))`;
  };
  const [named, judged] = [saidCell(part, PARTS, language), saidCell(state, PART_STATES, language)];
  const fault = `UPPER(LEFT(${named},1))&MID(${named},2,60)&": "&${judged}&IF(ISNUMBER(${chance})," ("&${said(chance)}&")","")`;
  const headline = `IF(${part}="none",IF(${state}="serviceable","${verdict.noFault}","${verdict.noFaultYet}"),${fault})`;
  const headlineRow = row;
  show(
    2,
    `=IF(ISERROR(${part}),"${verdict.cannotRead}",IF(${nothing(part)},"${verdict.nothingRead}",${headline}))`,
    LOOK.headline,
  );
  draft.colour(stretch(headlineRow, LEFT, 1), {
    words: PART_COLOURS,
    decidedBy: { rows: working.verdict - headlineRow, columns: COLUMN.workings + VERDICT.state - LEFT },
  });
  show(2, shownOrNothing(cellName(working.verdict, COLUMN.workings + VERDICT.sentence)), LOOK.prose);
  heading(verdict.next);
  const [check, minutes, why] = [NEXT.check, NEXT.minutes, NEXT.why].map((c) =>
    cellName(working.next, COLUMN.workings + c),
  );
  show(
    // One of them is the tall row of the complaint.
    3,
    // Where no check is left, the reason alone is said.
    `=IF(ISERROR(${check}),"",IF(${nothing(check!)},"",IF(${check}="none","",${saidCell(check!, CHECK_LABELS, language)}&" ("&${minutes}&" min): ")&${why}))`,
    LOOK.prose,
  );
  heading(verdict.causes);
  for (let i = 0; i < verdict.causeCount; i++) {
    const cell = (column: number) => cellName(working.causes + i, COLUMN.workings + column);
    const [fault, share] = [cell(CAUSE.fault), cell(CAUSE.chance)];
    show(
      1,
      `=IF(ISERROR(${fault}),"",IF(${nothing(fault)},"",${fault}&IF(${cell(CAUSE.part)}="${language.say("none")}","",", "&${cell(CAUSE.part)})&IF(ISNUMBER(${share}),": "&${said(share)},"")))`,
      LOOK.answer,
    );
  }
  heading(verdict.why);
  const rows = layout.factRows.last + 1 - row;
  // Most reasons take two lines.
  const missing = 2 * verdict.whyLines - rows;
  if (missing > 0) {
    throw new Error(`${template.id}: the verdict needs ${missing} more rows than the facts beside it have.`);
  }
  const reasons = Array.from({ length: verdict.whyLines }, (_, i): Line => {
    const [about, words] = [WHY.about, WHY.words].map((c) => cellName(working.why + FIRST_REASON + i, COLUMN.why + c));
    return {
      none: `IF(ISERROR(${about}),TRUE,${nothing(about!)})`,
      text: `UPPER(LEFT(${about},1))&MID(${about},2,60)&": "&${words}`,
    };
  });
  show(rows, linesTogether(draft, working.why, { column: LEFT, rows }, reasons), LOOK.evidence);
}

interface Workings {
  readonly verdict: number;
  readonly next: number;
  readonly causes: number;
  readonly why: number;
}

function workingRows(top: number): Workings {
  return { verdict: top + 1, next: top + 3, causes: top + 5, why: top + 1 };
}

/** The first cells that VERDICT, NEXTCHECK and CAUSES fill; a quote goes by them. */
export function verdictPlaces(layout: PageLayout) {
  const { verdict, next, causes } = workingRows(layout.factRows.first);
  const place = (row: number) => ({ row, column: COLUMN.workings });
  return { verdict: place(verdict), nextCheck: place(next), causes: place(causes) };
}

function drawWorkings(draft: SheetDraft, { verdict }: PageTemplate, top: number, given: readonly string[]): Workings {
  const rows = workingRows(top);
  const [readings, ...others] = given;
  const call = (row: number, column: number, formula: string, spillRows: number, columns: number) => {
    draft.put(row, column, { formula, spills: { rows: spillRows, columns } });
    draft.format(stretch(row, column, columns, spillRows), LOOK.working);
  };
  draft.put(top, COLUMN.workings, verdict.workings).format(stretch(top, COLUMN.workings, 1), LOOK.working);
  call(rows.verdict, COLUMN.workings, `=CHG.VERDICT(${given.join(",")})`, 1, VERDICT.columns);
  call(rows.next, COLUMN.workings, `=CHG.NEXTCHECK(${given.join(",")})`, 1, NEXT.columns);
  const causes = [readings, verdict.causeCount, ...others].join(",");
  call(rows.causes, COLUMN.workings, `=CHG.CAUSES(${causes})`, verdict.causeCount, CAUSE.columns);
  // As many lines as there are reasons: they stand last, with nothing below them.
  call(rows.why, COLUMN.why, `=CHG.WHY(${given.join(",")})`, MOST_REASONS, WHY.columns);
  return rows;
}

const MOST_REASONS = 60;
/** The first line of WHY is the verdict's own sentence, which the page shows already. */
const FIRST_REASON = 1;

/** True where a function had nothing to judge. */
function nothing(cell: string): string {
  return `OR(${cell}="",${cell}="not read")`;
}
