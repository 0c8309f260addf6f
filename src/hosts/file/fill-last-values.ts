import type { CalculatedBook } from "../engine/calculate-book";
import { formulaCells } from "./formula-cells";
import { closePackage, openPackage } from "./open-package";
import { patchCells } from "./patch-cells";
import { patchesFor } from "./last-values";
import { readWorkbook } from "./read-workbook";
import { tieToAddIn } from "./tie-to-add-in";

/** Puts calculated values into a file of our own making, and ties it to the add-in where it uses it. */
export function fillLastValues(
  bytes: Uint8Array,
  calculated: CalculatedBook,
  { ours }: { readonly ours: boolean },
): Uint8Array {
  const book = readWorkbook(bytes, "The new workbook");
  const cells = formulaCells(book);
  const parts = new Map(openPackage(bytes, "The new workbook"));
  const put = (path: string, text: string) => parts.set(path, new TextEncoder().encode(text));
  for (const sheet of book.sheets) {
    const patches = cells
      .filter((cell) => cell.sheet === sheet.name)
      .flatMap((cell) => patchesFor(cell, book, calculated));
    if (patches.length > 0) put(sheet.part, patchCells(sheet, patches));
  }
  // Other programs keep last values of text only where they are told which program wrote them.
  put("docProps/app.xml", APP);
  // Calculated anew on opening, every last value would turn to #NAME? where the add-in is missing.
  const workbook = new TextDecoder().decode(parts.get("xl/workbook.xml"));
  put("xl/workbook.xml", workbook.replace(/<calcPr[^>]*\/>/u, CALCULATED));
  return closePackage(ours ? tieToAddIn(parts) : parts);
}

/** The version of calculation that current spreadsheets write: they trust last values of their own. */
const CALCULATED = `<calcPr calcId="191029"/>`;

const APP =
  `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n` +
  `<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">` +
  `<Application>Microsoft Excel</Application><DocSecurity>0</DocSecurity><AppVersion>16.0300</AppVersion></Properties>`;
