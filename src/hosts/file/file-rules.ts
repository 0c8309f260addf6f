import type { ConditionalRule, DataValidation, Sheet } from "hucre/xlsx";
import { parseRange } from "../../workbook/address";
import type { Area, ColourRule, PrintSetup, Step, ValidationRule } from "../../workbook/port";
import { hexOf } from "./cell-looks";

/** Every area of a list of ranges, as rules name them: `A1:B2 D4`. */
export function areasOf(sheet: string, ranges: string): Area[] {
  return ranges.split(/[\s,]+/u).flatMap((range) => {
    const at = parseRange(range);
    return at ? [{ sheet, ...at }] : [];
  });
}

/** The lists and hints of a sheet as steps; `lose` is told of every other rule. */
export function validationSteps({ name, dataValidations }: Sheet, lose: (what: string) => void): Step[] {
  return (dataValidations ?? []).flatMap((validation) => {
    const rule = validationRule(validation);
    if (rule) return areasOf(name, validation.range).map((at): Step => ({ do: "validate", at, rule }));
    lose(`the rule for what may be typed in ${validation.range}`);
    return [];
  });
}

function validationRule(validation: DataValidation): ValidationRule | undefined {
  const { type, values, formula1, inputTitle, inputMessage, errorMessage } = validation;
  if (type === "list" && values && values.length > 0)
    return { kind: "list", choices: values, message: inputMessage ?? errorMessage ?? "Choose from the list." };
  if (type === "custom" && formula1?.toUpperCase() === "TRUE" && inputMessage)
    return { kind: "hint", title: inputTitle ?? "", message: inputMessage };
  return undefined;
}

/** Rules that colour a cell by a word as steps; `lose` is told of every other one. */
export function colourSteps(
  { name, conditionalRules }: Sheet,
  theme: readonly string[] | undefined,
  lose: (what: string) => void,
): Step[] {
  const groups = new Map<
    string,
    { at: Area; decidedBy: ColourRule["decidedBy"]; words: ColourRule["words"][number][] }
  >();
  for (const rule of [...(conditionalRules ?? [])].sort((a, b) => a.priority - b.priority)) {
    const areas = areasOf(name, rule.range);
    const read = areas[0] && ruleWord(rule, areas[0], theme);
    if (!read) {
      lose(`the conditional format of ${rule.range}`);
      continue;
    }
    for (const at of areas) {
      const key = JSON.stringify([at, read.decidedBy ?? null]);
      const group = groups.get(key) ?? { at, decidedBy: read.decidedBy, words: [] };
      group.words.push(read.word);
      groups.set(key, group);
    }
  }
  return [...groups.values()].map(({ at, decidedBy, words }) => ({
    do: "colour rule",
    at,
    rule: { words, ...(decidedBy ? { decidedBy } : {}) },
  }));
}

function ruleWord(rule: ConditionalRule, first: Area, theme: readonly string[] | undefined) {
  const formula = typeof rule.formula === "string" ? rule.formula : (rule.formula?.[0] ?? "");
  const { font, fill } = rule.style ?? {};
  const ground = fill?.type === "pattern" ? (fill.bgColor ?? fill.fgColor) : undefined;
  const colours = { fill: hexOf(ground, theme) ?? "FFFFFF", colour: hexOf(font?.color, theme) ?? "000000" };
  if (rule.type === "cellIs" && (rule.operator ?? "equal") === "equal") {
    const word = /^"((?:[^"]|"")*)"$/u.exec(formula)?.[1];
    return word === undefined ? undefined : { word: { equals: unquoted(word), ...colours }, decidedBy: undefined };
  }
  const match = rule.type === "expression" ? /^=?(\$?[A-Z]{1,3}\$?\d+)="((?:[^"]|"")*)"$/iu.exec(formula) : null;
  const decider = match && parseRange(match[1]!);
  if (!match || !decider) return undefined;
  const decidedBy = { rows: decider.row - first.row, columns: decider.column - first.column };
  const own = decidedBy.rows === 0 && decidedBy.columns === 0 && !match[1]!.includes("$");
  return { word: { equals: unquoted(match[2]!), ...colours }, decidedBy: own ? undefined : decidedBy };
}

function unquoted(text: string): string {
  return text.replaceAll('""', '"');
}

/** How a sheet is printed, where the file says which part of it. */
export function printSteps({ name, pageSetup, headerFooter }: Sheet): Step[] {
  const at = parseRange((pageSetup?.printArea ?? "").replace(/^.*!/u, ""));
  if (!pageSetup || !at) return [];
  const title = /^\$?1:\$?(\d+)$/u.exec((pageSetup.printTitlesRow ?? "").replace(/^.*!/u, ""))?.[1];
  const setup: PrintSetup = {
    orientation: pageSetup.orientation ?? "portrait",
    fitWidthPages: pageSetup.fitToWidth ?? 1,
    ...(pageSetup.fitToHeight ? { fitHeightPages: pageSetup.fitToHeight } : {}),
    ...(title ? { titleRows: Number(title) } : {}),
    ...(headerFooter?.oddFooter === undefined ? {} : { footer: headerFooter.oddFooter.replace(/^&L&[89]/u, "") }),
  };
  return [{ do: "print", at: { sheet: name, ...at }, setup }];
}
