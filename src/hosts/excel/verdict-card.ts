import type { Cell } from "../../core/cell";
import type { FunctionTable } from "../../functions/function-table";

/** Causes that a card shows. */
const MOST_CAUSES = 3;

/**
 * The verdict as an Excel entity: the cell shows the sentence and opens to a card with causes,
 * evidence and the next check, each of which a formula can ask for (`=A1.State`): their names are the same in every language.
 *
 * @param functions - The worksheet functions that answer
 * @param given - What Excel handed over: readings, machine, known-good parts, settings, language
 * @returns The entity; `undefined` where there is no verdict to dress, so that the plain answer stands
 */
export function verdictCard(functions: FunctionTable, given: readonly unknown[]): Excel.EntityCellValue | undefined {
  const [readings, ...others] = given;
  const [[part, state, chance, sentence] = []] = functions.VERDICT!(readings, ...others);
  if (typeof sentence !== "string" || typeof chance !== "number") return undefined;
  const causes = functions.CAUSES!(readings, MOST_CAUSES, ...others);
  const [[check, minutes, outcomes] = []] = functions.NEXTCHECK!(readings, ...others);

  const properties: Record<string, Excel.EntityPropertyType> = {
    Part: text(part),
    State: text(state),
    Chance: share(chance),
    "Next check": text(check),
    Minutes: typeof minutes === "number" ? { type: "Double", basicValue: minutes } : text(minutes),
    "What it would tell": text(outcomes),
  };
  const causeNames: string[] = [];
  for (const [i, [fault, , likely, evidenceFor, against]] of causes.entries()) {
    const name = `Cause ${i + 1}`;
    causeNames.push(name);
    properties[name] = {
      type: "Entity",
      text: `${String(fault)} (${Math.round(Number(likely) * 100)} %)`,
      properties: { Fault: text(fault), Chance: share(Number(likely)), For: text(evidenceFor), Against: text(against) },
    };
  }
  return {
    type: "Entity",
    text: sentence,
    properties,
    layouts: {
      card: {
        title: sentence,
        sections: [
          { layout: "List", title: "Verdict", properties: ["Part", "State", "Chance"] },
          { layout: "List", title: "Causes", collapsible: true, collapsed: false, properties: causeNames },
          {
            layout: "List",
            title: "Next",
            collapsible: true,
            collapsed: false,
            properties: ["Next check", "Minutes", "What it would tell"],
          },
        ],
      },
    },
  };
}

function text(cell: Cell): Excel.StringCellValue {
  return { type: "String", basicValue: typeof cell === "object" ? "" : String(cell ?? "") };
}

function share(value: number): Excel.FormattedNumberCellValue {
  return { type: "FormattedNumber", basicValue: value, numberFormat: "0 %" };
}
