import {
  DataValidationErrorStyle,
  DataValidationRenderMode,
  DataValidationType,
  generateRandomId,
  type IRange,
  type Worksheet,
} from "@univerjs/core";
import { AddDataValidationMutation, RemoveDataValidationMutation } from "@univerjs/data-validation";
import { IDefinedNamesService, RemoveDefinedNameMutation, SetDefinedNameMutation } from "@univerjs/engine-formula";
import { SCOPE_WORKBOOK_VALUE_DEFINED_NAME, serializeListOptions } from "@univerjs/sheets";
import {
  AddConditionalRuleMutation,
  CFRuleType,
  CFSubRuleType,
  CFTextOperator,
  DeleteConditionalRuleMutation,
  type IConditionFormattingRule,
} from "@univerjs/sheets-conditional-formatting";
import { AddSheetTableMutation, DeleteSheetTableMutation } from "@univerjs/sheets-table";
import { cellName, fixedRange, sheetPrefix } from "../../workbook/address";
import type { Area, ColourRule, ValidationRule } from "../../workbook/port";
import type { Place } from "./sheet-changes";

/** Differs from every id in the workbook, also from those that an earlier visit made. */
const freshId = (what: string) => `${what}-${generateRandomId(12)}`;

/**
 * A list to choose from, or a hint. The grid has no place to show a hint (the pane says the same of the
 * cell that is selected), but keeps it for the files that are made from it.
 */
export function validate({ unit, changes }: Place, sheet: Worksheet, range: IRange, rule: ValidationRule): void {
  const uid = freshId("validation");
  const params = {
    unitId: unit,
    subUnitId: sheet.getSheetId(),
    rule: { uid, ranges: [range], allowBlank: true, ...(rule.kind === "list" ? listRule(rule) : hintRule(rule)) },
  };
  changes.run(
    { id: AddDataValidationMutation.id, params },
    { id: RemoveDataValidationMutation.id, params: { unitId: unit, subUnitId: sheet.getSheetId(), ruleId: uid } },
  );
}

/** Offers its words, marks any other and refuses none: what a person types is kept and read as it stands. */
function listRule({ choices, message }: ValidationRule & { kind: "list" }) {
  return {
    type: DataValidationType.LIST,
    formula1: serializeListOptions([...choices]),
    showErrorMessage: true,
    error: message,
    errorStyle: DataValidationErrorStyle.WARNING,
    renderMode: DataValidationRenderMode.ARROW,
  };
}

function hintRule({ title, message }: ValidationRule & { kind: "hint" }) {
  return { type: DataValidationType.ANY, promptTitle: title, prompt: message };
}

/**
 * One rule of the grid's own for each word, over all areas that are coloured alike: each rule is one
 * more to look after at every edit and in every cell that is drawn. For the same reason a cell that
 * is coloured by its own word gets no formula.
 */
export function colour(
  { unit, changes }: Place,
  sheet: Worksheet,
  areas: readonly IRange[],
  { words, decidedBy }: ColourRule,
): void {
  const ranges = [...areas].sort((a, b) => a.startRow - b.startRow || a.startColumn - b.startColumn);
  const first = ranges[0]!;
  const decider = decidedBy && cellName(first.startRow + decidedBy.rows, first.startColumn + decidedBy.columns);
  for (const { equals, fill, colour: text } of words) {
    const cfId = freshId("colour");
    const highlight = {
      type: CFRuleType.highlightCell as const,
      style: { bg: { rgb: `#${fill}` }, cl: { rgb: `#${text}` } },
    };
    const rule: IConditionFormattingRule = {
      cfId,
      ranges,
      stopIfTrue: false,
      rule: decider
        ? { ...highlight, subType: CFSubRuleType.formula, value: `=${decider}="${equals.replaceAll('"', '""')}"` }
        : { ...highlight, subType: CFSubRuleType.text, operator: CFTextOperator.equal, value: equals },
    };
    const target = { unitId: unit, subUnitId: sheet.getSheetId() };
    changes.run(
      { id: AddConditionalRuleMutation.id, params: { ...target, rule } },
      { id: DeleteConditionalRuleMutation.id, params: { ...target, cfId } },
    );
  }
}

export function addTable(
  { unit, changes }: Place,
  sheet: Worksheet,
  range: IRange,
  name: string,
  header: string[],
): void {
  const tableId = freshId("table");
  const target = { unitId: unit, subUnitId: sheet.getSheetId(), tableId };
  changes.run(
    { id: AddSheetTableMutation.id, params: { ...target, name, range, header } },
    { id: DeleteSheetTableMutation.id, params: target },
  );
}

export function nameArea({ injector, unit, changes }: Place, name: string, at: Area): void {
  const known = injector.get(IDefinedNamesService).getValueByName(unit, name);
  const id = known?.id ?? freshId("name");
  const params = {
    unitId: unit,
    id,
    name,
    formulaOrRefString: `${sheetPrefix(at.sheet)}${fixedRange(at)}`,
    localSheetId: SCOPE_WORKBOOK_VALUE_DEFINED_NAME,
  };
  const undo = known
    ? { id: SetDefinedNameMutation.id, params: { ...known, unitId: unit } }
    : { id: RemoveDefinedNameMutation.id, params };
  changes.run({ id: SetDefinedNameMutation.id, params }, undo);
}
