import { strToU8, zipSync } from "fflate";
import { writeXlsx } from "hucre/xlsx";
import { stepsOfFile } from "../../../src/hosts/file/file-steps";
import { WorkbookFault, type Step } from "../../../src/workbook/port";
import { storedBook } from "./stored-book";

/** What the steps put into each cell, later ones over earlier ones. */
function written(steps: readonly Step[], sheet: string): Record<string, unknown> {
  const cells: Record<string, unknown> = {};
  for (const step of steps) {
    if (step.do !== "write" || step.at.sheet !== sheet) continue;
    step.values.forEach((line, r) =>
      line.forEach((content, c) => {
        if (content !== undefined) cells[`${step.at.row + r},${step.at.column + c}`] = content;
      }),
    );
  }
  return cells;
}

describe("a file that another program saved", () => {
  const table = `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="T" displayName="Yard" ref="A1:B4" totalsRowCount="1"><tableColumns count="2"><tableColumn id="1" name="Machine"/><tableColumn id="2" name="Volts"/></tableColumns></table>`;
  const book = storedBook({
    sheets: [
      {
        name: "Yard",
        rows:
          `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row>` +
          `<row r="2"><c r="A2" t="inlineStr"><is><t>Quad 1</t></is></c><c r="B2"><v>12.45</v></c><c r="C2"><f t="shared" si="0" ref="C2:C3">B2*2</f><v>24.9</v></c></row>` +
          `<row r="3"><c r="A3" t="str"><v>Quad 2</v></c><c r="B3"><v>12.6</v></c><c r="C3"><f t="shared" si="0"/><v>25.2</v></c></row>` +
          `<row r="4"><c r="A4" t="str"><v>Total</v></c><c r="B4"><f>SUBTOTAL(109,Yard[Volts])</f><v>25.05</v></c></row>` +
          `<row r="6"><c r="A6"><f>[1]Prices!$B$2*2</f><v>48</v></c><c r="B6" cm="1"><f t="array" ref="B6:C6">_xldudf_CHG_SOCBAND(B2,"flooded")</f><v>0.7</v></c><c r="C6"><v>0.75</v></c></row>` +
          `<row r="7"><c r="A7"><f>CUBEVALUE("x","y")</f><v>3</v></c><c r="B7" t="e"><v>#DIV/0!</v></c><c r="C7" t="b"><v>1</v></c></row>`,
        after: `<mergeCells count="1"><mergeCell ref="A9:B9"/></mergeCells>`,
        tables: [table],
      },
    ],
    names: `<definedName name="Rested">Yard!$B$2:$B$3</definedName><definedName name="Double">Yard!$B$2*2</definedName><definedName name="_xlnm.Print_Area" localSheetId="0">Yard!$A$1:$C$7</definedName>`,
    strings: ["Machine", "Volts"],
    extra: { "xl/vbaProject.bin": "macros" },
  });

  it("gives its values and formulas as they were typed", async () => {
    const { steps } = await stepsOfFile(book, "yard.xlsm");
    expect(written(steps, "Yard")).toEqual({
      "0,0": "Machine",
      "0,1": "Volts",
      "1,0": "Quad 1",
      "1,1": 12.45,
      "1,2": { formula: "=B2*2" },
      "2,0": "Quad 2",
      "2,1": 12.6,
      "2,2": { formula: "=B3*2" },
      "3,0": "Total",
      "3,1": { formula: "=SUBTOTAL(109,Yard[Volts])" },
      "5,0": 48,
      "5,1": { formula: '=CHG.SOCBAND(B2,"flooded")', spills: { rows: 1, columns: 2 } },
      "6,0": { formula: '=CUBEVALUE("x","y")' },
      "6,1": { formula: "=#DIV/0!" },
      "6,2": true,
    });
    const others = steps.filter(({ do: what }) => ["merge", "table", "name"].includes(what));
    expect(others).toEqual([
      { do: "merge", at: { sheet: "Yard", row: 8, column: 0, rows: 1, columns: 2 } },
      { do: "table", name: "Yard", at: { sheet: "Yard", row: 0, column: 0, rows: 3, columns: 2 } },
      { do: "name", name: "Rested", at: { sheet: "Yard", row: 1, column: 1, rows: 2, columns: 1 } },
    ]);
  });

  it("says by name what is not carried over", async () => {
    const { lost } = await stepsOfFile(book, "yard.xlsm");
    expect(lost).toEqual([
      "the macros",
      expect.stringMatching(/^Yard: A6 refers to .*\[1\].*; its last value is kept$/u),
      "Yard: A7 keeps its formula but has no value here: CUBEVALUE is not known here",
      "Yard: the totals row of the table Yard is plain cells now",
      "the name Double",
    ]);
  });

  it("gives charts as steps, and names those, and the looks, that no step can say", async () => {
    const anchor = { from: { row: 5, col: 3 }, to: { row: 20, col: 9 } };
    const series = [{ name: "volts", values: "'Run 2'!$B$2:$B$4", categories: "'Run 2'!$A$2:$A$4" }];
    const bytes = await writeXlsx({
      sheets: [
        {
          name: "Run 2",
          rows: [
            ["rpm", "volts"],
            [1500, 13.1],
            [3000, 14.2],
            [5000, 14.4],
          ],
          charts: [
            { type: "line", title: "Volts", series, anchor, axes: { x: { title: "rpm" }, y: { title: "V" } } },
            { type: "column", title: "In blue", series: [{ ...series[0]!, color: "1F4E5F" }], anchor },
            { type: "pie", title: "Shares", series, anchor },
          ],
        },
      ],
    });
    const { steps, lost } = await stepsOfFile(bytes, "run.xlsx");
    const at = (column: number) => ({ sheet: "Run 2", row: 1, column, rows: 3, columns: 1 });
    const drawn = {
      series: [{ name: "volts", x: at(0), y: at(1) }],
      anchor: { row: 5, column: 3, rows: 15, columns: 6 },
    };
    expect(steps.flatMap((step) => (step.do === "chart" ? [step.chart] : []))).toEqual([
      { ...drawn, title: "Volts", kind: "line", xTitle: "rpm", yTitle: "V" },
      { ...drawn, title: "In blue", kind: "column", xTitle: "", yTitle: "" },
    ]);
    expect(lost).toEqual(['Run 2: the looks of the chart "In blue"', "Run 2: 1 chart"]);
  });
});

