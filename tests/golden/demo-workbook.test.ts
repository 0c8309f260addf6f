import { existsSync, readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { openHeadlessGrid, type HeadlessGrid } from "../../src/hosts/grid/headless-grid";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { SPANISH } from "../../src/pane/words/spanish";
import { placeTemplates } from "../../src/workbook/place-templates";
import { DEMO, demoIn } from "../../src/workbook/demo";
import { TEMPLATES } from "../../src/workbook/templates";
import { calculatedCells } from "./calculated-cells";

/**
 * Every template with the demo shop in it, built and calculated, cell by cell against the last state
 * that somebody looked at. `UPDATE_GOLDEN=job` takes over one sheet, by its template's id; look at
 * the difference before you commit it.
 */
jest.setTimeout(120_000);

const SHEETS = TEMPLATES.map(({ id, sheet }) => ({ id, sheet }));

let grid: HeadlessGrid;
beforeAll(async () => {
  grid = openHeadlessGrid(SHEETS[0]!.sheet);
  await placeTemplates(grid.workbook, TEMPLATES, { demo: DEMO });
});
afterAll(() => grid?.close());

it.each(SHEETS)("$sheet shows what it showed when it was last looked at", async ({ id, sheet }) => {
  looksAsBefore(id, await calculatedCells(grid.workbook, sheet));
});

function looksAsBefore(id: string, lines: readonly string[]): void {
  const file = path.join(__dirname, `${id}.cells.tsv`);
  expect(lines.length).toBeGreaterThan(20);
  if (process.env["UPDATE_GOLDEN"] === id) writeFileSync(file, `${lines.join("\n")}\n`);
  expect(existsSync(file)).toBe(true);
  expect(lines).toEqual(readFileSync(file, "utf8").trimEnd().split("\n"));
}

/** The sheets that are written in Spanish too, with the same shop in them. */
describe("in Spanish", () => {
  const language = spanishSheets(SPANISH);
  const workbook = new FileWorkbook();
  beforeAll(() => placeTemplates(workbook, TEMPLATES, { demo: demoIn(language), language }));

  it.each(TEMPLATES)("$sheet shows what it showed when it was last looked at", async ({ id, sheet }) => {
    looksAsBefore(`spanish/${id}`, await calculatedCells(workbook, language.say(sheet)));
  });
});

it("comes out the same in the grid and in a file", async () => {
  const inFile = new FileWorkbook();
  await placeTemplates(inFile, TEMPLATES, { demo: DEMO });
  for (const { sheet } of SHEETS) {
    expect(await calculatedCells(inFile, sheet)).toEqual(await calculatedCells(grid.workbook, sheet));
  }
});
