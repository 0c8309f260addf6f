import { CONDITIONS } from "../core/limits/conditions";
import { cellName, rangeName } from "./address";
import { entryById } from "./input-cells";
import { LOOK } from "./look";
import type { PageArguments } from "./page-arguments";
import { CHECK, COLUMN, LINE } from "./page-layout";
import { linesTogether, type Line } from "./page-lines";
import { labelHeight, runsOf } from "./page-readings";
import { stretch, type SheetDraft } from "./sheet-draft";

/** Lines of the longest reason of some readings, all that is not known said in it; the others take one. */
const LONG_REASONS: readonly (readonly [lines: number, ids: RegExp])[] = [
  [4, /^no-load-[abc]/u],
  [3, /^(?:idle-voltage$|winding-|(?:upper|lower)-)/u],
  [2, /(?:voltage|-ripple|-current|bplus-drop|ground-drop|key-off-draw|load-test-rested)$|^gravity-/u],
];

/** Beside readings in rows, where their limits come from. */
export function drawReasons(draft: SheetDraft, first: number, entries: readonly string[], given: PageArguments): void {
  for (const { from, to } of runsOf(entries, sisterhood))
    drawReason(draft, first + from, entries.slice(from, to), given.said);
}

/** Beside readings in rows, the sentences about those that do not pass, one below the other. */
export function drawObjections(
  draft: SheetDraft,
  first: number,
  entries: readonly string[],
  { said }: PageArguments,
): void {
  const rows = entries.length;
  const lines = entries.flatMap((id, i): Line[] => {
    if (!isJudged(id)) return [];
    const [label, state, reason] = [COLUMN.label, COLUMN.workings + CHECK.state, COLUMN.workings + CHECK.reason].map(
      (column) => cellName(first + i, column),
    );
    return [
      {
        none: `IF(ISERROR(${state}),ERROR.TYPE(${state})<>3,AND(${state}<>"fail",${state}<>"unsure"))`,
        text: `IF(ISERROR(${state}),${label}&": ${said.unreadable}",${reason})`,
      },
    ];
  });
  const at = stretch(first, COLUMN.reason, 1, rows);
  draft
    .put(first, COLUMN.reason, { formula: linesTogether(draft, first, { column: COLUMN.reason, rows }, lines) })
    .merge(at)
    .format(at, { ...LOOK.reason, vertical: "top" });
}

/** What CHECK judges: a word is chosen, and what says how another reading was taken has no state of its own. */
function isJudged(id: string): boolean {
  return entryById(id).kind === "quantity" && !CONDITIONS.has(id);
}

/** Readings of one part taken on phase after phase or cell after cell are of one sort: one reason is said of them. */
function sisterhood(id: string): string | false {
  return isJudged(id) && id.replace(/-(?:[abc]{1,2}|\d)$/u, "");
}

/**
 * Where the limit comes from: of several readings what is said of the first that fails, else of the first that is
 * not sure, else of the first. What the row shows already, reading and limit, is not said again.
 */
function drawReason(
  draft: SheetDraft,
  row: number,
  ids: readonly string[],
  { limit, unreadable }: PageArguments["said"],
): void {
  const { workings } = COLUMN;
  let reason = cellName(row, workings + CHECK.reason);
  if (ids.length > 1) {
    const of = (column: number) => rangeName(stretch(row, workings + column, 1, ids.length));
    const place = ["fail", "unsure", "pass"].reduceRight(
      (others, state) => `IFERROR(MATCH("${state}",${of(CHECK.state)},0),${others})`,
      "1",
    );
    draft
      .put(row, workings + CHECK.columns, { formula: `=INDEX(${of(CHECK.reason)},${place})` })
      .format(stretch(row, workings + CHECK.columns, 1), LOOK.working);
    reason = cellName(row, workings + CHECK.columns);
  }
  const origin = `IFERROR(MID(${reason},FIND("(",${reason},FIND("${limit}",${reason})),600),IF(${reason}="","",${reason}))`;
  // An error stands in the state once; beside it there is nothing else to show.
  const formula = ids
    .map((_, i) => cellName(row + i, workings + CHECK.state))
    .reduceRight((others, at) => `IF(ISERROR(${at}),IF(ERROR.TYPE(${at})=3,"${unreadable}",""),${others})`, origin);
  const at = stretch(row, COLUMN.reason, 1, ids.length);
  draft.put(row, COLUMN.reason, { formula: `=${formula}` }).format(at, LOOK.reason);
  if (ids.length > 1) draft.merge(at);
  const [lines] = LONG_REASONS.find(([, long]) => long.test(ids[0]!)) ?? [1];
  ids.forEach((id, i) => draft.height(row + i, Math.max(labelHeight(draft, id), (LINE * lines + 1) / ids.length)));
}
