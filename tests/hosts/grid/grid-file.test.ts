import { Direction, ICommandService, IUniverInstanceService, RedoCommand, UndoCommand } from "@univerjs/core";
import { InsertRowCommand, SetWorksheetNameCommand } from "@univerjs/sheets";
import { unzipSync } from "fflate";
import { stepsOfFile } from "../../../src/hosts/file/file-steps";
import { readWorkbook } from "../../../src/hosts/file/read-workbook";
import { fileOfGrid } from "../../../src/hosts/grid/grid-file";
import { stepsOfGrid } from "../../../src/hosts/grid/grid-steps";
import { openHeadlessGrid, type HeadlessGrid } from "../../../src/hosts/grid/headless-grid";
import { parseRange } from "../../../src/workbook/address";
import { DEMO } from "../../../src/workbook/demo";
import { placeTemplates } from "../../../src/workbook/place-templates";
import type { Area, CellWrite, Step } from "../../../src/workbook/port";
import type { PageTemplate } from "../../../src/workbook/template-schema";
import { TEMPLATES } from "../../../src/workbook/templates";

const ABOUT = { title: "Chargewright", created: new Date("2026-11-25T00:00:00Z") };
const open: HeadlessGrid[] = [];
afterEach(() => open.splice(0).forEach((grid) => grid.close()));

function grid(firstSheet: string): HeadlessGrid {
  const opened = openHeadlessGrid(firstSheet);
  open.push(opened);
  return opened;
}

async function saved({ workbook, engine }: HeadlessGrid): Promise<Uint8Array> {
  // Read once, so that every formula has been calculated.
  await contents({ workbook });
  return fileOfGrid(engine.injector, engine.book, ABOUT);
}

/** Opens a file in a fresh grid, the way the page does: the first sheet is there already. */
async function reopened(bytes: Uint8Array): Promise<HeadlessGrid & { readonly lost: readonly string[] }> {
  const { steps, lost } = await stepsOfFile(bytes, "job.xlsx");
  const [first, ...others] = steps as [Step & { do: "add sheet" }, ...Step[]];
  const fresh = grid(first.sheet);
  await fresh.workbook.apply(others);
  return { ...fresh, lost };
}

async function contents({ workbook }: Pick<HeadlessGrid, "workbook">) {
  const sheets = await workbook.sheetNames();
  return Promise.all(
    sheets.map(async (sheet) => ({ sheet, ...(await workbook.read(await workbook.usedArea(sheet))) })),
  );
}

interface Saying {
  readonly kind: string;
  readonly text: string;
}

/** What the steps of a grid say, looks cell by cell and without what goes without saying. */
function sayings({ engine }: HeadlessGrid): Saying[] {
  return stepsOfGrid(engine.injector, engine.book).flatMap((step): Saying[] => {
    if (step.do !== "format") return [{ kind: step.do, text: JSON.stringify(step) }];
    const { bold, italic, number, size, ...format } = step.format;
    const look = {
      ...format,
      ...(bold ? { bold } : {}),
      ...(italic ? { italic } : {}),
      ...(number === undefined || number === "General" ? {} : { number }),
      ...(size === undefined || size === 10 ? {} : { size }),
    };
    return Array.from({ length: step.at.columns }, (_, c) => ({
      kind: "format",
      text: JSON.stringify([step.at.sheet, step.at.row, step.at.column + c, Object.entries(look).sort()]),
    }));
  });
}

const at = (sheet: string, row: number, column: number, rows = 1, columns = 1): Area => ({
  sheet,
  row,
  column,
  rows,
  columns,
});
const write = (sheet: string, row: number, column: number, values: CellWrite[][]): Step => ({
  do: "write",
  at: at(sheet, row, column, values.length, values[0]!.length),
  values,
});
const text = (bytes: Uint8Array, part: string) => new TextDecoder().decode(unzipSync(bytes)[part]);

describe("the demo workbook, saved from the grid and opened again", () => {
  it("has every value, formula, look, width, merge, list, hint, colour rule and print set-up as before", async () => {
    const before = grid(TEMPLATES[0]!.sheet);
    await placeTemplates(before.workbook, TEMPLATES, { demo: DEMO });
    const bytes = await saved(before);
    const after = await reopened(bytes);
    expect(after.lost).toEqual([]);
    const [was, is] = [await contents(before), await contents(after)];
    expect(is).toEqual(was);
    expect(was.map(({ sheet }) => sheet)).toEqual(TEMPLATES.map(({ sheet }) => sheet));
    expect(
      was.flatMap(({ formulas }) => formulas.flat()).filter((formula) => formula.includes("CHG.")).length,
    ).toBeGreaterThan(20);

    const [wanted, got] = [sayings(before), sayings(after)];
    const kinds = new Set(wanted.map(({ kind }) => kind));
    for (const kind of kinds) {
      const of = (all: Saying[]) => all.filter((one) => one.kind === kind).map(({ text }) => text);
      // Sets say which differ, where two long lists would drown it.
      const [want, have] = [new Set(of(wanted)), new Set(of(got))];
      expect([kind, [...want].filter((one) => !have.has(one)), [...have].filter((one) => !want.has(one))]).toEqual([
        kind,
        [],
        [],
      ]);
    }
    expect([...kinds].sort()).toEqual(
      [
        "add sheet",
        "chart",
        "colour rule",
        "column width",
        "format",
        "freeze",
        "merge",
        "print",
        "row height",
        "validate",
        "write",
      ].sort(),
    );
    // The second file says what the first one says, to the byte.
    expect(Buffer.from(await saved(after)).equals(Buffer.from(bytes))).toBe(true);
  });
});

