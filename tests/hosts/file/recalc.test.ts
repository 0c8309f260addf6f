import { unzipSync } from "fflate";
import { writeXlsx } from "hucre/xlsx";
import { readWorkbook } from "../../../src/hosts/file/read-workbook";
import { recalculate } from "../../../src/hosts/file/recalc";
import { storedBook, type StoredBook } from "./stored-book";

jest.setTimeout(60_000);

const SOC = "_xldudf_CHG_SOC";
/** A formula as an add-in's is stored: a dynamic array. */
const dynamic = (cell: string, formula: string, value = "", ref = cell) =>
  `<c r="${cell}" s="3" cm="1"><f t="array" ref="${ref}">${formula}</f>${value}</c>`;
const plain = (cell: string, formula: string, value = "") => `<c r="${cell}"><f>${formula}</f>${value}</c>`;
const number = (cell: string, value: number) => `<c r="${cell}"><v>${value}</v></c>`;
const row = (n: number, ...cells: string[]) => `<row r="${n}">${cells.join("")}</row>`;
const sheet = (...rows: string[]) => [{ name: "Shop", rows: rows.join("") }];

async function recalculated(book: StoredBook) {
  const before = storedBook(book);
  const done = await recalculate(before, "shop.xlsx");
  const stored = readWorkbook(done.bytes, "shop.xlsx");
  const value = (name: string, on = 0) => {
    const match = /^([A-Z])(\d+)$/u.exec(name)!;
    return stored.sheets[on]!.at(Number(match[2]) - 1, match[1]!.charCodeAt(0) - 65)?.value;
  };
  const xml = (part = "xl/worksheets/sheet1.xml") => new TextDecoder().decode(unzipSync(done.bytes)[part]);
  return { done, before, value, xml };
}

