import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { freeSheetName } from "../../src/workbook/free-sheet-name";
import { placeTemplates } from "../../src/workbook/place-templates";
import type { Area, CellWrite } from "../../src/workbook/port";
import { DEMO } from "../../src/workbook/demo";
import { TEMPLATES, templateOf, withCompanions } from "../../src/workbook/templates";

jest.setTimeout(120_000);

const job = templateOf("job")!;
const machines = templateOf("machines")!;
const at = (sheet: string, row: number, column: number, rows = 1, columns = 1): Area => ({
  sheet,
  row,
  column,
  rows,
  columns,
});

async function shopSheet(
  sheet: string,
  cells: readonly [row: number, column: number, content: CellWrite][],
): Promise<FileWorkbook> {
  const workbook = new FileWorkbook();
  await workbook.apply([
    { do: "add sheet", sheet },
    ...cells.map(([row, column, content]) => ({
      do: "write" as const,
      at: at(sheet, row, column),
      values: [[content]],
    })),
  ]);
  return workbook;
}

const everything = async (workbook: FileWorkbook, sheet: string) => workbook.read(at(sheet, 0, 0, 160, 40));

it("adds the sheets that are not there", async () => {
  const workbook = new FileWorkbook();
  await placeTemplates(workbook, withCompanions(job));
  expect(await workbook.sheetNames()).toEqual(["Job", "Machines", "Reference"]);
});

it("changes nothing when it is done again, and keeps what was typed meanwhile", async () => {
  const workbook = new FileWorkbook();
  const [plan] = await placeTemplates(workbook, TEMPLATES, { demo: DEMO });
  const draw = plan!.inputs.get("key-off-draw")!;
  const capacity = plan!.inputs.get("battery-capacity")!;
  await workbook.apply([
    { do: "write", at: at("Job", draw.row, draw.column), values: [["2,4 mA"]] },
    { do: "write", at: at("Job", capacity.row, capacity.column), values: [[16]] },
    { do: "write", at: at("Machines", 20, 0), values: [["Bought last week"]] },
  ]);
  const before = [await everything(workbook, "Job"), await everything(workbook, "Machines")];
  await placeTemplates(workbook, TEMPLATES, { demo: DEMO });
  expect([await everything(workbook, "Job"), await everything(workbook, "Machines")]).toEqual(before);
  expect(before[0]!.values[draw.row]![draw.column]).toBe("2,4 mA");
});

it("builds on a sheet of that name that is empty where it goes", async () => {
  const workbook = await shopSheet("machines", [[200, 3, "kept"]]);
  await placeTemplates(workbook, [machines]);
  expect(await workbook.sheetNames()).toEqual(["machines"]);
  const { values } = await workbook.read(at("machines", 0, 0, 201, 4));
  expect([values[0]![0], values[200]![3]]).toEqual([machines.title, "kept"]);
});

it.each<[string, [number, number, CellWrite][], RegExp]>([
  ["a value where a label goes", [[5, 0, "mine"]], /in cell \(A6\)\. Nothing was written/u],
  ["a formula where nothing is written", [[9, 3, { formula: "=1+1" }]], /\(D10\)/u],
  ["a value that would stop a result from spilling", [[40, 10, 7]], /\(K41\)/u],
  [
    "a value beside another label than ours",
    [
      [5, 0, "Oil change"],
      [5, 1, "June"],
    ],
    /2 cells \(A6, B6\)/u,
  ],
])("stops at %s, names the cell, and writes nothing", async (_, cells, message) => {
  const workbook = await shopSheet("Job", cells);
  const before = await everything(workbook, "Job");
  await expect(placeTemplates(workbook, TEMPLATES)).rejects.toMatchObject({
    reason: "occupied",
    message: expect.stringMatching(message),
  });
  expect(await everything(workbook, "Job")).toEqual(before);
  expect(await workbook.sheetNames()).toEqual(["Job"]);
});

it("names the first of many cells and counts the others", async () => {
  const workbook = await shopSheet(
    "Job",
    Array.from({ length: 30 }, (_, row): [number, number, CellWrite] => [row, 3, "x"]),
  );
  await expect(placeTemplates(workbook, [job])).rejects.toThrow(
    /30 cells \(D1, D2, D3, D4, D5, D6, D7, D8 and 22 more\)/u,
  );
});

it("stops at merged cells of somebody else's, and writes nothing", async () => {
  const workbook = await shopSheet("Job", []);
  await workbook.apply([{ do: "merge", at: at("Job", 3, 0, 4, 2) }]);
  await expect(placeTemplates(workbook, [job])).rejects.toMatchObject({
    reason: "merged",
    message: expect.stringMatching(/Merged cells are in the way .*Job!A4:B7/u),
  });
  expect(await workbook.usedArea("Job")).toEqual(at("Job", 0, 0, 0, 0));
});

it("does not mind merged cells where nothing goes", async () => {
  const workbook = await shopSheet("Machines", []);
  await workbook.apply([{ do: "merge", at: at("Machines", 300, 0, 2, 2) }]);
  await placeTemplates(workbook, [machines]);
  expect((await workbook.usedArea("Machines")).rows).toBeGreaterThan(2);
});

it("finds a free name for one more sheet", () => {
  expect(freeSheetName("Job", ["Machines"])).toBe("Job");
  expect(freeSheetName("Job", ["job", "Job 2"])).toBe("Job 3");
  const long = "A name that is as long as can be";
  expect(freeSheetName(long.slice(0, 31), [long.slice(0, 31)])).toBe("A name that is as long as can 2");
});

it("lays out a second job beside the first", async () => {
  const workbook = new FileWorkbook();
  await placeTemplates(workbook, withCompanions(job));
  const sheet = freeSheetName(job.sheet, await workbook.sheetNames());
  const [second] = await placeTemplates(workbook, [job], { sheets: { job: sheet }, existing: [machines] as never });
  expect(second!.sheet).toBe("Job 2");
  expect(await workbook.sheetNames()).toEqual(["Job", "Machines", "Reference", "Job 2"]);
  const cell = second!.inputs.get("battery-capacity")!;
  expect((await workbook.read(at("Job 2", cell.row, cell.column))).formulas[0]![0]).toContain("Machines!");
});