describe("the curve of the job sheet, which the page does not draw, in the file", () => {
  /** Per series: its name, what stands over its values or beside them, and the values themselves. */
  async function drawn(opened: HeadlessGrid, sheet: string) {
    const bytes = await saved(opened);
    const chart = text(bytes, "xl/charts/chart1.xml");
    const stored = readWorkbook(bytes, "job.xlsx").sheets.find(({ name }) => name === sheet)!;
    const cellsOf = (reference: string) => {
      const [on, range] = [
        reference.slice(0, reference.lastIndexOf("!")),
        reference.slice(reference.lastIndexOf("!") + 1),
      ];
      expect(on.replaceAll("'", "")).toBe(sheet);
      const { row, column, rows } = parseRange(range)!;
      const values = Array.from({ length: rows }, (_, r) => stored.at(row + r, column)?.value);
      return { label: stored.at(row, column - 1)?.value, values };
    };
    return [...chart.matchAll(/<c:ser>.*?<c:v>(.*?)<\/c:v>.*?<c:f>(.*?)<\/c:f>.*?<c:f>(.*?)<\/c:f>/gsu)].map(
      ([, name, x, y]) => ({ name, x: cellsOf(x!), y: cellsOf(y!) }),
    );
  }

  it("takes its speeds, its band and the readings from their cells, also where rows and the sheet's name have changed", async () => {
    const opened = grid("Job");
    const [job, machines, reference] = TEMPLATES;
    await placeTemplates(opened.workbook, [job!, machines!, reference!], { demo: DEMO });
    const before = await drawn(opened, "Job");
    // What the template says of the curve, and what the demo shop typed.
    expect(before.map(({ name }) => name)).toEqual([
      "Healthy, lowest",
      "Healthy, likely",
      "Healthy, highest",
      "Read at idle",
      "Read at test speed",
    ]);
    for (const band of before.slice(0, 3)) expect(band.x.values).toEqual((job as PageTemplate).curve.rpms);
    const [low, likely, high] = before.map(({ y }) => y.values as number[]);
    likely!.forEach((volts, i) => expect([low![i]! <= volts, volts <= high![i]!]).toEqual([true, true]));
    expect(before.slice(3).map(({ x, y }) => [x, y])).toEqual([
      [
        { label: "Idle speed", values: [1400] },
        { label: "Running voltage at idle", values: [12.31] },
      ],
      [
        { label: "Test speed", values: [5000] },
        { label: "Running voltage at test speed", values: [12.46] },
      ],
    ]);

    const { injector, book } = opened.engine;
    const [unitId, subUnitId] = [book.getUnitId(), book.getSheetBySheetName("Job")!.getSheetId()];
    const commands = injector.get(ICommandService);
    const range = { startRow: 2, endRow: 4, startColumn: 0, endColumn: 60 };
    await commands.executeCommand(InsertRowCommand.id, { unitId, subUnitId, direction: Direction.UP, range });
    await commands.executeCommand(SetWorksheetNameCommand.id, { unitId, subUnitId, name: "Quad 7, November" });
    expect(await drawn(opened, "Quad 7, November")).toEqual(before);
    const again = await reopened(await saved(opened));
    expect(again.lost).toEqual([]);
    expect(await drawn(again, "Quad 7, November")).toEqual(before);
  });
});