describe("values", () => {
  it("[BAT-01, 75 %] fills the function's value, and of what depends on it, and nothing else", async () => {
    const { done, value } = await recalculated({
      sheets: sheet(
        row(
          1,
          number("A1", 12.45),
          dynamic("B1", `${SOC}(A1,"flooded")`),
          plain("C1", "ROUND(B1*100,0)", "<v>1</v>"),
          plain("D1", "A1*2", "<v>999</v>"),
        ),
        row(2, plain("A2", "NOW()", "<v>45000</v>"), plain("B2", 'C1&amp;" %"')),
      ),
    });
    expect(value("B1")).toBeCloseTo(0.75, 2);
    expect(value("C1")).toBe(75);
    expect(value("B2")).toBe("75 %");
    // Neither wrong nor old values of formulas that have nothing to do with ours are touched.
    expect([value("D1"), value("A2")]).toEqual([999, 45000]);
    expect(done).toMatchObject({ ours: 1, due: 3, written: 3, kept: [] });
  });

  it("follows names, tables, other sheets and groups of shared formulas", async () => {
    const { value, done } = await recalculated({
      sheets: [
        {
          name: "Shop",
          rows: [
            row(1, `<c r="A1" t="str"><v>V</v></c>`, `<c r="B1" t="str"><v>Charge</v></c>`),
            row(2, number("A2", 12.65), dynamic("B2", `${SOC}(Jobs[[#This Row],[V]],kind)`)),
            row(3, number("A3", 12.45), dynamic("B3", `${SOC}(Jobs[[#This Row],[V]],kind)`)),
            row(4, number("A4", 12.24), `<c r="B4"><f t="shared" ref="B4:B6" si="0">${SOC}(A4,"flooded")</f></c>`),
            row(5, number("A5", 12.06), `<c r="B5"><f t="shared" si="0"/></c>`),
            row(6, number("A6", 11.89), `<c r="B6"><f t="shared" si="0"/></c>`),
          ].join(""),
          tables: [
            `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="Jobs" displayName="Jobs" ref="A1:B3"><tableColumns count="2"><tableColumn id="1" name="V"/><tableColumn id="2" name="Charge"/></tableColumns></table>`,
          ],
        },
        {
          name: "Sum up",
          rows: row(1, plain("A1", "SUM(Jobs[Charge])"), plain("B1", "SUM(Shop!B4:B6)"), plain("C1", "MAX(charges)")),
        },
      ],
      names: `<definedName name="kind">"flooded"</definedName><definedName name="charges">Shop!$B$2:$B$6</definedName>`,
    });
    expect(done.kept).toEqual([]);
    // [BAT-01] 100, 75, 50, 25 and 0 %
    ["B2", "B3", "B4", "B5", "B6"].forEach((cell, i) => expect(value(cell)).toBeCloseTo(1 - i * 0.25, 2));
    expect(value("A1", 1)).toBeCloseTo(1.75, 2);
    expect(value("B1", 1)).toBeCloseTo(0.75, 2);
    expect(value("C1", 1)).toBeCloseTo(1, 2);
  });

  it("calculates what a function reads where the file holds no value for it, and leaves it as it is", async () => {
    const { value, done, xml } = await recalculated({
      sheets: sheet(row(1, number("A1", 6.225), plain("B1", "A1*2"), dynamic("C1", `${SOC}(B1,"flooded")`))),
    });
    expect(value("C1")).toBeCloseTo(0.75, 2);
    expect(xml()).toContain('<c r="B1"><f>A1*2</f></c>');
    expect(done.written).toBe(1);
  });

  it("takes last values of text, truth and shared strings as they stand", async () => {
    const { value } = await recalculated({
      sheets: sheet(
        row(1, `<c r="A1" t="s"><v>1</v></c>`, `<c r="B1" t="s"><v>0</v></c>`, dynamic("C1", `${SOC}(A1,B1)`)),
        row(
          2,
          `<c r="A2" t="inlineStr"><is><r><t>12,</t></r><r><t>45 V</t></r></is></c>`,
          dynamic("C2", `${SOC}(A2,"agm")`),
          `<c r="D2" t="b"><v>1</v></c>`,
        ),
        row(3, plain("A3", 'IF(D2,C2,"none")')),
      ),
      strings: ["flooded", "12.45 V (B&amp;C)"],
    });
    expect(value("C1")).toBeCloseTo(0.75, 2);
    expect(value("C2")).toBeGreaterThan(0.4);
    expect(value("A3")).toBe(value("C2"));
  });

  it("reads a file whose elements carry a prefix, and cells without an address", async () => {
    const { value, xml } = await recalculated({
      prefix: "x",
      sheets: [
        {
          name: "Shop",
          rows: `<x:row><x:c><x:v>12.45</x:v></x:c><x:c cm="1"><x:f t="array" ref="B1">${SOC}(A1,"flooded")</x:f></x:c></x:row><x:row r="3"><x:c r="B3"><x:f>B1*4</x:f></x:c></x:row>`,
        },
      ],
    });
    expect(value("B1")).toBeCloseTo(0.75, 2);
    expect(value("B3")).toBeCloseTo(3, 1);
    expect(xml()).toMatch(/<x:f>B1\*4<\/x:f><x:v>[\d.]+<\/x:v><\/x:c>/u);
  });

  it("writes an error of ours where a reading cannot be read", async () => {
    const { value, xml } = await recalculated({
      sheets: sheet(
        row(
          1,
          `<c r="A1" t="str"><v>abc</v></c>`,
          dynamic("B1", `${SOC}(A1,"flooded")`, "<v>0.5</v>"),
          plain("C1", "B1*2", "<v>1</v>"),
        ),
      ),
    });
    expect(value("B1")).toEqual({ error: "#VALUE!" });
    expect(value("C1")).toEqual({ error: "#VALUE!" });
    expect(xml()).toMatch(/<c r="B1" s="3" cm="1" t="e">.*<v>#VALUE!<\/v><\/c>/u);
  });
});

describe("results that fill several cells", () => {
  const volts = [12.65, 12.45, 12.24].map((v, i) => number(`A${i + 1}`, v));

  it("puts in the cells that the file does not hold yet, and widens the formula's reach", async () => {
    const { value, xml } = await recalculated({
      sheets: sheet(
        row(1, volts[0]!, dynamic("B1", `${SOC}(A1:A4,"flooded")`), `<c r="D1"><v>7</v></c>`),
        row(2, volts[1]!, number("D2", 8)),
        row(3, volts[2]!),
      ),
    });
    [1, 0.75, 0.5].forEach((share, i) => expect(value(`B${i + 1}`)).toBeCloseTo(share, 2));
    expect(value("B4")).toBe("");
    expect(xml()).toContain('ref="B1:B4"');
    expect(xml()).toMatch(/<row r="2"><c r="A2">.*<\/c><c r="B2"><v>[\d.]+<\/v><\/c><c r="D2">/u);
    expect(xml()).toMatch(/<row r="4"><c r="B4" t="str"><v><\/v><\/c><\/row><\/sheetData>/u);
  });

  it("blanks the cells that a shorter result no longer fills, their formats kept", async () => {
    const { value, xml } = await recalculated({
      sheets: sheet(
        row(1, volts[0]!, dynamic("B1", `${SOC}(A1:A2,"flooded")`, "<v>1</v>", "B1:B3")),
        row(2, volts[1]!, `<c r="B2" s="9"><v>0.1</v></c>`),
        row(3, `<c r="B3" s="9"><v>0.2</v></c>`),
      ),
    });
    expect(value("B2")).toBeCloseTo(0.75, 2);
    expect(xml()).toContain('<c r="B3" s="9"></c>');
    expect(xml()).toContain('ref="B1:B2"');
  });

  it("leaves an array formula over a fixed range its range", async () => {
    const { value, xml } = await recalculated({
      sheets: sheet(
        row(1, volts[0]!, `<c r="B1"><f t="array" ref="B1:B3">${SOC}(A1:A2,"flooded")</f></c>`),
        row(2, volts[1]!, `<c r="B2"><v>0</v></c>`),
        row(3, `<c r="B3"><v>0</v></c>`),
      ),
    });
    expect(value("B2")).toBeCloseTo(0.75, 2);
    expect(value("B3")).toEqual({ error: "#N/A" });
    expect(xml()).toContain('ref="B1:B3"');
  });

  it("keeps and names a result that has no room, and one that is stored for one cell", async () => {
    const { value, done } = await recalculated({
      sheets: sheet(
        row(
          1,
          volts[0]!,
          dynamic("B1", `${SOC}(A1:A3,"flooded")`, "<v>0.9</v>"),
          plain("C1", `${SOC}(A1:A3,"flooded")`, "<v>0.8</v>"),
          plain("D1", "C1+1", "<v>0</v>"),
        ),
        row(2, volts[1]!, `<c r="B2" t="str"><v>mine</v></c>`),
        row(3, volts[2]!),
      ),
    });
    expect([value("B1"), value("B2"), value("C1")]).toEqual([0.9, "mine", 0.8]);
    // What depends on a kept value is calculated from it.
    expect(value("D1")).toBeCloseTo(1.8, 9);
    expect(done.kept.map(({ cell, reason }) => [cell, reason])).toEqual([
      ["Shop!B1", expect.stringContaining("no room")],
      ["Shop!C1", expect.stringContaining("stored for one cell")],
    ]);
  });
});

describe("what the engine cannot do", () => {
  it("keeps the last value and names the cell where a function is not known, and calculates on from it", async () => {
    const { value, done } = await recalculated({
      sheets: sheet(
        row(
          1,
          number("A1", 12.45),
          dynamic("B1", `${SOC}(A1,"flooded")`),
          plain("C1", "_xlfn.STOCKHISTORY(B1)", "<v>5</v>"),
          plain("D1", "C1+B1", "<v>0</v>"),
          plain("E1", "[1]Other!A1*B1", "<v>6</v>"),
          plain("F1", "nowhere+B1", "<v>7</v>"),
          plain("G1", "_xldudf_OTHER_TOOL(B1)", `<v>8</v>`),
        ),
        row(2, plain("A2", "_xlfn.STOCKHISTORY(A1)", "<v>1</v>")),
      ),
    });
    expect([value("C1"), value("E1"), value("F1"), value("G1")]).toEqual([5, 6, 7, 8]);
    expect(value("D1")).toBeCloseTo(5.75, 2);
    // A2 does not depend on ours: it is none of our business.
    expect(done.kept.map(({ cell }) => cell).sort()).toEqual(["Shop!C1", "Shop!E1", "Shop!F1", "Shop!G1"]);
    expect(done.kept.map(({ reason }) => reason).join()).toMatch(/STOCKHISTORY is not known here/u);
  });

  it("never puts an error over a value for a reason of its own", async () => {
    const { value, done } = await recalculated({
      // A date text of another country: the engine may fail where the spreadsheet does not.
      sheets: sheet(
        row(
          1,
          number("A1", 12.45),
          dynamic("B1", `${SOC}(A1,"flooded")`),
          plain("C1", 'DATEVALUE("31.12.2026 oder so")*B1', "<v>46387</v>"),
          plain("D1", "C1+1", "<v>1</v>"),
        ),
      ),
    });
    expect(value("C1")).toBe(46387);
    expect(value("D1")).toBe(46388);
    expect(done.kept).toMatchObject([{ cell: "Shop!C1" }]);
  });

  it("does write an error that the values bring about", async () => {
    const { value, done } = await recalculated({
      sheets: sheet(
        row(
          1,
          number("A1", 11),
          dynamic("B1", `${SOC}(A1,"flooded")`),
          plain("C1", "1/B1", "<v>2</v>"),
          plain("D1", "MATCH(B1,A1:A1,0)", "<v>1</v>"),
        ),
      ),
    });
    expect(value("B1")).toBe(0);
    expect([value("C1"), value("D1")]).toEqual([{ error: "#DIV/0!" }, { error: "#N/A" }]);
    expect(done.kept).toEqual([]);
  });

  it("keeps the value of a function of ours that this version does not have", async () => {
    const { value, done } = await recalculated({
      sheets: sheet(row(1, number("A1", 1), dynamic("B1", "_xldudf_CHG_NOSUCH(A1)", "<v>3</v>"))),
    });
    expect(value("B1")).toBe(3);
    expect(done).toMatchObject({ written: 0, kept: [{ cell: "Shop!B1", formula: "=CHG.NOSUCH(A1)" }] });
  });

  it("does not hang on a formula that cannot be read", async () => {
    const { done } = await recalculated({
      sheets: sheet(row(1, number("A1", 1), dynamic("B1", `${SOC}(A1,"flooded"`, "<v>3</v>"))),
    });
    expect(done.kept).toMatchObject([{ cell: "Shop!B1", reason: expect.stringContaining("cannot be read") }]);
  });
});

describe("everything else in the file", () => {
  it("keeps its bytes: charts, formats, comments, the order of parts", async () => {
    const before = await writeXlsx({
      sheets: [
        {
          name: "Shop",
          rows: [
            ["rpm", "V", "charge"],
            [1000, 12.9],
            [2000, 14.1],
          ],
          cells: new Map([
            [
              "1,2",
              {
                value: null,
                type: "formula",
                formula: `${SOC}(B2,"flooded")`,
                formulaType: "array",
                formulaRef: "C2",
                formulaDynamic: true,
                style: { numFmt: "0%", font: { name: "Calibri", bold: true } },
              },
            ],
            ["2,2", { value: null, type: "formula", formula: "C2*2", comment: { text: "mine", author: "me" } }],
          ]),
          charts: [
            {
              type: "line",
              title: "Volts",
              series: [{ name: "V", values: "B2:B3" }],
              anchor: { from: { row: 5, col: 0 } },
            },
          ],
          conditionalRules: [
            {
              type: "cellIs",
              operator: "greaterThan",
              formula: "0.5",
              priority: 1,
              range: "C2:C3",
              style: { font: { name: "Calibri", color: { rgb: "FF0000" } } },
            },
          ],
          dataValidations: [{ type: "list", values: ["a", "b"], range: "E1:E5" }],
        },
      ],
    });
    const done = await recalculate(before, "shop.xlsx");
    const [was, is] = [unzipSync(before), unzipSync(done.bytes)];
    expect(Object.keys(is)).toEqual(Object.keys(was));
    expect(Object.keys(is).some((name) => name.includes("charts/"))).toBe(true);
    const changed = Object.keys(was).filter((name) => !Buffer.from(was[name]!).equals(Buffer.from(is[name]!)));
    expect(changed).toEqual(["xl/worksheets/sheet1.xml"]);
    const bare = (bytes: Uint8Array) =>
      new TextDecoder()
        .decode(bytes)
        .replaceAll(/<v>[^<]*<\/v>/gu, "")
        .replaceAll(/(<c [^>]*?) t="(?:str|b|e)"/gu, "$1");
    expect(bare(is["xl/worksheets/sheet1.xml"]!)).toBe(bare(was["xl/worksheets/sheet1.xml"]!));
  });

  it("gives back the very file where nothing is to be written", async () => {
    const none = storedBook({
      sheets: sheet(
        row(
          1,
          number("A1", 1),
          plain("B1", "A1+1", "<v>9</v>"),
          `<c r="C1" t="str"><f>"CHG.SOC("</f><v>CHG.SOC(</v></c>`,
        ),
      ),
    });
    expect((await recalculate(none, "shop.xlsx")).bytes).toBe(none);
    const first = await recalculate(
      storedBook({ sheets: sheet(row(1, number("A1", 12.45), dynamic("B1", `${SOC}(A1,"flooded")`))) }),
      "shop.xlsx",
    );
    expect(first.written).toBe(1);
    const second = await recalculate(first.bytes, "shop.xlsx");
    expect(second).toMatchObject({ written: 0, kept: [] });
    expect(second.bytes).toBe(first.bytes);
  });
});
