import { readFileSync } from "node:fs";
import path from "node:path";
import { parse } from "csv-parse/sync";
import { audit } from "../../src/functions/fleet";
import { notices } from "../../src/functions/notices";
import { auditChunk } from "../../src/cli/audit/audit-chunk";
import { historyOfTable } from "../../src/core/fleet/history/fleet-history";

const HEADER = ["Machine", "Date", "Rested voltage (V)", "Key-off draw (mA)", "Colour", "Rested volts"];

describe("CHG.NOTICES", () => {
  const rows = [
    ["Quad 1", "2026-05-04", 12.8, 1, "red", 12.8],
    ["", "", "", "", "", ""],
    ["Quad 2", "2026-05-05", "abc", "1 ohm", "red", ""],
    ["Total", "", "", 2, "", ""],
    ["Quad 1", "2026-05-04", 12.8, 1, "red", ""],
  ];
  const out = notices([HEADER, ...rows]);

  it("names by row and column every cell, column and row that was not understood or left out", () => {
    expect(out[0]).toEqual(["Row", "Column", "Machine", "Recognised", "What"]);
    expect(out.slice(1).map((line) => line.slice(0, 4))).toEqual([
      [1, "Colour", "", "column not used"],
      [1, "Rested volts", "", "column not used"],
      [4, "Rested voltage (V)", "Quad 2", "not understood"],
      [4, "Key-off draw (mA)", "Quad 2", "not understood"],
      [5, "", "", "totals row"],
      [6, "Machine", "Quad 1", "duplicate machine"],
    ]);
    expect(out[3]![4]).toBe('Rested voltage: "abc" cannot be read; enter a number in V.');
    expect(out[6]![4]).toContain("the same machine on 2026-05-04 as in row 2, with the same readings: entered twice");
  });

  it("leaves out the header row where it comes again, with its units or without, and says so", () => {
    const printed = [
      ["Machine", "Rested voltage", "Key-off draw"],
      ["", "V", "A"],
      ["Quad 1", 12.8, 0.001],
      ["Machine", "Rested voltage", "Key-off draw"],
      ["Quad 2", 12.8, 0.002],
      ["Machine", 12.8, 0.002],
    ];
    expect(notices(printed).slice(1)).toEqual([[4, "", "", "header row", "the header row again, left out"]]);
    expect(audit(printed).map((line) => line[1] === "")).toEqual([false, true, false, true, false, false]);
  });

  it("has something on every row of which the audit says that it was not understood", () => {
    const rowsSaid = audit([HEADER, ...rows]).flatMap((line, i) => (line[1] === "not understood" ? [i + 1] : []));
    expect(rowsSaid).toEqual([4]);
    for (const row of rowsSaid) expect(out.some((line) => line[0] === row && line[3] === "not understood")).toBe(true);
  });

  it("reads dates as the others of their column are written, and asks where none tells", () => {
    const said = (...days: string[]) =>
      notices([["Machine", "Date", "Rested voltage"], ...days.map((day, i) => [`Quad ${i}`, day, 12.7])])
        .slice(1)
        .map((line) => line.slice(0, 4));
    expect(said("3/4/2026", "13/4/2026", "5/4/26")).toEqual([]);
    expect(said("3/4/2026", "5/4/2026")).toEqual([
      [2, "Date", "Quad 0", "date not read"],
      [3, "Date", "Quad 1", "date not read"],
    ]);
  });

  it("takes names for the columns of rows alone, which then count from 1", () => {
    const named = notices(rows, [["Machine", "Date", "Rested voltage", "Key-off draw [mA]", "", ""]]);
    expect(named.slice(1).map((line) => line.slice(0, 4))).toEqual([
      [3, "Rested voltage", "Quad 2", "not understood"],
      [3, "Key-off draw [mA]", "Quad 2", "not understood"],
      [4, "", "", "totals row"],
      [5, "Machine", "Quad 1", "duplicate machine"],
    ]);
    expect(named[4]![4]).toContain("as in row 1,");
    expect(notices(rows, [["Machine", "Colour", "", "", "", ""]])[1]!.slice(0, 4)).toEqual([
      "",
      "Colour",
      "",
      "column not used",
    ]);
    expect(notices(rows, [["Machine"]])[0]![0]).toMatchObject({
      error: "#VALUE!",
      message: expect.stringContaining("1 names for 6 columns"),
    });
  });

  it("gives blank for blank, and a header alone where there is nothing to say", () => {
    expect(notices([["", ""]])).toEqual([[""]]);
    expect(
      notices([
        ["Machine", "Rested voltage"],
        ["Quad 1", 12.8],
      ]),
    ).toEqual([out[0]]);
  });

  it("says of a fleet's record what the command says of it, line by line", () => {
    const file = path.join(__dirname, "../fleet/demo-fleet.csv");
    const table = parse(readFileSync(file)) as string[][];
    const said = notices(table).slice(1);
    const chunk = auditChunk(
      { file, header: table[0]!, rows: table.slice(1), firstRow: 2, opens: true, next: { file: 0, rows: 0, byte: 0 } },
      {},
    );
    const expected = [
      ...chunk.complaints.map(({ row, column, what }) => [Math.max(1, row), column, what]),
      ...historyOfTable(table).notices.map(({ row, column, what }) => [row, column, what]),
    ];
    expect(said.length).toBeGreaterThan(100);
    const text = (lines: readonly (readonly unknown[])[]) => lines.map((line) => line.join("|")).sort();
    expect(text(said.map(([row, column, , , what]) => [row, column, what]))).toEqual(text(expected));
    expect(said.map(([row]) => row)).toEqual(said.map(([row]) => row as number).sort((a, b) => a - b));
  });
});