describe("a file that cannot be opened", () => {
  const whole = storedBook({ sheets: [{ name: "A", rows: `<row r="1"><c r="A1"><v>1</v></c></row>` }] });
  const ole = (stream: string) =>
    new Uint8Array([
      0xd0,
      0xcf,
      0x11,
      0xe0,
      0xa1,
      0xb1,
      0x1a,
      0xe1,
      ...[...stream].flatMap((letter) => [letter.charCodeAt(0), 0]),
    ]);
  it.each([
    [
      "a zip archive that was renamed",
      zipSync({ "holiday.txt": strToU8("sun") }),
      /zip archive, not a workbook; give a file saved as \.xlsx\.$/u,
    ],
    ["one that is cut short", whole.slice(0, Math.floor(whole.length / 2)), /damaged or cut short.*fresh copy/u],
    ["one under a password", ole("EncryptedPackage"), /protected by a password.*remove the password/u],
    ["one of the old format", ole("Workbook"), /old format \(\.xls\); save it as \.xlsx/u],
    ["a text", strToU8("Machine;Volts\n"), /is not a workbook; give a file saved as \.xlsx\.$/u],
    ["an empty one", new Uint8Array(0), /is empty; give a workbook/u],
    [
      "a damaged part",
      storedBook({ sheets: [{ name: "A", rows: "" }], extra: { "xl/workbook.xml": "<workbook" } }),
      /is not a workbook/u,
    ],
  ])("%s is told in one sentence", async (_, bytes, message) => {
    const fault = await stepsOfFile(bytes, "job.xlsx").then(
      () => undefined,
      (error: unknown) => error,
    );
    expect(fault).toBeInstanceOf(WorkbookFault);
    expect((fault as WorkbookFault).reason).toBe("file");
    expect((fault as WorkbookFault).message).toMatch(/^job\.xlsx /u);
    expect((fault as WorkbookFault).message).toMatch(message);
  });
});
