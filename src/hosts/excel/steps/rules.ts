import { areaName, cellName } from "../../../workbook/address";
import { WorkbookFault, type Area, type ColourRule, type ValidationRule } from "../../../workbook/port";
import type { Prepared, Scope } from "./scope";

/** Longest text of Excel's own boxes [characters]. */
const LONGEST = { list: 255, title: 32, message: 255 } as const;

/** Pick lists and hints beside cells. */
export function prepareValidation(scope: Scope, at: Area, rule: ValidationRule): Prepared {
  const carryOut = () => setValidation(scope.range(at).dataValidation, rule);
  if (scope.isNew(at.sheet)) return { weight: 1, carryOut };

  const before = scope.range(at).dataValidation;
  before.load("type,rule,errorAlert,prompt,ignoreBlanks");
  scope.askProtection(at.sheet);
  return {
    weight: 1,
    carryOut,
    refusal: () =>
      scope.protectedFault(at.sheet) ??
      (before.type === "Inconsistent" || before.type === "MixedCriteria"
        ? new WorkbookFault(
            `Some cells of ${areaName(at)} have rules for what may be entered. Clear them (Data, Data Validation) or choose another place.`,
            "occupied",
          )
        : undefined),
    putBack: () => {
      const validation = scope.range(at).dataValidation;
      validation.clear();
      if (before.type === "None") return;
      validation.rule = before.rule;
      validation.ignoreBlanks = before.ignoreBlanks;
      validation.errorAlert = before.errorAlert;
      validation.prompt = before.prompt;
    },
  };
}

function setValidation(validation: Excel.DataValidation, rule: ValidationRule): void {
  validation.clear();
  if (rule.kind === "hint") setHint(validation, rule.title, rule.message);
  else if (!fitsList(rule.choices)) setHint(validation, "Choices", `${rule.message} ${rule.choices.join(" / ")}`);
  else setHint(validation, "", rule.message, { list: { inCellDropDown: true, source: rule.choices.join(",") } });
}

/** Excel parts a list at its commas and holds 255 characters of it. */
function fitsList(choices: readonly string[]): boolean {
  return choices.join(",").length <= LONGEST.list && !choices.some((choice) => choice.includes(","));
}

/**
 * A hint needs a rule to hang on: one that everything passes, or a list, which offers its words and refuses
 * no other. What a person types is kept and read as it stands.
 */
function setHint(
  validation: Excel.DataValidation,
  title: string,
  message: string,
  rule: Excel.DataValidationRule = { custom: { formula: "=TRUE" } },
): void {
  validation.rule = rule;
  validation.errorAlert = { message: "", showAlert: false, style: "Information", title: "" };
  validation.prompt = {
    message: shortened(message, LONGEST.message),
    showPrompt: true,
    title: shortened(title, LONGEST.title),
  };
}

function shortened(text: string, longest: number): string {
  return text.length <= longest ? text : `${text.slice(0, longest - 1)}…`;
}

/** Colours by word; new rules are told from the user's own by their ids. */
export function prepareColourRule(scope: Scope, at: Area, rule: ColourRule): Prepared {
  const carryOut = () => addColourRule(scope.range(at), at, rule);
  if (scope.isNew(at.sheet)) return { weight: 1, carryOut };

  const before = scope.range(at).conditionalFormats;
  before.load("items/id");
  scope.askProtection(at.sheet);
  let after: Excel.ConditionalFormatCollection | undefined;
  return {
    weight: 1,
    carryOut,
    refusal: () => scope.protectedFault(at.sheet),
    lookBack: () => {
      after = scope.range(at).conditionalFormats;
      after.load("items/id");
    },
    putBack: () => {
      const known = new Set(before.items.map((one) => one.id));
      for (const one of after?.items ?? []) if (!known.has(one.id)) one.delete();
    },
  };
}

function addColourRule(range: Excel.Range, at: Area, rule: ColourRule): void {
  const { rows, columns } = rule.decidedBy ?? { rows: 0, columns: 0 };
  const decides = cellName(at.row + rows, at.column + columns);
  for (const { equals, fill, colour } of rule.words) {
    const { custom } = range.conditionalFormats.add("Custom");
    custom.rule.formula = `=${decides}="${equals.replaceAll('"', '""')}"`;
    custom.format.fill.color = `#${fill}`;
    custom.format.font.color = `#${colour}`;
  }
}
