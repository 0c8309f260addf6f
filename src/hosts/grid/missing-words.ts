import type { ILanguagePack } from "@univerjs/core";

/**
 * Words that the grid looks for and does not bring: it would show or read out their keys.
 *
 * @param grid - What it brings; the names of its toolbars are there, in another place
 * @param calculating - Said while formulas are calculated
 * @param done - Said when they are
 */
export function missingWords(grid: ILanguagePack, calculating: string, done: string): ILanguagePack {
  const progress = {
    analyzing: calculating,
    calculating,
    "array-analysis": calculating,
    "array-calculation": calculating,
    done,
  };
  const { ribbon } = grid["ui"] as ILanguagePack;
  return { "sheets-formula": { progress }, ribbon: ribbon! };
}
