import {
  appendFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { parse } from "csv-parse/sync";
import { writeXlsx } from "hucre/xlsx";
import { PartFile } from "../../src/cli/audit/part-file";
import { auditChunk } from "../../src/cli/audit/audit-chunk";
import { main } from "../../src/cli/main";
import { verdict } from "../../src/functions/verdict";
import { readWorkbook } from "../../src/hosts/file/read-workbook";
import { readTables } from "../../src/hosts/table/read-tables";

const folder = mkdtempSync(path.join(tmpdir(), "audit-"));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string) => path.join(folder, name);

async function run(...args: string[]) {
  const out: string[] = [];
  const complaints: string[] = [];
  const code = await main(["audit", ...args], {
    out: (line) => out.push(line),
    complain: (line) => complaints.push(line),
  });
  return { code, out: out.join("\n"), complaints: complaints.join("\n") };
}

const HEADER = [
  "Machine",
  "Date",
  "Battery type",
  "Capacity (Ah)",
  "Rested voltage (V)",
  "Key-off draw (mA)",
  "Cranking voltage",
  "Colour",
];
const ROWS = [
  ["Quad 1", "2026-05-04", "agm", "14", "12.81", "1", "10.9", "red"],
  ["Quad 2", "2026-05-05", "agm", "14", "12.32", "350", "10.1", "blue"],
  ["Quad 3", "2026-06-05", "flooded", "12", "abc", "1", "10.4", "blue"],
  ["", "", "", "", "", "", "", ""],
  ["Quad 4", "2026-06-09", "flooded", "12", "12,1 V", "2", "9.2", "green"],
  ["Total", "", "", "", "", "353", "", ""],
];
const csv = [HEADER, ...ROWS]
  .map((row) => row.map((cell) => (cell.includes(",") ? `"${cell}"` : cell)).join(","))
  .join("\n");

