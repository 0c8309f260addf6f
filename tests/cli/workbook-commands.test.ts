import { mkdtempSync, readFileSync, rmSync, writeFileSync, existsSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { strToU8, zipSync } from "fflate";
import { writeXlsx } from "hucre/xlsx";
import { main } from "../../src/cli/main";
import { readWorkbook } from "../../src/hosts/file/read-workbook";

const folder = mkdtempSync(path.join(tmpdir(), "workbooks-"));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string) => path.join(folder, name);

async function run(...args: string[]) {
  const out: string[] = [];
  const complaints: string[] = [];
  const code = await main(args, { out: (line) => out.push(line), complain: (line) => complaints.push(line) });
  return { code, out: out.join("\n"), complaints: complaints.join("\n") };
}

describe("template and recalc", () => {
  it("writes a job sheet with last values, calls as the spreadsheet stores them, and the tie to the add-in", async () => {
    expect((await run("template", "job", "-o", at("job.xlsx"), "--demo")).code).toBe(0);
    const book = readWorkbook(readFileSync(at("job.xlsx")), "job.xlsx");
    expect(book.sheets.map((s) => s.name)).toContain("Job");
    const calls = book.sheets
      .flatMap((s) => s.rows.flatMap((r) => r.cells))
      .filter((c) => c.formula?.text.includes("_xldudf_CHG_"));
    expect(calls.length).toBeGreaterThan(5);
    for (const call of calls) expect([call.row, call.column, call.hasValue]).toEqual([call.row, call.column, true]);
    expect(book.parts.has("xl/webextensions/webextension1.xml")).toBe(true);
    expect(book.parts.has("xl/metadata.xml")).toBe(true);
  });

  it("says of a workbook's job what its own sheet says, and names a cell that cannot be read", async () => {
    const done = await run("diagnose", at("job.xlsx"));
    expect([done.code, done.complaints]).toEqual([0, ""]);
    const sheet = readWorkbook(readFileSync(at("job.xlsx")), "job.xlsx").sheets[0]!;
    const cells = sheet.rows.flatMap((row) => row.cells.map(({ value }) => value));
    const sentence = /^Job: (?<said>.+)$/mu.exec(done.out)!.groups!["said"];
    expect(cells).toContain(sentence);

    const typed = [
      ["Machine", "Quad 7"],
      ["Battery type", "agm"],
      ["Battery temperature", "warm"],
      ["Rested voltage", "12,6 V"],
      ["Cranking voltage", 10.9],
      ["Key-off draw", "n/a"],
      ["Idle voltage", 13.6],
      ["Test speed", 5000],
      ["Running voltage at test speed", 14.3],
    ];
    writeFileSync(at("own.xlsx"), await writeXlsx({ sheets: [{ name: "Quad 7", rows: typed }] }));
    const own = await run("diagnose", at("own.xlsx"));
    expect(own.complaints).toBe(`'Quad 7'!B3: Battery temperature: "warm" cannot be read; enter a number in °C.`);
    expect(own.out).toMatch(/^Quad 7: /u);

    writeFileSync(at("other.xlsx"), await writeXlsx({ sheets: [{ name: "Sheet1", rows: typed.slice(0, 3) }] }));
    expect(await run("diagnose", at("other.xlsx"))).toMatchObject({
      code: 1,
      complaints: expect.stringContaining("is one machine's job"),
    });
    expect(await run("diagnose", "fleet.csv")).toMatchObject({
      code: 1,
      complaints: expect.stringContaining("use: audit fleet.csv -o result.xlsx"),
    });
  });

  it("writes the sheets in Spanish where that is asked for", async () => {
    expect((await run("template", "machines", "-o", at("maquinas.xlsx"), "--language", "es")).code).toBe(0);
    const [sheet] = readWorkbook(readFileSync(at("maquinas.xlsx")), "maquinas.xlsx").sheets;
    expect([sheet!.name, sheet!.at(2, 1)?.value]).toEqual(["Máquinas", "Tipo de batería"]);
  });

  it("recalculates a file to the same values, and leaves every other part as it was", async () => {
    expect((await run("recalc", at("job.xlsx"), "-o", at("again.xlsx"))).code).toBe(0);
    const [before, after] = [at("job.xlsx"), at("again.xlsx")].map((file) => readWorkbook(readFileSync(file), file));
    for (const [part, bytes] of before!.parts) {
      if (!part.startsWith("xl/worksheets/"))
        expect([part, Buffer.from(after!.parts.get(part)!).equals(Buffer.from(bytes))]).toEqual([part, true]);
    }
    const values = (book: typeof before) => book!.sheets.map((s) => s.rows.flatMap((r) => r.cells.map((c) => c.value)));
    expect(values(after)).toEqual(values(before));
  });

  it("replaces no file unless asked, and writes nothing for a bad one", async () => {
    expect(await run("template", "job", "-o", at("job.xlsx"))).toMatchObject({
      code: 1,
      complaints: expect.stringMatching(/there already/),
    });
    writeFileSync(at("zip.xlsx"), zipSync({ "a.txt": strToU8("x") }));
    writeFileSync(at("text.xlsx"), "Machine,Rested voltage");
    writeFileSync(at("cut.xlsx"), readFileSync(at("job.xlsx")).subarray(0, 20000));
    for (const [name, message] of [
      ["zip.xlsx", /a zip archive, not a workbook/],
      ["text.xlsx", /not a workbook/],
      ["cut.xlsx", /damaged or cut short/],
      ["none.xlsx", /no file/],
    ] as const) {
      const done = await run("recalc", at(name), "-o", at("out.xlsx"));
      expect([name, done.code, message.test(done.complaints), existsSync(at("out.xlsx"))]).toEqual([
        name,
        1,
        true,
        false,
      ]);
    }
  });

  it.each([
    [["template"], /name one template/],
    [["template", "nope", "-o", "x.xlsx"], /no template "nope"/],
    [["template", "job", "-o", "x.xlsx", "--language", "xx"], /no language "xx"; the languages are: en, es/],
    [["template", "job"], /say where the workbook goes/],
    [["template", "job", "-o", "x.pdf"], /does not end in .xlsx/],
    [["recalc"], /name one workbook/],
    [["recalc", "a.xlsx"], /say where/],
  ])("%j is not understood, with words that help", async (args, message) => {
    const done = await run(...args);
    expect(done.code).toBe(2);
    expect(done.complaints).toMatch(message);
  });
});
