import { unzipSync } from "fflate";
import { readXlsx } from "hucre/xlsx";
import { readFileSync } from "node:fs";
import path from "node:path";
import { FileWorkbook } from "../../../src/hosts/file/file-workbook";
import { readWorkbook } from "../../../src/hosts/file/read-workbook";
import { ADD_IN_ID } from "../../../src/hosts/file/tie-to-add-in";
import { FUNCTIONS } from "../../../src/functions/registry";
import { WorkbookFault, type Area, type CellWrite, type Step } from "../../../src/workbook/port";

jest.setTimeout(60_000);

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
const about = { title: "A test", created: new Date("2026-11-25T00:00:00Z") };
const text = (parts: Record<string, Uint8Array>, name: string) => new TextDecoder().decode(parts[name]);

async function small(): Promise<FileWorkbook> {
  const workbook = new FileWorkbook();
  await workbook.apply([
    { do: "add sheet", sheet: "Bench 1" },
    write("Bench 1", 0, 0, [
      ["Rested voltage", 12.45],
      ["Twice", { formula: "=B1*2" }],
      ["Charge", { formula: '=CHG.SOC(IF(B1="","",B1),"flooded")' }],
      ["Band", { formula: '=CHG.SOCBAND(B1,"flooded")', spills: { rows: 1, columns: 4 } }],
      ["Column", { formula: "=SEQUENCE(3)", spills: { rows: 3, columns: 1 } }],
    ]),
    { do: "format", at: at("Bench 1", 0, 1), format: { number: "0.00", fill: "FFFBE8", bold: true } },
    { do: "merge", at: at("Bench 1", 9, 0, 1, 3) },
    { do: "validate", at: at("Bench 1", 0, 1), rule: { kind: "hint", title: "Rested voltage", message: "0 to 20 V." } },
    { do: "validate", at: at("Bench 1", 8, 1), rule: { kind: "list", choices: ["agm", "gel"], message: "Type" } },
    {
      do: "colour rule",
      at: at("Bench 1", 0, 1, 5, 1),
      rule: { words: [{ equals: "fail", fill: "F8D7D4", colour: "7F1D1D" }], decidedBy: { rows: 0, columns: 3 } },
    },
    { do: "column width", sheet: "Bench 1", column: 0, characters: 20 },
    { do: "freeze", sheet: "Bench 1", rows: 1, columns: 0 },
    { do: "name", name: "Rest", at: at("Bench 1", 0, 1) },
    {
      do: "print",
      at: at("Bench 1", 0, 0, 10, 5),
      setup: { orientation: "portrait", fitWidthPages: 1, fitHeightPages: 2, titleRows: 1, footer: "&P / &N" },
    },
  ]);
  return workbook;
}

describe("the port", () => {
  it("reads values and formulas back, spilled ones included", async () => {
    const workbook = await small();
    const { values, formulas } = await workbook.read(at("Bench 1", 0, 1, 7, 3));
    expect(values[0]![0]).toBe(12.45);
    expect(values[1]![0]).toBe(24.9);
    expect(values[2]![0]).toBeCloseTo(0.75, 2);
    expect(values.slice(4).map(([cell]) => cell)).toEqual([1, 2, 3]);
    expect(formulas[1]![0]).toBe("=B1*2");
    expect(formulas[5]![0]).toBe("");
    expect(await workbook.usedArea("Bench 1")).toEqual(at("Bench 1", 0, 0, 7, 5));
  });

  it("calculates again after a change and says so", async () => {
    const workbook = await small();
    await workbook.read(at("Bench 1", 0, 0));
    let told = 0;
    const stop = workbook.onCalculated(() => (told += 1));
    await workbook.apply([write("Bench 1", 0, 1, [[10]])]);
    expect((await workbook.read(at("Bench 1", 1, 1))).values).toEqual([[20]]);
    stop();
    await workbook.apply([write("Bench 1", 0, 1, [[11]])]);
    expect(told).toBe(1);
  });

  it("leaves alone what a write leaves out, and clears with an empty text", async () => {
    const workbook = await small();
    await workbook.apply([write("Bench 1", 0, 0, [[undefined, ""]])]);
    expect((await workbook.read(at("Bench 1", 0, 0, 1, 2))).values).toEqual([["Rested voltage", ""]]);
  });

  it.each<[string, Step[], WorkbookFault["reason"]]>([
    ["a sheet that is not there", [write("Bench 1", 0, 0, [["x"]]), write("Elsewhere", 0, 0, [["y"]])], "missing"],
    [
      "values of another shape",
      [write("Bench 1", 0, 0, [["x"]]), { do: "write", at: at("Bench 1", 0, 0, 2, 2), values: [["a"]] }],
      "host",
    ],
    [
      "a merge across another",
      [write("Bench 1", 0, 0, [["x"]]), { do: "merge", at: at("Bench 1", 8, 2, 3, 2) }],
      "merged",
    ],
    [
      "a sheet of a name that is taken",
      [write("Bench 1", 0, 0, [["x"]]), { do: "add sheet", sheet: "bench 1" }],
      "occupied",
    ],
    ["a name no sheet can have", [write("Bench 1", 0, 0, [["x"]]), { do: "add sheet", sheet: "a/b" }], "unsupported"],
  ])("applies nothing of a batch that holds %s", async (_, batch, reason) => {
    const workbook = await small();
    await expect(workbook.apply(batch)).rejects.toMatchObject({ name: "WorkbookFault", reason });
    expect((await workbook.read(at("Bench 1", 0, 0))).values).toEqual([["Rested voltage"]]);
    expect(await workbook.sheetNames()).toEqual(["Bench 1"]);
  });

  it("keeps the selection and the sheet in front", async () => {
    const workbook = await small();
    await workbook.apply([{ do: "add sheet", sheet: "Second" }]);
    const seen: Area[] = [];
    workbook.onSelection((area) => seen.push(area));
    await workbook.select(at("Second", 2, 3));
    expect(await workbook.activeSheet()).toBe("Second");
    expect(await workbook.selection()).toEqual(at("Second", 2, 3));
    expect(seen).toEqual([at("Second", 2, 3)]);
    expect(await workbook.mergedIn(at("Bench 1", 9, 2))).toEqual([at("Bench 1", 9, 0, 1, 3)]);
  });
});

