/* eslint-disable @typescript-eslint/no-explicit-any -- the metadata generator wants any[][] for what may be one cell or a range */
import { cardCells } from "../core/diagnosis/card-cells";
import { causeCells, nextCheckCells, verdictCells, whyCells } from "../core/diagnosis/to-cells";
import { andThen } from "../core/result";
import { number, readOne, toBlock } from "./arguments";
import type { FunctionTable } from "./function-table";
import { blockOrFault } from "./over-cells";
import { told } from "./told";

const given = (readings: unknown, machine: unknown, knownGood: unknown, settings: unknown) => ({
  readings: toBlock(readings),
  machine: toBlock(machine),
  knownGood: toBlock(knownGood),
  settings: toBlock(settings),
});

const count = number("number of causes", { unit: "1", min: 1, max: 30 });

/**
 * The part at fault and its state, from all readings of one machine: faulty, suspect, unproven or serviceable.
 * @customfunction VERDICT
 * @param readings Readings of the job: two columns (label, value), or a header row and one row
 * @param [machine] Machine data in the same form, where it stands apart
 * @param [knownGood] Readings of known-good parts of the same number: one list, or a table with a part a row
 * @param [settings] Settings, two columns: faulty from (0.9), serviceable up to (0.05), in order beforehand (share of machines, for routine visits; blank: each came with a complaint), and the name of a fault with how often your shop has proven its repair
 * @param [language] What the sentence is said in: en (default) or es; part and state stay words for other formulas
 * @returns Part, state, chance and a sentence, side by side; "not read" where nothing was read
 * @example =CHG.VERDICT({"Rested voltage",11.9;"Key-off draw","60 mA"}) gives load, faulty, about 0.98 and the sentence
 */
export function verdict(
  readings: any[][],
  machine?: any[][],
  knownGood?: any[][],
  settings?: any[][],
  language?: any[][],
): any[][] {
  return told("VERDICT", language, () => blockOrFault(verdictCells(given(readings, machine, knownGood, settings))));
}

/**
 * The likeliest causes, one a row: fault, part, chance, what speaks for it, what speaks against it.
 * @customfunction CAUSES
 * @param readings Readings of the job: two columns (label, value), or a header row and one row
 * @param [n] How many causes to list (5)
 * @param [machine] Machine data in the same form, where it stands apart
 * @param [knownGood] Readings of known-good parts of the same number
 * @param [settings] Settings, two columns
 * @param [language] What faults, parts and evidence are said in: en (default) or es
 * @returns Rows of fault, part, chance, for and against
 * @example =CHG.CAUSES({"Rested voltage",11.9;"Key-off draw","60 mA"}, 1) gives Key-off drain, load, about 0.9 and the evidence
 */
export function causes(
  readings: any[][],
  n?: any,
  machine?: any[][],
  knownGood?: any[][],
  settings?: any[][],
  language?: any[][],
): any[][] {
  return told("CAUSES", language, () =>
    blockOrFault(andThen(readOne(n, count), (most) => causeCells(given(readings, machine, knownGood, settings), most))),
  );
}

/**
 * The check to do next: the one that tells most for each minute of work.
 * @customfunction NEXTCHECK
 * @param readings Readings of the job: two columns (label, value), or a header row and one row
 * @param [machine] Machine data in the same form, where it stands apart
 * @param [knownGood] Readings of known-good parts of the same number
 * @param [settings] Settings, two columns
 * @param [language] What the outcomes are said in: en (default) or es; the check stays a word for other formulas
 * @returns Check, minutes, and what each outcome would mean; "none" where no answer could change the verdict, "not read" of blank cells
 * @example =CHG.NEXTCHECK({"Rested voltage",11.9;"Key-off draw","60 mA"}) gives Running voltage at test speed, 5 and the reason
 */
export function nextCheck(
  readings: any[][],
  machine?: any[][],
  knownGood?: any[][],
  settings?: any[][],
  language?: any[][],
): any[][] {
  return told("NEXTCHECK", language, () => blockOrFault(nextCheckCells(given(readings, machine, knownGood, settings))));
}

/**
 * Why the verdict is what it is: what speaks for and against, what contradicts itself, what would change it.
 * @customfunction WHY
 * @param readings Readings of the job: two columns (label, value), or a header row and one row
 * @param [machine] Machine data in the same form, where it stands apart
 * @param [knownGood] Readings of known-good parts of the same number
 * @param [settings] Settings, two columns
 * @param [language] What the lines are said in: en (default) or es
 * @returns Rows of two: what the line is about, and the sentence
 * @example =CHG.WHY({"Rested voltage",11.9;"Key-off draw","60 mA"}) gives verdict and the sentence, then rows of evidence for and against
 */
export function why(
  readings: any[][],
  machine?: any[][],
  knownGood?: any[][],
  settings?: any[][],
  language?: any[][],
): any[][] {
  return told("WHY", language, () => blockOrFault(whyCells(given(readings, machine, knownGood, settings))));
}

/**
 * The verdict in one cell. Where Excel has cards, the cell opens to causes, evidence and the next check; elsewhere it is a sentence.
 * @customfunction CARD
 * @param readings Readings of the job: two columns (label, value), or a header row and one row
 * @param [machine] Machine data in the same form, where it stands apart
 * @param [knownGood] Readings of known-good parts of the same number
 * @param [settings] Settings, two columns
 * @param [language] What the sentence is said in, and causes and evidence on the card: en (default) or es
 * @returns The verdict; "not read" where nothing was read
 * @example =CHG.CARD({"Rested voltage",""}) gives not read
 */
export function card(
  readings: any[][],
  machine?: any[][],
  knownGood?: any[][],
  settings?: any[][],
  language?: any[][],
): any[][] {
  return told("CARD", language, () => blockOrFault(cardCells(given(readings, machine, knownGood, settings))));
}

export const verdictFunctions = {
  VERDICT: verdict,
  CAUSES: causes,
  NEXTCHECK: nextCheck,
  WHY: why,
  CARD: card,
} satisfies FunctionTable;
