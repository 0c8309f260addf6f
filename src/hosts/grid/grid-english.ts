import { merge, type ILanguagePack } from "@univerjs/core";
import colourRules from "@univerjs/preset-sheets-conditional-formatting/locales/en-US";
import core from "@univerjs/preset-sheets-core/locales/en-US";
import validation from "@univerjs/preset-sheets-data-validation/locales/en-US";
import tables from "@univerjs/preset-sheets-table/locales/en-US";
import { missingWords } from "./missing-words";

/** All that the grid says, in English. */
export const GRID_ENGLISH: ILanguagePack = merge(
  {},
  core,
  colourRules,
  validation,
  tables,
  missingWords(core, "Calculating …", "Calculated"),
);