describe("the file", () => {
  let bytes: Uint8Array;
  let parts: Record<string, Uint8Array>;
  beforeAll(async () => {
    bytes = await (await small()).save(about);
    parts = unzipSync(bytes);
  });

  it("stores our functions as dynamic arrays under the name that the spreadsheet gives an add-in's", () => {
    const sheet = text(parts, "xl/worksheets/sheet1.xml");
    expect(sheet).toMatch(/<c r="B3"[^>]* cm="1"[^>]*><f t="array" ref="B3">_xldudf_CHG_SOC\(/u);
    expect(sheet).toMatch(/<c r="B4"[^>]* cm="1"[^>]*><f t="array" ref="B4:E4">_xldudf_CHG_SOCBAND\(/u);
    expect(sheet).toContain("_xlfn.SEQUENCE(3)");
    expect(sheet).toMatch(/<c r="B2"[^>]*><f>B1\*2<\/f><v>24\.9<\/v>/u);
    expect(text(parts, "xl/metadata.xml")).toMatch(/XLDAPR[\s\S]*fDynamic="1"/u);
    expect(text(parts, "xl/_rels/workbook.xml.rels")).toContain("/sheetMetadata");
    expect(text(parts, "[Content_Types].xml")).toContain("/xl/metadata.xml");
  });

  it("holds the last value of every formula, spilled ones included", () => {
    const sheet = readWorkbook(bytes, "file").sheets[0]!;
    const values = [1, 2, 3, 4, 5, 6].map((row) => sheet.at(row, 1)?.value);
    expect(values[0]).toBe(24.9);
    expect(values[1]).toBeCloseTo(0.75, 2);
    expect(values.slice(3)).toEqual([1, 2, 3]);
    expect([sheet.at(3, 1), sheet.at(3, 2), sheet.at(3, 3)].every((cell) => typeof cell?.value === "number")).toBe(
      true,
    );
  });

  it("is not calculated anew on opening, so that last values show without the add-in", () => {
    const workbook = text(parts, "xl/workbook.xml");
    expect(workbook).not.toContain("fullCalcOnLoad");
    expect(workbook).toContain('calcId="191029"');
  });

  it("names the program in a way that keeps last values of text in other programs", () => {
    expect(text(parts, "docProps/app.xml")).toMatch(
      /<Application>Microsoft Excel<\/Application>[\s\S]*<AppVersion>16\.0300<\/AppVersion>/u,
    );
  });

  it("[MS-OWEXML 2.2] is tied to the add-in by a web extension part that the package leads to", () => {
    expect(text(parts, "_rels/.rels")).toContain('Target="xl/webextensions/taskpanes.xml"');
    expect(text(parts, "xl/webextensions/_rels/taskpanes.xml.rels")).toContain('Target="webextension1.xml"');
    const extension = text(parts, "xl/webextensions/webextension1.xml");
    expect(extension).toContain(`<we:reference id="${ADD_IN_ID}"`);
    expect(extension).toContain('<we:containsCustomFunctions val="1"/>');
    for (const name of Object.keys(FUNCTIONS)) expect(extension).toContain(`_xldudf_CHG_${name}<`);
    const types = text(parts, "[Content_Types].xml");
    expect(types).toContain("application/vnd.ms-office.webextension+xml");
    expect(types).toContain("application/vnd.ms-office.webextensiontaskpanes+xml");
  });

  it("carries the identity that the manifest has", () => {
    const manifest = readFileSync(path.resolve(__dirname, "../../../manifest/manifest.xml"), "utf8");
    expect(manifest).toContain(`<Id>${ADD_IN_ID}</Id>`);
  });

  it("[cross-check hucre reader] reads the same in another reader", async () => {
    const workbook = await readXlsx(bytes, { readStyles: true });
    const sheet = workbook.sheets[0]!;
    expect(sheet.name).toBe("Bench 1");
    expect(sheet.rows.slice(0, 2)).toEqual([
      ["Rested voltage", 12.45, null, null, null],
      ["Twice", 24.9, null, null, null],
    ]);
    expect(sheet.rows.slice(4).map((row) => row[1])).toEqual([1, 2, 3]);
    expect(sheet.merges).toEqual([{ startRow: 9, startCol: 0, endRow: 9, endCol: 2 }]);
    expect(sheet.cells?.get("0,1")?.style).toMatchObject({ numFmt: "0.00", font: { bold: true, name: "Calibri" } });
    expect(sheet.dataValidations?.map(({ type, range }) => [type, range])).toEqual([
      ["custom", "B1"],
      ["list", "B9"],
    ]);
    expect(sheet.conditionalRules?.[0]).toMatchObject({ type: "expression", formula: '$E1="fail"', range: "B1:B5" });
    expect(sheet.pageSetup).toMatchObject({ orientation: "portrait", fitToPage: true, fitToHeight: 2 });
    expect(workbook.namedRanges).toEqual([{ name: "Rest", range: "'Bench 1'!$B$1:$B$1" }]);
  });

  it("is the same file every time", async () => {
    expect(Buffer.from(await (await small()).save(about)).equals(Buffer.from(bytes))).toBe(true);
  });

  it("is not tied to the add-in where it does not use it", async () => {
    const workbook = new FileWorkbook();
    await workbook.apply([{ do: "add sheet", sheet: "S" }, write("S", 0, 0, [[{ formula: "=1+1" }]])]);
    const plain = unzipSync(await workbook.save(about));
    expect(Object.keys(plain).filter((name) => name.includes("webextension"))).toEqual([]);
    expect(Object.keys(plain)).not.toContain("xl/metadata.xml");
  });

  it("writes tables and charts", async () => {
    const workbook = new FileWorkbook();
    await workbook.apply([
      { do: "add sheet", sheet: "S" },
      write("S", 0, 0, [
        ["rpm", "V"],
        [1000, 12.9],
        [2000, 14.1],
        [3000, 14.2],
      ]),
      { do: "table", at: at("S", 0, 0, 4, 2), name: "Curve" },
      {
        do: "chart",
        sheet: "S",
        chart: {
          title: "Running voltage",
          kind: "scatter",
          series: [
            { name: "V", x: at("S", 1, 0, 3, 1), y: at("S", 1, 1, 3, 1), drawn: "line" },
            { name: "Read", x: at("S", 2, 0), y: at("S", 2, 1), drawn: "marks" },
          ],
          xTitle: "rpm",
          yTitle: "V",
          anchor: { row: 6, column: 0, rows: 12, columns: 6 },
        },
      },
      write("S", 0, 3, [[{ formula: "=SUM(Curve[V])" }]]),
    ]);
    const file = await workbook.save(about);
    const made = unzipSync(file);
    const drawn = text(made, "xl/charts/chart1.xml");
    expect(drawn).toContain("S!$B$2:$B$4");
    expect([...drawn.matchAll(/symbol val="(\w+)"/gu)].map(([, symbol]) => symbol)).toEqual(["none", "diamond"]);
    expect(readWorkbook(file, "file").tables).toMatchObject([{ name: "Curve", columns: ["rpm", "V"] }]);
    expect(readWorkbook(file, "file").sheets[0]!.at(0, 3)?.value).toBeCloseTo(41.2, 9);
  });

  it("refuses to make a file without a sheet", async () => {
    await expect(new FileWorkbook().save(about)).rejects.toThrow(/no sheet/u);
  });
});
