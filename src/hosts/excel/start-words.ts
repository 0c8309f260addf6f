/** What the add-in says before its pane is there. */
export interface StartWords {
  readonly noLibrary: string;
  readonly noWorkbook: string;
  readonly tooOld: (lacking: string) => string;
  readonly notFetched: string;
  readonly again: string;
}

export const START_ENGLISH: StartWords = {
  noLibrary:
    "Excel's own library could not be fetched: without internet, use a build that brings it along (office=local).",
  noWorkbook:
    "This page is the Excel add-in and has no workbook here. Load its manifest in Excel, or run the local page with npm start.",
  tooOld: (lacking) =>
    `This Excel is too old for the pane (it lacks ${lacking}). The worksheet functions work all the same. ` +
    "For the pane use Excel for Microsoft 365, Excel 2021 or later, or Excel on the web.",
  notFetched: "The pane could not be fetched. Check the connection to the place it comes from.",
  again: "Try again",
};

export const START_SPANISH: StartWords = {
  noLibrary:
    "No se pudo cargar la biblioteca de Excel: sin internet, use una compilación que la traiga (office=local).",
  noWorkbook:
    "Esta página es el complemento de Excel y aquí no tiene libro. Cargue su manifiesto en Excel, o abra la página local con npm start.",
  tooOld: (lacking) =>
    `Este Excel es demasiado antiguo para el panel (le falta ${lacking}). Las funciones de hoja funcionan igual. ` +
    "Para el panel use Excel para Microsoft 365, Excel 2021 o posterior, o Excel en la web.",
  notFetched: "No se pudo cargar el panel. Revise la conexión con el sitio del que viene.",
  again: "Probar de nuevo",
};
