import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { parse } from "csv-parse/sync";
import { main } from "../../src/cli/main";
import type { Notice } from "../../src/core/fleet/history/types";
import { readWorkbook } from "../../src/hosts/file/read-workbook";
import type { Planted } from "../../src/tools/demo-fleet/fleet-events";
import { score } from "../fleet/score";

const folder = mkdtempSync(path.join(tmpdir(), "audit-history-"));
afterAll(() => rmSync(folder, { recursive: true }));
const FLEET = path.join(__dirname, "../fleet/demo-fleet.csv");
const planted = JSON.parse(readFileSync(path.join(__dirname, "../fleet/demo-fleet.planted.json"), "utf8")) as Planted[];

async function run(output: string): Promise<string[]> {
  const out: string[] = [];
  const io = { out: (line: string) => out.push(line), complain: () => undefined };
  expect(await main(["audit", FLEET, "-o", path.join(folder, output), "--threads", "1"], io)).toBe(0);
  return out.slice(1).map((file) => path.basename(file));
}

const table = (file: string) =>
  parse(readFileSync(path.join(folder, file)), { columns: true }) as Record<string, string>[];

describe("the audit of the demo fleet, end to end", () => {
  let files: string[];
  beforeAll(async () => {
    files = await run("a.csv");
  });

  it("writes results, what was not understood, what was noticed, and trends", () =>
    expect(files).toEqual(["a.csv", "a.not-understood.csv", "a.noticed.csv", "a.trends.csv"]));

  it("has a result for every row of the table", () =>
    expect(table("a.csv").map((r) => Number(r.Row))).toEqual(
      (parse(readFileSync(FLEET)) as unknown[]).slice(1).map((_, i) => i + 2),
    ));

  it("names by row every reading that could not be read", () => {
    const rows = planted.filter(({ kind }) => kind === "not a reading").map(({ row }) => row);
    expect(rows.length).toBeGreaterThan(5);
    const named = new Set(table("a.not-understood.csv").map((r) => Number(r.Row)));
    expect(rows.filter((row) => !named.has(row))).toEqual([]);
  });

  it.each([
    "duplicate machine",
    "renamed machine",
    "mixed units",
    "changed meter",
    "battery replaced",
    "storage",
  ] as const)("notices what was planted: %s", (kind) => {
    const notices = table("a.noticed.csv").map((r) => ({
      row: Number(r.Row),
      machine: r.Machine!,
      kind: r.Recognised,
    }));
    const { planted: count, found } = score(kind, planted, notices as unknown as Notice[]);
    expect(count).toBeGreaterThan(0);
    expect(found / count).toBeGreaterThanOrEqual(kind === "battery replaced" ? 0.8 : 0.9);
  });

  it("gives each notice a row and a column of the table, and a sentence", () => {
    const header = (parse(readFileSync(FLEET)) as string[][])[0]!;
    for (const notice of table("a.noticed.csv")) {
      expect(header).toContain(notice.Column);
      expect(Number(notice.Row)).toBeGreaterThan(1);
      expect(notice.What).toMatch(/\.$|\?/u);
    }
  });

  it("starts the trend anew at a replaced battery", () => {
    const replaced = table("a.noticed.csv").filter((r) => r.Recognised === "battery replaced");
    const trends = table("a.trends.csv").filter((t) => t["Allowed for"]!.startsWith("visits since the last new level"));
    const machines = new Set(trends.map((t) => t.Machine!.toLowerCase()));
    expect(replaced.filter((r) => machines.has(r.Machine!.toLowerCase())).length).toBeGreaterThan(5);
  });

  it("says the same in a workbook and in JSON", async () => {
    await run("a.xlsx");
    const book = readWorkbook(readFileSync(path.join(folder, "a.xlsx")), "a.xlsx");
    expect(book.sheets.map((s) => s.name)).toEqual(["Summary", "Results", "Noticed", "Trends", "Not understood"]);
    const noticed = table("a.noticed.csv");
    const sheet = book.sheets[2]!;
    noticed.forEach((r, i) =>
      expect([sheet.at(i + 1, 1)!.value, sheet.at(i + 1, 5)!.value]).toEqual([Number(r.Row), r.What]),
    );
    await run("a.json");
    const json = JSON.parse(readFileSync(path.join(folder, "a.json"), "utf8"));
    expect(json.noticed.map((n: Record<string, unknown>) => n.What)).toEqual(noticed.map((n) => n.What));
    expect(json.trends).toHaveLength(table("a.trends.csv").length);
  });
});
