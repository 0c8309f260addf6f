import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { Zip, ZipDeflate } from "fflate";
import { parquetWriteBuffer } from "hyparquet-writer";
import { writeXlsx } from "hucre/xlsx";
import { auditChunk } from "../../../src/cli/audit/audit-chunk";
import { closePackage, openPackage } from "../../../src/hosts/file/open-package";
import { readWorkbook, valuesOf } from "../../../src/hosts/file/read-workbook";
import { readTables, tableFiles } from "../../../src/hosts/table/read-tables";
import type { TableChunk } from "../../../src/hosts/table/table-chunk";

const folder = mkdtempSync(path.join(tmpdir(), "tables-"));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string) => path.join(folder, name);
const put = (name: string, content: string | Uint8Array) => (writeFileSync(at(name), content), at(name));

async function all(file: string): Promise<TableChunk[]> {
  const chunks: TableChunk[] = [];
  for await (const chunk of readTables([file])) chunks.push(chunk);
  return chunks;
}

describe("tables of a fleet", () => {
  it("are read from CSV below title rows, whatever the delimiter, with quotes and line breaks inside cells", async () => {
    const file = put("a.csv", '\ufeffFleet list\n\nMachine;Rested voltage\n"Quad\n1";12,6\nQuad 2;12.4\n');
    const [chunk] = await all(file);
    expect(chunk!.header).toEqual(["Machine", "Rested voltage"]);
    expect(chunk!.rows).toEqual([
      ["Quad\n1", "12,6"],
      ["Quad 2", "12.4"],
    ]);
    expect([chunk!.firstRow, chunk!.opens]).toEqual([4, true]);
  });
  it("have units in the row below their headers, of which a blank row is left, from any chunk on", async () => {
    const machines = Array.from({ length: 2500 }, (_, i) => `Quad ${i},2026-05-04,12.6,0.06,80,ok`);
    const lines = [
      "Machine,Date,Rested voltage,Key-off draw,Batt temp (°F),Remarks",
      ",-,[V],A,°C,free text",
      ...machines,
    ];
    const file = put("units.csv", `${lines.join("\n")}\n`);
    const chunks = await all(file);
    const header = ["Machine", "Date", "Rested voltage (V)", "Key-off draw (A)", "Batt temp (°F)", "Remarks"];
    expect(chunks.map((chunk) => [chunk.header, chunk.firstRow, chunk.rows.length])).toEqual([
      [header, 2, 2000],
      [header, 2002, 501],
    ]);
    expect(chunks[0]!.rows.slice(0, 2)).toEqual([[], machines[0]!.split(",")]);
    const again: TableChunk[] = [];
    for await (const chunk of readTables([file], chunks[0]!.next)) again.push(chunk);
    expect(again).toEqual(chunks.slice(1));
    rmSync(file);
  });
  it("have no units in a row that holds anything else", async () => {
    for (const row of ["Quad 1,V,A", ",V,0.06", ",,", ",12.6,A", ",Ah,A"]) {
      const file = put("none.csv", `Machine,Rested voltage,Key-off draw\n${row}\nQuad 2,12.6,0.06\n`);
      const [chunk] = await all(file);
      expect([chunk!.header, chunk!.rows[0]]).toEqual([["Machine", "Rested voltage", "Key-off draw"], row.split(",")]);
      rmSync(file);
    }
  });
  it("go on from any chunk's end with the very same rows", async () => {
    const file = put(
      "long.csv",
      `Machine,Rested voltage\n${Array.from({ length: 5001 }, (_, i) => `"Ü, ${i}",12.${i % 10}`).join("\n")}\n`,
    );
    const chunks = await all(file);
    expect(chunks.map((c) => c.rows.length)).toEqual([2000, 2000, 1001]);
    const again: TableChunk[] = [];
    for await (const chunk of readTables([file], chunks[0]!.next)) again.push(chunk);
    expect(again).toEqual(chunks.slice(1));
  });
  it("are read from .xlsx and Parquet alike", async () => {
    const rows = [
      ["Machine", "Rested voltage"],
      ["Quad 1", 12.6],
      ["Quad 2", 12.4],
    ];
    put(
      "b.xlsx",
      await writeXlsx({
        sheets: [
          { name: "Notes", rows: [["nothing"]] },
          { name: "Fleet", rows: [["Spring"], ...rows] },
        ],
      }),
    );
    put(
      "c.parquet",
      new Uint8Array(
        parquetWriteBuffer({
          columnData: [
            { name: "Machine", data: ["Quad 1", "Quad 2"], type: "STRING" },
            { name: "Rested voltage", data: [12.6, 12.4], type: "DOUBLE" },
          ],
        }),
      ),
    );
    for (const [file, first] of [
      ["b.xlsx", 3],
      ["c.parquet", 2],
    ] as const) {
      const [chunk] = await all(at(file));
      expect([file, chunk!.header, chunk!.rows, chunk!.firstRow]).toEqual([file, rows[0], rows.slice(1), first]);
    }
  });
  it("are read from a long .xlsx as its sheet holds them, and from any chunk on", async () => {
    const rows = Array.from({ length: 4300 }, (_, i) => [
      `Quad & ${i + 1}`,
      "",
      i % 7 === 0 ? "" : 12 + (i % 90) / 100,
    ]);
    const bytes = await writeXlsx({
      sheets: [
        {
          name: "Shop",
          rows: [
            ["Machine", "Rested voltage"],
            ["Quad 1", 12.6],
          ],
        },
        { name: "Fleet", rows: [["Spring <2026>"], [], ["Machine", "Colour", "Rested voltage"], ...rows] },
      ],
    });
    const file = put("long.xlsx", bytes);
    const chunks = await all(file);
    expect(chunks.map(({ rows: some, firstRow, opens }) => [some.length, firstRow, opens])).toEqual([
      [2000, 4, true],
      [2000, 2004, false],
      [300, 4004, false],
    ]);
    const whole = valuesOf(readWorkbook(bytes, file).sheets[1]!);
    expect(whole.slice(2)).toEqual([chunks[0]!.header, ...chunks.flatMap((chunk) => chunk.rows)]);
    expect(whole[4302]).toEqual(["Quad & 4300", "", rows[4299]![2]]);
    for (const [i, { next }] of chunks.entries()) {
      const rest: TableChunk[] = [];
      for await (const chunk of readTables([file], next)) rest.push(chunk);
      expect(rest).toEqual(chunks.slice(i + 1));
    }
    rmSync(file);
  });
  it("are parted by what parts their headers, whatever stands in titles, numbers and notes", async () => {
    const header = ["Machine", "Rested voltage", "Key-off draw"];
    for (const [mark, ...lines] of [
      [";", "Round of the yard, spring, all machines, by hand", "Quad 1;12,71;3,5"],
      [";", "", 'Quad 1;12,71;3,5;"called, no answer, will call, again, later"'],
      ["|", "", "Quad 1|12,71|3,5"],
      ["\t", "a, b, c, d", "Quad 1\t12,71\t3,5"],
    ]) {
      const file = put("parted.csv", [lines[0], header.join(mark), lines[1]].join("\r\n"));
      const [chunk] = await all(file);
      expect([chunk!.header, chunk!.rows[0]!.slice(0, 3)]).toEqual([header, ["Quad 1", "12,71", "3,5"]]);
      rmSync(file);
    }
  });
  it("have blank cells where Parquet holds no value or none that is a number", async () => {
    const columnData = [
      { name: "Machine", data: ["Quad 1", null, "Quad 3"], type: "STRING" as const },
      { name: "Rested voltage", data: [12.6, Number.NaN, null], type: "DOUBLE" as const },
    ];
    const file = put("blank.parquet", new Uint8Array(parquetWriteBuffer({ columnData })));
    expect((await all(file))[0]!.rows).toEqual([
      ["Quad 1", 12.6],
      ["", ""],
      ["Quad 3", ""],
    ]);
    rmSync(file);
  });
  it("say of a formula that was never calculated that it has no value, and nothing of one that is blank", async () => {
    const parts = new Map(openPackage(await writeXlsx({ sheets: [{ name: "Fleet", rows: [["x"]] }] }), "made"));
    const text = (word: string) => `<c t="inlineStr"><is><t>${word}</t></is></c>`;
    const sheet = `<sheetData><row r="1">${text("Machine")}${text("Rested voltage")}${text("Key-off draw")}</row>
      <row r="2">${text("Quad 1")}<c r="B2"><f>12+0.6</f></c><c r="C2" t="str"><f>IF(1,"")</f><v></v></c></row></sheetData>`;
    parts.set("xl/worksheets/sheet1.xml", new TextEncoder().encode(`<worksheet xmlns="m">${sheet}</worksheet>`));
    const file = put("formula.xlsx", closePackage(parts));
    expect((await all(file))[0]!.rows).toEqual([["Quad 1", "formula without a value", ""]]);
    rmSync(file);
  });
  it("have headers in two rows, the upper one of groups as merged cells leave it", async () => {
    const rows = [
      ["Yard north", "", "", "", "", "", "", ""],
      ["Asset", "Visit date", "Battery", "", "", "Charging", "", "Key-off draw"],
      ["", "", "Rest V", "Crank V", "CCA", "Idle", "5000 rpm", "mA"],
      ["Quad 1", "2026-01-05", "12,7", "10,2", "280", "13,8", "14,3", "4"],
    ];
    const header = [
      "Asset",
      "Visit date",
      "Battery Rest V",
      "Battery Crank V",
      "Battery CCA",
      "Charging voltage Idle",
      "Charging voltage 5000 rpm",
      "Key-off draw mA",
    ];
    const file = put("groups.csv", rows.map((row) => row.join(";")).join("\n"));
    const book = put("groups.xlsx", await writeXlsx({ sheets: [{ name: "Fleet", rows }] }));
    for (const [chunk] of [await all(file), await all(book)]) {
      expect(chunk).toMatchObject({ header, rows: [rows[3]], firstRow: 4 });
      expect(auditChunk(chunk!, {})).toMatchObject({ rows: [{ machine: "Quad 1" }], complaints: [] });
    }
    rmSync(file);
    rmSync(book);
  });
  it("have no groups in a title, nor in a machine of which little was read", async () => {
    for (const rows of [
      ["Battery round", "Machine;Rested voltage;Draw", "Quad 1;12,7;4"],
      ["Battery;;", "Machine;Rested voltage;Draw", "Quad 1;12,7;4"],
      ["Machine;;Draw", "Quad 1;;drain", "Quad 2;;4"],
    ]) {
      const file = put("plain.csv", rows.join("\n"));
      const header = rows.find((row) => row.startsWith("Machine"))!;
      expect((await all(file))[0]!.header).toEqual(header.split(";"));
      rmSync(file);
    }
  });
  it("are read from the longest sheet that is not hidden, and the other sheets with readings are named", async () => {
    const header = ["Machine", "Rested voltage"];
    const sheet = (name: string, count: number, hidden = false) => ({
      name,
      hidden,
      rows: [header, ...Array.from({ length: count }, (_, i) => [`${name} ${i}`, 12.6])],
    });
    const prices = { name: "Prices", rows: [["Part number", "Price"], ...Array.from({ length: 9 }, () => ["P", 1])] };
    const file = (name: string, sheets: Parameters<typeof writeXlsx>[0]["sheets"]) =>
      writeXlsx({ sheets }).then((bytes) => put(name, bytes));
    const [chunk] = await all(
      await file("yards.xlsx", [sheet("North", 2), sheet("South", 3), sheet("Old", 5, true), prices]),
    );
    expect([chunk!.rows.length, chunk!.rows[0]![0]]).toEqual([3, "South 0"]);
    expect(chunk!.notRead).toEqual(["North", "Old"]);
    const job = { name: "Job", rows: [["Rested voltage", 12.6], ...Array.from({ length: 9 }, () => ["Key-off draw", 3])] };
    const [fleet] = await all(await file("hidden.xlsx", [job, sheet("North", 2)]));
    expect([fleet!.rows[0]![0], fleet!.notRead]).toEqual(["North 0", ["Job"]]);
    const [hidden] = await all(await file("hidden.xlsx", [sheet("Old", 1, true)]));
    expect([hidden!.rows.length, hidden!.notRead]).toEqual([1, undefined]);
    rmSync(at("yards.xlsx"));
    rmSync(at("hidden.xlsx"));
  });
  it("are read from .xlsx whose rows are spelt with a prefix, without numbers, empty, or with gaps", async () => {
    const cell = (text: string) => `<x:c t="inlineStr"><x:is><x:t>${text}</x:t></x:is></x:c>`;
    const sheet =
      `<x:row r="1">${cell("Machine")}${cell("Rested voltage")}</x:row><x:row r="2"/>` +
      `<x:row r="4">${cell("Quad 1")}<x:c><x:v>12.6</x:v></x:c></x:row><x:row>${cell("Quad 2")}</x:row><x:row/>`;
    const bytes = await writeXlsx({ sheets: [{ name: "Fleet", rows: [["x"]] }] });
    const parts = new Map(openPackage(bytes, "made"));
    parts.set(
      "xl/worksheets/sheet1.xml",
      new TextEncoder().encode(`<x:worksheet xmlns:x="m"><x:sheetData>${sheet}</x:sheetData></x:worksheet>`),
    );
    const file = put("spelt.xlsx", closePackage(parts));
    expect(await all(file)).toMatchObject([
      { header: ["Machine", "Rested voltage"], firstRow: 2, rows: [[], [], ["Quad 1", 12.6], ["Quad 2"], []] },
    ]);
    rmSync(file);
  });
  it("have the days of an .xlsx that counts them from 1904", async () => {
    const rows = [
      ["Machine", "Date", "Rested voltage"],
      ["Quad 1", 39448, 12.6],
      ["Quad 2", "2 Jan 2012", 12.4],
    ];
    const parts = new Map(openPackage(await writeXlsx({ sheets: [{ name: "Fleet", rows }] }), "made"));
    const workbook = new TextDecoder().decode(parts.get("xl/workbook.xml")).replace(/<workbookPr[^>]*\/>/u, "");
    parts.set(
      "xl/workbook.xml",
      new TextEncoder().encode(workbook.replace("<sheets>", '<workbookPr date1904="1"/><sheets>')),
    );
    const file = put("from-1904.xlsx", closePackage(parts));
    // 1 January 2012 is day 40909 where days count from 1900, and 39447 where they count from 1904 [ECMA-376].
    expect((await all(file))[0]!.rows).toEqual([
      ["Quad 1", 40910, 12.6],
      ["Quad 2", "2 Jan 2012", 12.4],
    ]);
    rmSync(file);
  });
  it("are read from .xlsx whose parts say their size behind them, whatever their bytes look like", async () => {
    // What stands behind a part of an archive, in a name.
    const names = Array.from({ length: 3000 }, (_, i) => (i === 2500 ? "Quad PK\u0007\u0008" : `Quad ${i + 1}`));
    const cell = (text: string) => `<c t="inlineStr"><is><t>${text}</t></is></c>`;
    const lines = names.map((name) => `<row>${cell(name)}<c><v>12.5</v></c></row>`).join("");
    const sheet = `<sheetData><row>${cell("Machine")}${cell("Rested voltage")}</row>${lines}</sheetData>`;
    const parts = new Map(openPackage(await writeXlsx({ sheets: [{ name: "Fleet", rows: [["x"]] }] }), "made"));
    parts.set("xl/worksheets/sheet1.xml", new TextEncoder().encode(`<worksheet xmlns="m">${sheet}</worksheet>`));
    const bytes: Uint8Array[] = [];
    const archive = new Zip((_error, piece) => bytes.push(piece));
    for (const [name, data] of parts) {
      const part = new ZipDeflate(name, { level: 0 });
      archive.add(part);
      part.push(data, true);
    }
    archive.end();
    const file = put("streamed.xlsx", Buffer.concat(bytes));
    expect((await all(file)).flatMap((chunk) => chunk.rows)).toEqual(names.map((name) => [name, 12.5]));
    rmSync(file);
  });
  it("are read from .xlsx as far as it is sound, and then it is named", async () => {
    const rows = Array.from({ length: 60_000 }, (_, i) => [`Quad ${i + 1}`, 12 + ((i * 7919) % 9973) / 10_000]);
    const bytes = await writeXlsx({ sheets: [{ name: "Fleet", rows: [["Machine", "Rested voltage"], ...rows] }] });
    const packed = Buffer.from(bytes);
    const sheet = packed.indexOf("xl/worksheets/sheet1.xml");
    packed.fill(0xff, sheet + 400_000, sheet + 410_000);
    const file = put("broken.xlsx", packed);
    let read = 0;
    const reading = async () => {
      for await (const chunk of readTables([file])) read += chunk.rows.length;
    };
    await expect(reading()).rejects.toThrow(/broken\.xlsx is damaged or cut short/u);
    expect(read).toBeGreaterThanOrEqual(2000);
    rmSync(file);
  });
  it("are read from Parquet group by group, cut alike however it is grouped, and from any chunk on", async () => {
    const machines = Array.from({ length: 4300 }, (_, i) => `Quad ${i + 1}`);
    const grouped = (name: string, rowGroupSize: number) =>
      put(
        name,
        new Uint8Array(
          parquetWriteBuffer({ columnData: [{ name: "Machine", data: machines, type: "STRING" }], rowGroupSize }),
        ),
      );
    const chunks = await all(grouped("groups.parquet", 1500));
    expect(chunks.map(({ rows, firstRow, opens }) => [rows.length, firstRow, opens])).toEqual([
      [2000, 2, true],
      [2000, 2002, false],
      [300, 4002, false],
    ]);
    expect(chunks.flatMap(({ rows }) => rows).map(([name]) => name)).toEqual(machines);
    for (const [i, { next }] of chunks.entries()) {
      const rest: TableChunk[] = [];
      for await (const chunk of readTables([at("groups.parquet")], next)) rest.push(chunk);
      expect(rest).toEqual(chunks.slice(i + 1));
    }
    const whole = await all(grouped("whole.parquet", 5000));
    expect(whole.map((chunk) => ({ ...chunk, file: "" }))).toEqual(chunks.map((chunk) => ({ ...chunk, file: "" })));
    for (const name of ["groups.parquet", "whole.parquet"]) rmSync(at(name));
  });
  it("have their header below columns that were named by a machine", async () => {
    const file = put(
      "named.parquet",
      new Uint8Array(
        parquetWriteBuffer({
          columnData: [
            { name: "c0", data: ["Machine", "Quad 1"], type: "STRING" },
            { name: "c1", data: ["Rested voltage", "12.6"], type: "STRING" },
          ],
        }),
      ),
    );
    expect(await all(file)).toMatchObject([
      { header: ["Machine", "Rested voltage"], rows: [["Quad 1", "12.6"]], firstRow: 3, opens: true },
    ]);
    rmSync(file);
  });
  it("old encodings keep their letters", async () => {
    const file = put("latin.csv", Buffer.from("Maschine;Ruhespannung\nMäher;12,6\n", "latin1"));
    expect((await all(file))[0]!.rows).toEqual([["Mäher", "12,6"]]);
  });
  it("the Unicode text that a spreadsheet saves is read from any chunk on", async () => {
    const lines = ["Máquina\tTensión en reposo", ...Array.from({ length: 2500 }, (_, i) => `Cuatriciclo ñ${i}\t12,6`)];
    const file = put("unicode.txt", Buffer.from(`\ufeff${lines.join("\r\n")}\r\n`, "utf16le"));
    const chunks = await all(file);
    expect(chunks[0]!.header).toEqual(["Máquina", "Tensión en reposo"]);
    expect(chunks.flatMap(({ rows }) => rows)).toEqual(lines.slice(1).map((line) => line.split("\t")));
    const again: TableChunk[] = [];
    for await (const chunk of readTables([file], chunks[0]!.next)) again.push(chunk);
    expect(again).toEqual(chunks.slice(1));
    rmSync(file);
  });
  it("old encodings are told by a letter far down the file, and UTF-8 is one however it is cut", async () => {
    const names = [...Array.from({ length: 140_000 }, (_, i) => `Quad ${i % 1000}`), "Mäher"];
    const text = `Machine;Rested voltage\n${names.map((name) => `${name};12,6\n`).join("")}`;
    for (const bytes of [Buffer.from(text, "latin1"), Buffer.from(text.replaceAll("Quad", "ÄÖ"))]) {
      const file = put("late.csv", bytes);
      const chunks = await all(file);
      expect(chunks.at(-1)!.rows.at(-1)).toEqual(["Mäher", "12,6"]);
      rmSync(file);
    }
  });
  it("of a folder are taken by name", () => {
    expect(tableFiles(folder).map((f) => path.basename(f))).toEqual([
      "a.csv",
      "b.xlsx",
      "c.parquet",
      "latin.csv",
      "long.csv",
    ]);
  });
  const refused: [string, () => string, RegExp][] = [
    ["an empty file", () => put("x1.csv", ""), /is empty/],
    ["a file without a known header", () => put("x2.csv", "a,b\n1,2\n"), /no header row that is understood/],
    ["a binary file named .csv", () => put("x3.csv", Buffer.from([0x50, 0x4b, 3, 4, 0, 0])), /not plain text/],
    ["text named .xlsx", () => put("x4.xlsx", "Machine,Rested voltage"), /is not a workbook/],
    ["text named .parquet", () => put("x5.parquet", "Machine"), /cannot be read as Parquet/],
    ["another kind", () => put("x6.pdf", "x"), /none of \.csv/],
  ];
  it.each(refused)("refuse %s and say why", async (_, make, message) => {
    const file = make();
    await expect(all(file)).rejects.toThrow(message);
    rmSync(file);
  });
  it("name a path that is not there", () => expect(() => tableFiles(at("nowhere.csv"))).toThrow(/no file or folder/));
});
