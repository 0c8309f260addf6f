import { appendFileSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { parse } from "csv-parse/sync";
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
      ["4", "Rested voltage"],
    ]);
    const due = parse(readFileSync(at("due.csv")), { columns: true }) as Record<string, string>[];
    expect(due.map((r) => Number(r.Order))).toEqual(due.map((r) => Number(r.Order)).sort((a, b) => a - b));
    expect(due[0]!.Machine).toBe("Quad 2");
    expect(existsSync(at("a.csv.part")) || existsSync(at("a.csv.mark"))).toBe(false);
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

  const refused: [string, string[], number, RegExp][] = [
    ["no file", ["-o", "x.csv"], 2, /name one file or folder/],
    ["no output", [at("fleet.csv")], 2, /say where the results go/],
    ["an output of another kind", [at("fleet.csv"), "-o", at("x.pdf")], 2, /none of \.xlsx, \.csv, \.json/],
    ["a file that is not there", [at("nowhere.csv"), "-o", at("x.csv")], 1, /no file or folder/],
    ["an output that is there", [at("fleet.csv"), "-o", at("fleet.csv")], 1, /there already/],
    ["threads that are none", [at("fleet.csv"), "-o", at("x.csv"), "--threads", "0"], 2, /whole number from 1 to 64/],
  ];
  it.each(refused)("refuses %s with words that help", async (_, args, code, message) => {
    const done = await run(...args);
    expect(done.code).toBe(code);
    expect(done.complaints).toMatch(message);
  });
});
