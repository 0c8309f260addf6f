import { merge, type ILanguagePack } from "@univerjs/core";
import colourRules from "@univerjs/preset-sheets-conditional-formatting/locales/es-ES";
import core from "@univerjs/preset-sheets-core/locales/es-ES";
import validation from "@univerjs/preset-sheets-data-validation/locales/es-ES";
import tables from "@univerjs/preset-sheets-table/locales/es-ES";
import { missingWords } from "./missing-words";

/** What the grid's own Spanish leaves in English. */
const LEFT_OUT = {
  "sheets-table-ui": {
    renamePlaceholder: "Escriba el nombre de la tabla",
    columnMenu: {
      "insert-left": "Insertar una columna de tabla a la izquierda",
      "insert-right": "Insertar una columna de tabla a la derecha",
      delete: "Eliminar la columna de la tabla",
    },
  },
  "sheets-ui": {
    shortcut: { "sheet-view": "Vista de la hoja", "sheet-edit": "Edición de la hoja" },
  },
};

/** All that the grid says, in Spanish. */
export const GRID_SPANISH: ILanguagePack = merge(
  {},
  core,
  colourRules,
  validation,
  tables,
  LEFT_OUT,
  missingWords(core, "Calculando …", "Calculado"),
);
