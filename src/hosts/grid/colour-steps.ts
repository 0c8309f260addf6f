import type { Injector, IRange, Workbook, Worksheet } from "@univerjs/core";
import {
  CFRuleType,
  CFSubRuleType,
  ConditionalFormattingRuleModel,
  type IConditionFormattingRule,
} from "@univerjs/sheets-conditional-formatting";
import { parseRange } from "../../workbook/address";
import type { ColourRule, Step } from "../../workbook/port";
import { areaOf } from "./areas";
import { hexOf } from "./hex-colour";

/** A word of one of the grid's rules, and where the word stands that decides. */
interface RuleWord {
  readonly word: ColourRule["words"][number];
  readonly decidedBy: NonNullable<ColourRule["decidedBy"]> | undefined;
}

/** The colour rules of a sheet that are of our kind, the words of one area together again. */
export function colourSteps(injector: Injector, book: Workbook, sheet: Worksheet): Step[] {
  // The grid puts a new rule before the others.
  const rules = [
    ...(injector.get(ConditionalFormattingRuleModel).getSubunitRules(book.getUnitId(), sheet.getSheetId()) ?? []),
  ].reverse();
  const groups = new Map<
    string,
    { ranges: readonly IRange[]; decidedBy: RuleWord["decidedBy"]; words: RuleWord["word"][] }
  >();
  for (const rule of rules) {
    const read = ruleWord(rule);
    if (!read) continue;
    const key = JSON.stringify([rule.ranges, read.decidedBy ?? null]);
    const group = groups.get(key) ?? { ranges: rule.ranges, decidedBy: read.decidedBy, words: [] };
    group.words.push(read.word);
    groups.set(key, group);
  }
  return [...groups.values()].flatMap(({ ranges, decidedBy, words }) =>
    ranges.map((range): Step => ({
      do: "colour rule",
      at: areaOf(sheet.getName(), range),
      rule: { words, ...(decidedBy ? { decidedBy } : {}) },
    })),
  );
}

function ruleWord({ rule, ranges }: IConditionFormattingRule): RuleWord | undefined {
  if (rule.type !== CFRuleType.highlightCell) return undefined;
  const { style, subType } = rule as {
    style: { bg?: { rgb?: string | null } | null; cl?: { rgb?: string | null } | null };
    subType: CFSubRuleType;
  };
  const colours = { fill: hexOf(style.bg?.rgb) ?? "FFFFFF", colour: hexOf(style.cl?.rgb) ?? "000000" };
  const value = (rule as { value?: unknown }).value;
  if (typeof value !== "string") return undefined;
  if (subType === CFSubRuleType.text) return { word: { equals: value, ...colours }, decidedBy: undefined };
  const match = subType === CFSubRuleType.formula ? /^=(\w+)="((?:[^"]|"")*)"$/u.exec(value) : null;
  const decider = match && parseRange(match[1]!);
  const first = [...ranges].sort((a, b) => a.startRow - b.startRow || a.startColumn - b.startColumn)[0];
  if (!match || !decider || !first) return undefined;
  return {
    word: { equals: match[2]!.replaceAll('""', '"'), ...colours },
    decidedBy: { rows: decider.row - first.startRow, columns: decider.column - first.startColumn },
  };
}