describe("a chart that is put on a sheet, and the way the sheet is printed", () => {
  const CHART: Step = {
    do: "chart",
    sheet: "Bench",
    chart: {
      title: "Rested",
      kind: "column",
      series: [{ name: "Rested voltage", y: at("Bench", 1, 1, 2, 1) }],
      xTitle: "Machine",
      yTitle: "V",
      anchor: { row: 5, column: 0, rows: 10, columns: 4 },
    },
  };
  const kept = ({ engine }: HeadlessGrid) =>
    stepsOfGrid(engine.injector, engine.book).filter((step) => step.do === "chart" || step.do === "print");

  function keysOf({ engine: { injector, book } }: HeadlessGrid) {
    injector.get(IUniverInstanceService).focusUnit(book.getUnitId());
    return (command: string) => injector.get(ICommandService).executeCommand(command);
  }

  it("are undone with their batch and come back with it, in the files too", async () => {
    const opened = grid("Bench");
    const press = keysOf(opened);
    await opened.workbook.apply([
      write("Bench", 0, 0, [
        ["Machine", "Volts"],
        ["Quad 1", 12.4],
        ["Quad 2", 12.6],
      ]),
    ]);
    const print: Step = {
      do: "print",
      at: at("Bench", 0, 0, 16, 4),
      setup: { orientation: "landscape", fitWidthPages: 1 },
    };
    await opened.workbook.apply([CHART, print]);
    expect(kept(opened)).toEqual([print, CHART]);
    expect(text(await saved(opened), "xl/charts/chart1.xml")).toContain("Rested voltage");

    await press(UndoCommand.id);
    expect(kept(opened)).toEqual([]);
    expect(Object.keys(unzipSync(await saved(opened))).filter((part) => part.startsWith("xl/charts"))).toEqual([]);
    expect((await opened.workbook.read(at("Bench", 1, 1))).values).toEqual([[12.4]]);

    await press(RedoCommand.id);
    expect(kept(opened)).toEqual([print, CHART]);
    expect(text(await saved(opened), "xl/charts/chart1.xml")).toContain("Rested voltage");
  });

  it("come back with a sheet that was added with them", async () => {
    const opened = grid("Bench");
    const press = keysOf(opened);
    const onNew = { ...CHART, sheet: "New" };
    await opened.workbook.apply([{ do: "add sheet", sheet: "New" }, write("New", 0, 0, [["Volts"]]), onNew]);
    await press(UndoCommand.id);
    expect(await opened.workbook.sheetNames()).toEqual(["Bench"]);
    await press(RedoCommand.id);
    expect(kept(opened)).toEqual([onNew]);
  });

  it("leave nothing behind where another step of the batch fails", async () => {
    const opened = grid("Bench");
    await opened.workbook.apply([{ do: "merge", at: at("Bench", 0, 0, 2, 2) }]);
    const across: Step = { do: "merge", at: at("Bench", 1, 1, 2, 2) };
    await expect(opened.workbook.apply([CHART, across])).rejects.toThrow("Merged cells are in the way");
    expect(kept(opened)).toEqual([]);
  });
});

describe("a shop's own workbook in the grid", () => {
  it("keeps formulas, tables and names, and lights up where the add-in is loaded", async () => {
    const before = grid("Bench");
    await before.workbook.apply([
      write("Bench", 0, 0, [
        ["Machine", "Rested voltage", "Charge", "With reserve"],
        ["Quad 1", 12.45, { formula: '=CHG.SOC(B2,"flooded")' }, { formula: "=ROUND(C2*0.9,3)" }],
        ["Quad 2", "12,6 V", { formula: '=CHG.SOC(B3,"flooded")' }, { formula: "=ROUND(C3*0.9,3)" }],
      ]),
      { do: "table", name: "Machines", at: at("Bench", 0, 0, 3, 4) },
      { do: "name", name: "Rested", at: at("Bench", 1, 1, 2, 1) },
      write("Bench", 5, 0, [
        ["Rows", { formula: "=COUNTA(Rested)" }, { formula: "=SUM(Machines[Charge])" }],
        ["Band", { formula: '=CHG.SOCBAND(B2,"flooded")', spills: { rows: 1, columns: 4 } }, undefined],
        ["Text", "=not a formula", "0012"],
      ]),
    ]);
    const bytes = await saved(before);
    const sheet = text(bytes, "xl/worksheets/sheet1.xml");
    // One cell or many, a call of ours is stored as a dynamic array with the value that the grid shows.
    expect(sheet).toMatch(
      /<c r="C2"[^>]* cm="1"[^>]*><f t="array" ref="C2">_xldudf_CHG_SOC\(B2,"flooded"\)<\/f><v>0\.75<\/v>/u,
    );
    expect(sheet).toMatch(/<f t="array" ref="B7:\w+7">_xldudf_CHG_SOCBAND/u);
    expect(sheet).toMatch(/<c r="D2"[^>]*><f>ROUND\(C2\*0\.9,3\)<\/f><v>0\.675<\/v>/u);
    expect(text(bytes, "xl/webextensions/webextension1.xml")).toContain("_xldudf_CHG_SOC<");

    const after = await reopened(bytes);
    expect(after.lost).toEqual([]);
    expect(await contents(after)).toEqual(await contents(before));
    await after.workbook.apply([write("Bench", 1, 1, [[12.24]])]);
    // Half charged at 12.24 V [BAT-01, 50 %].
    expect((await after.workbook.read(at("Bench", 1, 2, 1, 2))).values).toEqual([[0.5, 0.45]]);
  });
});
