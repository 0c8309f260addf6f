import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { parse } from "csv-parse/sync";
import { main } from "../../src/cli/main";
import type { Notice } from "../../src/core/fleet/history/types";
import { partText } from "../../src/hosts/file/open-package";
import { readWorkbook, type StoredWorkbook } from "../../src/hosts/file/read-workbook";
import type { Planted } from "../../src/tools/demo-fleet/fleet-events";
import { columnNumber } from "../../src/workbook/address";
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
  let book: StoredWorkbook;
  beforeAll(async () => {
    files = await run("a.csv");
    await run("a.xlsx");
    book = readWorkbook(readFileSync(path.join(folder, "a.xlsx")), "a.xlsx");
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

  it("says of each machine that has fallen below its limit that it has", () => {
    const below = table("a.trends.csv").filter((r) => r["Crosses the limit"] === "below it already");
    expect(below.length).toBeGreaterThan(0);
    // By the readings of the machine itself, the middle of its last three, which lie no more than the weather above it.
    const fleet = parse(readFileSync(FLEET), { columns: true }) as Record<string, string>[];
    const header = { "Cranking voltage": "Cranking volts", "Rested voltage": "Rested voltage (V)" } as const;
    for (const { Machine, Reading, Limit } of below) {
      const read = fleet
        .filter((r) => r.Machine === Machine)
        .map((r) => Number(r[header[Reading as keyof typeof header]]))
        .filter((v) => v > 0)
        .slice(-3)
        .sort((a, b) => a - b);
      expect([Machine, Reading, read[1]! < Number(Limit) + 0.3]).toEqual([Machine, Reading, true]);
    }
  });

  it("says the same in a workbook and in JSON", async () => {
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

  it("says above the states that another meter reads since, as planted, whole beside the charts", () => {
    const other = planted.filter(({ kind }) => kind === "changed meter");
    expect(other).toHaveLength(1);
    const sheet = book.sheets[0]!;
    const said = sheet.rows.slice(0, 5).flatMap(({ row, cells }) => {
      const text = String(cells[0]?.value ?? "");
      return text.includes("another meter") ? [{ row, text }] : [];
    });
    expect(said).toHaveLength(1);
    expect(said[0]!.text).toMatch(
      /^From \d{4}-\d\d-\d\d on all voltages on \d+ machines .* may be the meter's doing\.$/u,
    );
    expect(sheet.merges).toContainEqual(expect.objectContaining({ row: said[0]!.row, column: 0, rows: 1, columns: 6 }));
  });

  /** Machines by their latest visit, worst first: worked out from the results as they were written. */
  const worstTen = () => {
    const latest = new Map<string, Record<string, string>>();
    for (const row of table("a.csv")) {
      const before = latest.get(row.Machine!.toLowerCase());
      if (!before || row.Date! >= before.Date!) latest.set(row.Machine!.toLowerCase(), row);
    }
    return [...latest.values()]
      .filter((row) => row.State !== "serviceable" && row.State !== "not read")
      .sort((a, b) => Number(a.Order) - Number(b.Order))
      .slice(0, 10);
  };

  it("shows the ten machines to bring in first, once each, with part, chance, days and next check", () => {
    const worst = worstTen();
    expect(worst).toHaveLength(10);
    const sheet = book.sheets[0]!;
    const top = sheet.rows.find(({ cells }) => cells[0]?.value === "Machine")!.row;
    const shown = worst.map((_, i) =>
      Array.from({ length: 6 }, (__, c) => String(sheet.at(top + 1 + i, c)?.value ?? "")),
    );
    expect(shown).toEqual(
      worst.map((r) => [
        r.Machine,
        r.State,
        r.Part,
        r.Part === "none" ? "" : r.Chance,
        r["Days until flat"],
        r["Next check"],
      ]),
    );
  });

  it("draws them in a chart of its own, from the cells of that table", () => {
    const sheet = book.sheets[0]!;
    const charts = [...book.parts.keys()]
      .filter((part) => /^xl\/charts\/chart\d+\.xml$/u.test(part))
      .map((part) => partText(book.parts, part, "a.xlsx"));
    expect(charts).toHaveLength(3);
    const drawn = charts.find((chart) => chart.includes("Worst 10"))!;
    const cellsOf = (element: string) => {
      const [, from, first, last] = new RegExp(
        `<c:${element}><c:\\w+Ref><c:f>Summary!\\$([A-Z])\\$(\\d+):\\$\\1\\$(\\d+)</c:f>`,
        "u",
      ).exec(drawn)!;
      return Array.from({ length: Number(last) - Number(first) + 1 }, (_, i) =>
        String(sheet.at(Number(first) - 1 + i, columnNumber(from!))?.value ?? ""),
      );
    };
    expect(cellsOf("cat")).toEqual(worstTen().map((r) => r.Machine));
    expect(cellsOf("val")).toEqual(worstTen().map((r) => (r.Part === "none" ? "" : r.Chance)));
  });

  it("lays the charts out below one another, right of the tables", () => {
    const drawing = partText(book.parts, "xl/drawings/drawing1.xml", "a.xlsx");
    const numbers = (tag: string) =>
      [...drawing.matchAll(new RegExp(`<xdr:${tag}>(\\d+)<`, "gu"))].map((m) => Number(m[1]));
    const [rows, columns] = [numbers("row"), numbers("col")];
    expect(rows).toHaveLength(6);
    expect(rows).toEqual([...rows].sort((a, b) => a - b));
    expect(Math.min(...columns)).toBeGreaterThan(5);
    // No chart is parted by the edge of a page: three years and their charts are on one.
    expect(partText(book.parts, "xl/worksheets/sheet1.xml", "a.xlsx")).toMatch(
      /<pageSetup[^>]*(?=[^>]*fitToWidth="1")(?=[^>]*fitToHeight="1")/u,
    );
  });
});