describe("audit", () => {
  writeFileSync(at("fleet.csv"), `${csv}\n`);

  it("writes a row for each machine, with what VERDICT says of it, and lists what was not understood", async () => {
    const done = await run(at("fleet.csv"), "-o", at("a.csv"), "--threads", "1", "--due", at("due.csv"));
    expect(done.code).toBe(0);
    expect(done.complaints.split("\n")).toEqual([
      "100 %: 4 rows",
      "This column was not used: Colour.",
      "Each row counts as a machine that came with a complaint; audit routine visits with --in-order 0.9, say.",
    ]);
    const rows = parse(readFileSync(at("a.csv")), { columns: true }) as Record<string, string>[];
    expect(rows.map((r) => [r.Row, r.Machine, r.Date])).toEqual([
      ["2", "Quad 1", "2026-05-04"],
      ["3", "Quad 2", "2026-05-05"],
      ["4", "Quad 3", "2026-06-05"],
      ["6", "Quad 4", "2026-06-09"],
    ]);
    const expected = verdict([HEADER, ROWS[1]!])[0]!;
    expect([rows[1]!.Part, rows[1]!.State, rows[1]!.Verdict]).toEqual([expected[0], expected[1], expected[3]]);
    expect(rows[2]!.State).toBe("not understood");
    const complaints = parse(readFileSync(at("a.not-understood.csv")), { columns: true }) as Record<string, string>[];
    expect(complaints.map((c) => [c.Row, c.Column])).toEqual([
      ["7", ""],
      ["header", "Colour"],
      ["4", "Rested voltage (V)"],
    ]);
    const due = parse(readFileSync(at("due.csv")), { columns: true }) as Record<string, string>[];
    expect(due.map((r) => Number(r.Order))).toEqual(due.map((r) => Number(r.Order)).sort((a, b) => a - b));
    expect(due[0]!.Machine).toBe("Quad 2");
    expect(existsSync(at("a.csv.part")) || existsSync(at("a.csv.mark"))).toBe(false);
  });

  it("says what of the machine data was not understood, and whose names meet no row", async () => {
    const data = [
      "Machine;Battery type;Poles;Paint",
      "QUAD 1;agm;18;A",
      "Quad 2;agm;many;A",
      "Quad-4;agm;18;A",
      "quad 1;gel;18;B",
    ];
    writeFileSync(at("machines.csv"), data.join("\n"));
    const done = await run(
      at("fleet.csv"),
      "-o",
      at("with-data.csv"),
      "--machines",
      at("machines.csv"),
      "--threads",
      "1",
    );
    expect(done.complaints).toContain("These columns were not used: Paint, Colour.");
    expect(done.complaints).toContain('machines.csv", row 3: Poles: "many" cannot be read; enter a number.');
    expect(done.complaints).toContain('machines.csv", row 5: "quad 1" comes again; of its rows the last counts.');
    expect(done.complaints).toContain('Without machine data: 2 of 4 machines, "Quad 3", "Quad 4".');
    expect(done.complaints).toContain('Machine data that no row asked for: 1 of 3, "Quad-4".');
    const listed = parse(readFileSync(at("with-data.not-understood.csv")), { columns: true }) as Record<
      string,
      string
    >[];
    expect(listed.slice(0, 3).map(({ Row: row, Column: column }) => [row, column])).toEqual([
      ["header", "Paint"],
      ["3", "Poles"],
      ["5", ""],
    ]);
    writeFileSync(at("unnamed.csv"), "Machine,Rested voltage\n,12.6\nquad 1,12.5\n");
    const met = await run(
      at("unnamed.csv"),
      "-o",
      at("unnamed-out.csv"),
      "--machines",
      at("machines.csv"),
      "--threads",
      "1",
    );
    expect(met.complaints).not.toContain("Without machine data");
    const folder = await run(at("fleet.csv"), "-o", at("no.csv"), "--machines", path.dirname(at("fleet.csv")));
    expect([folder.code, folder.complaints]).toEqual([1, expect.stringContaining("is a folder; name the one file")]);
  });
  it("names columns that hold something below a blank header", async () => {
    writeFileSync(at("unheaded.csv"), "Machine,,Rested voltage,\nQuad 1,red,12.8,\nQuad 2,,12.7,,gate 7\n");
    const done = await run(at("unheaded.csv"), "-o", at("unheaded-out.csv"), "--threads", "1");
    expect(done.complaints).toContain("These columns were not used: column B, column E.");
  });
  it("says where no column tells which machine a row is", async () => {
    writeFileSync(at("nameless.csv"), "Thing,Date,Rested voltage\nQuad 1,2026-05-04,12.8\n");
    const done = await run(at("nameless.csv"), "-o", at("nameless-out.csv"), "--threads", "1");
    expect(done.complaints).toContain("no column says which machine a row is");
  });
  it("judges a machine by the latest visit at which anything was read", async () => {
    const rows = ["Quad 2,2026-05-05,350,10.1", "Quad 2,2026-06-05,,", "Quad 9,2026-06-05,,", "Quad 9,2026-07-05,,"];
    writeFileSync(at("missed.csv"), ["Machine,Date,Key-off draw (mA),Cranking voltage", ...rows].join("\n"));
    await run(at("missed.csv"), "-o", at("missed.json"), "--due", at("missed-due.csv"), "--threads", "1");
    const due = parse(readFileSync(at("missed-due.csv")), { columns: true }) as Record<string, string>[];
    expect(due.map(({ Row: row, Machine: machine }) => [row, machine])).toEqual([["2", "Quad 2"]]);
    const { summary } = JSON.parse(readFileSync(at("missed.json"), "utf8")) as {
      summary: { machines: number; machineStates: Record<string, number> };
    };
    expect([summary.machines, summary.machineStates["not read"]]).toEqual([2, 1]);
  });
  it("names the sheets of a workbook that were not read, at the end and in the list", async () => {
    const rows = [
      ["Machine", "Rested voltage"],
      ["Quad 1", 12.8],
    ];
    const sheets = [
      { name: "North", rows: [...rows, ["Quad 2", 12.7]] },
      { name: "South", rows },
    ];
    writeFileSync(at("yards.xlsx"), await writeXlsx({ sheets }));
    const done = await run(at("yards.xlsx"), "-o", at("yards.csv"), "--threads", "1");
    expect(done.complaints).toContain('yards.xlsx": the sheet "South" was not read');
    const listed = parse(readFileSync(at("yards.not-understood.csv")), { columns: true }) as Record<string, string>[];
    expect(listed.map(({ What: what }) => what)).toEqual([expect.stringContaining('the sheet "South" was not read')]);
  });
  it("weighs routine visits as such, and goes on from no run that did not", async () => {
    const routine = ["--in-order", "90 %", "--threads", "1"];
    const asComplaints = "Each row counts as a machine that came with a complaint";
    expect((await run(at("fleet.csv"), "-o", at("routine.csv"), ...routine)).code).toBe(0);
    const rows = parse(readFileSync(at("routine.csv")), { columns: true }) as Record<string, string>[];
    const settings = [["In order beforehand", 0.9]];
    const [part, state, chance] = verdict([HEADER, ROWS[0]!], [], [], settings)[0]!;
    expect([rows[0]!.Part, rows[0]!.State, rows[0]!.Chance]).toEqual([part, state, String(Number(chance).toFixed(4))]);
    expect(chance).not.toBe(verdict([HEADER, ROWS[0]!])[0]![2]);
    for (const [name, wishes, said] of [
      ["routine.xlsx", routine, "Routine visits: 90 % of the machines"],
      ["complaints.xlsx", ["--threads", "1"], asComplaints],
    ] as const) {
      const { complaints } = await run(at("fleet.csv"), "-o", at(name), ...wishes);
      expect(complaints.includes(asComplaints)).toBe(wishes !== routine);
      const [summary] = readWorkbook(readFileSync(at(name)), name).sheets;
      expect(String(summary!.at(2, 0)!.value)).toContain(said);
    }
    const bad = await run(at("fleet.csv"), "-o", at("bad.csv"), "--in-order", "nine");
    expect([bad.code, bad.complaints]).toEqual([1, expect.stringContaining("enter a share from 0.01 to 0.99")]);

    const { size, mtimeMs } = statSync(at("fleet.csv"));
    const part0 = new PartFile(at("again.csv"), `${path.resolve(at("fleet.csv"))} ${size} ${mtimeMs}`);
    const first = (await readTables([at("fleet.csv")], part0.open()).next()).value!;
    part0.add(auditChunk(first, {}), first.next);
    part0.close();
    const again = await run(at("fleet.csv"), "-o", at("again.csv"), ...routine);
    expect([again.code, again.complaints]).toEqual([0, expect.not.stringContaining("Going on")]);
    expect(readFileSync(at("again.csv"))).toEqual(readFileSync(at("routine.csv")));
  });

  it("reads dates as the others of their file are written, also where a stopped run goes on", async () => {
    const row = (i: number) => [
      `M ${i}`,
      `${String((i % 28) + 1).padStart(2, "0")}/04/2026`,
      "agm",
      "14",
      "12.6",
      "",
      "",
      "",
    ];
    const days = [HEADER, ...Array.from({ length: 2500 }, (_, i) => row(i))];
    writeFileSync(at("days.csv"), days.map((r) => r.join(",")).join("\n"));
    expect((await run(at("days.csv"), "-o", at("days-out.csv"), "--threads", "1")).code).toBe(0);
    const dates = (name: string) =>
      (parse(readFileSync(at(name)), { columns: true }) as Record<string, string>[]).map((r) => r.Date);
    const expected = days.slice(1).map((r) => r[1]!.split("/").reverse().join("-"));
    expect(dates("days-out.csv")).toEqual(expected);
    expect(existsSync(at("days-out.noticed.csv"))).toBe(false);

    const { size, mtimeMs } = statSync(at("days.csv"));
    const part = new PartFile(at("days-again.csv"), `${path.resolve(at("days.csv"))} ${size} ${mtimeMs}`);
    const first = (await readTables([at("days.csv")], part.open()).next()).value!;
    part.add(auditChunk(first, {}), first.next);
    part.close();
    const again = await run(at("days.csv"), "-o", at("days-again.csv"), "--threads", "1");
    expect(again.complaints).toMatch(/Going on after 2000 rows/);
    expect(dates("days-again.csv")).toEqual(expected);
  });

  it("writes the same as a workbook with a summary, and as JSON", async () => {
    expect((await run(at("fleet.csv"), "-o", at("a.xlsx"), "--threads", "1")).code).toBe(0);
    const book = readWorkbook(readFileSync(at("a.xlsx")), "a.xlsx");
    expect(book.sheets.map((s) => s.name)).toEqual(["Summary", "Results", "Not understood"]);
    expect([...book.parts.keys()].some((name) => /chart/.test(name))).toBe(true);
    expect(book.sheets[1]!.at(2, 2)!.value).toBe("Quad 2");
    expect((await run(at("fleet.csv"), "-o", at("a.json"), "--threads", "1")).code).toBe(0);
    const json = JSON.parse(readFileSync(at("a.json"), "utf8"));
    expect(json.rows).toHaveLength(4);
    expect(json.summary.rows).toBe(4);
    expect(json.summary.months.map((m: unknown[]) => m[0])).toEqual(["2026-05", "2026-06"]);
  });

  it("goes on where a run ended that was stopped between chunks or in the middle of one", async () => {
    const many = [
      HEADER,
      ...Array.from({ length: 2500 }, (_, i) => [`M ${i}`, "", "agm", "14", "", "", i % 9 ? "" : "10.5", ""]),
    ];
    writeFileSync(at("many.csv"), many.map((r) => r.join(",")).join("\n"));
    expect((await run(at("many.csv"), "-o", at("whole.csv"), "--threads", "1")).code).toBe(0);

    const { size, mtimeMs } = statSync(at("many.csv"));
    const part = new PartFile(at("broken.csv"), `${path.resolve(at("many.csv"))} ${size} ${mtimeMs}`);
    const chunks = readTables([at("many.csv")], part.open());
    const first = (await chunks.next()).value!;
    part.add(auditChunk(first, {}), first.next);
    part.close();
    // Half a line of the next chunk had been written when the run ended.
    appendFileSync(at("broken.csv.part"), '{"row":{"file":"x');
    const resumed = await run(at("many.csv"), "-o", at("broken.csv"), "--threads", "1");
    expect(resumed.complaints).toContain("Going on after 2000 rows");
    expect(readFileSync(at("broken.csv"), "utf8")).toBe(readFileSync(at("whole.csv"), "utf8"));
  });

  it("lists much that was not understood in part in the workbook, and whole beside it", async () => {
    const bad = Array.from({ length: 5001 }, (_, i) => [`M ${i}`, "", "agm", "14", "?", "??", "", ""]);
    writeFileSync(at("bad.csv"), [HEADER, ...bad].map((r) => r.join(",")).join("\n"));
    const done = await run(at("bad.csv"), "-o", at("bad.xlsx"), "--threads", "1");
    expect(done.code).toBe(0);
    // Two cells a row and the column that is no reading.
    const count = 2 * bad.length + 1;
    const listed = parse(readFileSync(at("bad.not-understood.csv")), { columns: true }) as Record<string, string>[];
    expect(listed).toHaveLength(count);
    expect(done.out).toContain("bad.not-understood.csv");
    const book = readWorkbook(readFileSync(at("bad.xlsx")), "bad.xlsx");
    const sheet = book.sheets.find(({ name }) => name === "Not understood")!;
    expect(book.tables.find(({ name }) => name === "NotUnderstood")!.at.rows).toBe(1 + 10_000);
    for (const i of [0, 1, 9_999])
      expect([sheet.at(i + 1, 1)!.value, sheet.at(i + 1, 2)!.value].map(String)).toEqual([
        listed[i]!.Row,
        listed[i]!.Column,
      ]);
    expect(sheet.at(10_002, 0)!.value).toBe(`3 more; all ${count} are in bad.not-understood.csv.`);
    expect(book.sheets[0]!.at(3, 0)!.value).toMatch(/^10003 cells .* all of them in bad\.not-understood\.csv\.$/u);
  });

  it("names rows that are lost in a cell after a quote that is not closed, and no note of several lines", async () => {
    const rows = [
      'M 1,12.6,"a note, of',
      'two, lines"',
      'M 2,"12.6,ok',
      "M 3,12.5,ok",
      "M 4,12.4,ok",
      'M 5,12.3,"',
      "M 6,12.2,ok",
    ];
    writeFileSync(at("quote.csv"), ["Machine,Rested voltage,Remarks", ...rows].join("\n"));
    expect((await run(at("quote.csv"), "-o", at("quote-out.csv"), "--threads", "1")).code).toBe(0);
    const complaints = parse(readFileSync(at("quote-out.not-understood.csv")), { columns: true }) as Record<
      string,
      string
    >[];
    const lost = complaints.filter(({ What }) => What!.includes("a quote that is not closed"));
    expect(lost.map(({ Row, Column, What }) => [Row, Column, What!.slice(0, 6)])).toEqual([
      ["3", "Rested voltage", "3 rows"],
    ]);
  });

  it("refuses more rows than a workbook takes before it audits any", async () => {
    const note = '"two\nlines"';
    writeFileSync(at("long.csv"), `Machine,Rested voltage,Notes\n${`Quad,12.6,${note}\n,,\n`.repeat(202_000)}`);
    const done = await run(at("long.csv"), "-o", at("long.xlsx"), "--threads", "1");
    expect(done).toEqual({
      code: 1,
      out: "",
      complaints:
        "chargewright audit: about 202001 rows, and a workbook of results takes 200000 at most; write a .csv or .json instead, as in: -o results.csv.",
    });
    expect(readdirSync(folder).filter((name) => name.startsWith("long.xlsx"))).toEqual([]);
  });

  it("refuses them as soon as they are passed where the count was not clear before", async () => {
    // A run that had done all but the last rows: only the count of the rows says more.
    writeFileSync(at("just.csv"), `Machine,Rested voltage\n${"Quad,12.6\n".repeat(3)}`);
    const { size, mtimeMs } = statSync(at("just.csv"));
    const part = new PartFile(at("just.xlsx"), `${path.resolve(at("just.csv"))} ${size} ${mtimeMs}`);
    part.open();
    part.add({ rows: [], complaints: [] }, { file: 0, rows: 0, byte: 0 });
    part.close();
    const mark = JSON.parse(readFileSync(at("just.xlsx.mark"), "utf8")) as object;
    writeFileSync(at("just.xlsx.mark"), JSON.stringify({ ...mark, rows: 199_998 }));
    const done = await run(at("just.csv"), "-o", at("just.xlsx"), "--threads", "1");
    expect(done.code).toBe(1);
    expect(done.complaints).toMatch(/more than 200000 rows, and a workbook .* \.csv or \.json instead/u);
    expect(readdirSync(folder).filter((name) => name.startsWith("just.xlsx"))).toEqual([]);
  });

  it("leaves no list of an earlier run beside new results", async () => {
    const name = (file: string) => at(`again${file}`);
    writeFileSync(name("-in.csv"), "Machine,Rested voltage\nQuad 1,abc\n");
    await run(name("-in.csv"), "-o", name(".csv"), "--threads", "1");
    expect(readFileSync(name(".not-understood.csv"), "utf8")).toContain("abc");
    writeFileSync(name("-in.csv"), "Machine,Rested voltage\nQuad 1,12.6\n");
    const done = await run(name("-in.csv"), "-o", name(".csv"), "--threads", "1", "--force");
    expect(done.out).not.toContain("not-understood");
    expect(readFileSync(name(".not-understood.csv"), "utf8")).toBe("File,Row,Column,What\n");
    expect(readdirSync(folder).filter((file) => /part|mark/u.test(file))).toEqual([]);
  });

  describe("of a folder", () => {
    const yard = at("yard");
    const inYard = (name: string) => path.join(yard, name);
    const machines = (output: string) =>
      (parse(readFileSync(output), { columns: true }) as Record<string, string>[]).map(({ Machine }) => Machine);
    beforeAll(() => {
      mkdirSync(yard);
      writeFileSync(inYard("a.csv"), "Machine,Rested voltage\nQuad 1,12.6\nQuad 1,12.6\n");
      writeFileSync(inYard("b.csv"), "Maschine;Ruhespannung\nQuad 2;12,1\n");
      writeFileSync(inYard("notes.txt"), "Ask the yard for the keys.\n");
    });

    it("leaves out what is no table and says so", async () => {
      const done = await run(yard, "-o", at("yard.csv"), "--threads", "1");
      expect(done.code).toBe(0);
      expect(machines(at("yard.csv"))).toEqual(["Quad 1", "Quad 1", "Quad 2"]);
      const said = parse(readFileSync(at("yard.not-understood.csv")), { columns: true });
      expect(said).toEqual([
        { File: inYard("notes.txt"), Row: "header", Column: "", What: expect.stringContaining("left out") as string },
      ]);
      expect(done.complaints).toContain("notes.txt");
      expect(done.complaints).not.toContain("not used");
    });
    it("names spreadsheets of other kinds in it, and folders", async () => {
      mkdirSync(inYard("2024"));
      writeFileSync(inYard("old.xls"), "");
      writeFileSync(inYard("photo.jpg"), "");
      const done = await run(yard, "-o", at("more.csv"), "--threads", "1");
      for (const name of ["2024", "old.xls"]) rmSync(inYard(name), { recursive: true });
      rmSync(inYard("photo.jpg"));
      expect(done.complaints).toContain(`"${inYard("2024")}": a folder in the folder; it was not looked into.`);
      expect(done.complaints).toContain(`"${inYard("old.xls")}": a spreadsheet of another kind; save it as .xlsx`);
      expect(done.complaints).not.toContain("photo");
      expect(readFileSync(at("more.not-understood.csv"), "utf8")).toContain("old.xls");
    });
    it("leaves out what earlier audits wrote into it, whatever it is called", async () => {
      for (const name of ["may.csv", "june.xlsx"]) await run(yard, "-o", inYard(name), "--threads", "1");
      const done = await run(yard, "-o", inYard("may.csv"), "--threads", "1", "--force");
      expect(machines(inYard("may.csv"))).toEqual(["Quad 1", "Quad 1", "Quad 2"]);
      const left = ["june.xlsx", "may.csv", "may.not-understood.csv", "may.noticed.csv"].map(inYard).join(", ");
      expect(done.complaints).toContain(`Left out as results of earlier audits: ${left}.`);
    });
    it("never writes over one of its tables", async () => {
      for (const args of [
        [yard, "-o", inYard("b.csv")],
        [yard, "-o", at("elsewhere.csv"), "--due", inYard("b.csv")],
        [inYard("b.csv"), "-o", inYard("b.csv")],
      ]) {
        const done = await run(...args, "--force", "--threads", "1");
        expect([done.code, done.complaints]).toEqual([1, expect.stringContaining("would be written over")]);
        expect(readFileSync(inYard("b.csv"), "utf8")).toBe("Maschine;Ruhespannung\nQuad 2;12,1\n");
      }
    });
    it("is refused where it holds no table at all", async () => {
      mkdirSync(at("bare"));
      writeFileSync(path.join(at("bare"), "notes.txt"), "Ask the yard for the keys.\n");
      const done = await run(at("bare"), "-o", at("bare.csv"));
      expect([done.code, done.complaints]).toEqual([1, expect.stringContaining("no header row that is understood")]);
    });
  });

  mkdirSync(at("folder.csv"));
  const refused: [string, string[], number, RegExp][] = [
    ["no file", ["-o", "x.csv"], 2, /name one file or folder/],
    ["no output", [at("fleet.csv")], 2, /say where the results go/],
    ["an output of another kind", [at("fleet.csv"), "-o", at("x.pdf")], 2, /none of \.xlsx, \.csv, \.json/],
    ["a file that is not there", [at("nowhere.csv"), "-o", at("x.csv")], 1, /no file or folder/],
    [
      "a folder that is not there",
      [at("fleet.csv"), "-o", at("no/x.csv")],
      1,
      /x\.csv" cannot be written \(ENOENT\); check the folder/,
    ],
    [
      "a folder for an output",
      [at("fleet.csv"), "-o", at("folder.csv"), "--force"],
      1,
      /folder\.csv" cannot be written \(EISDIR\)/,
    ],
    ["an output that is there", [at("fleet.csv"), "-o", at("fleet.csv")], 1, /there already/],
    [
      "a list of due work that is there",
      [at("fleet.csv"), "-o", at("x.csv"), "--due", at("fleet.csv")],
      1,
      /fleet\.csv" is there already/,
    ],
    ["threads that are none", [at("fleet.csv"), "-o", at("x.csv"), "--threads", "0"], 2, /whole number from 1 to 64/],
  ];
  it.each(refused)("refuses %s with words that help", async (_, args, code, message) => {
    const done = await run(...args);
    expect(done.code).toBe(code);
    expect(done.complaints).toMatch(message);
  });
});
