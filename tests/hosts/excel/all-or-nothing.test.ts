import fc from "fast-check";
import { ExcelWorkbook } from "../../../src/hosts/excel/workbook";
import type { Area, CellWrite, Step } from "../../../src/workbook/port";
import { StrictBook } from "./strict-book";
import type { Failure } from "./strict-client";
import { StrictExcel } from "./strict-office";

function area(sheet: string, row: number, column: number, rows = 1, columns = 1): Area {
  return { sheet, row, column, rows, columns };
}

/** A shop's own sheet, with something of every kind in the way. */
function usersBook(): StrictBook {
  const book = new StrictBook("Job", "Old jobs, 2024");
  const sheet = book.sheet("Job");
  const entries = [
    "Rested voltage",
    12.6,
    "'007",
    "=B1*2",
    true,
    "'1/2",
    "",
    "'=kept as text",
    "#N/A",
    "  spaced",
    0,
    "OL",
  ];
  book.compute = (formula) => (formula === "=SPILLS()" ? [[1], [2]] : [[24]]);
  entries.forEach((entered, i) => book.enter(sheet, Math.floor(i / 4), i % 4, entered));
  book.enter(sheet, 0, 6, "=SPILLS()");
  const cell = book.cell(sheet, 1, 1);
  cell.numberFormat = "0.00";
  cell.looks.fill = { color: "#FFFF00", pattern: "Solid" };
  cell.looks.font.bold = true;
  cell.looks.borders.bottom = { style: "Double", color: "#FF0000", weight: "Thick" };
  cell.validation = null;
  for (const row of [20, 21])
    book.cell(sheet, row, 0).validation = {
      rule: { custom: { formula: "=A21>0" } },
      errorAlert: { message: "no", showAlert: true, style: "Stop", title: "x" },
      prompt: { message: "p", showPrompt: true, title: "t" },
      ignoreBlanks: true,
    };
  sheet.rules.push({
    id: book.id(),
    at: { row: 0, column: 0, rows: 5, columns: 5 },
    formula: "=A1>1",
    fill: "#00FF00",
    colour: "#000000",
  });
  sheet.charts.push({ id: book.id(), name: "Mine", detail: { kind: "Pie" } });
  sheet.tables.push({ name: "Mine", at: { row: 30, column: 0, rows: 3, columns: 2 }, style: "TableStyleMedium2" });
  sheet.merges.push({ row: 25, column: 0, rows: 1, columns: 3 });
  sheet.widths.set(1, 96);
  sheet.heights.set(0, 30);
  sheet.frozen = { rows: 2, columns: 1 };
  sheet.print = {
    orientation: "Portrait",
    zoom: { scale: 80 },
    footer: "mine",
    area: "$A$1:$Z$9",
    titles: null,
    margins: { ...sheet.print.margins, topMargin: 99 },
  };
  book.names.set("Mine", "=Job!$A$1");
  return book;
}

/** Every kind of step, on the user's sheet and on a new one. */
const EVERYTHING: readonly Step[] = [
  {
    do: "write",
    at: area("Job", 0, 0, 3, 4),
    values: [
      ["a", 1, undefined, "12 V"],
      [{ formula: "=A1" }, "b", "", true],
      [5, "", { formula: "=TODAY()" }, undefined],
    ],
  },
  { do: "write", at: area("Job", 0, 6, 2, 1), values: [[{ formula: "=OTHER()" }], ["below"]] },
  { do: "write", at: area("Job", 0, 8), values: [[{ formula: "=SPILLS()", spills: { rows: 2, columns: 1 } }]] },
  {
    do: "format",
    at: area("Job", 0, 0, 2, 3),
    format: {
      bold: true,
      italic: true,
      size: 9,
      colour: "112233",
      fill: "DCE6EA",
      align: "right",
      vertical: "middle",
      wrap: true,
      number: "0.0",
      border: "all",
    },
  },
  { do: "format", at: area("Job", 1, 0, 1, 4), format: { border: "none" } },
  { do: "format", at: area("Job", 2, 0, 2, 2), format: { border: "bottom" } },
  { do: "validate", at: area("Job", 20, 0, 2, 1), rule: { kind: "hint", title: "Hint", message: "Say it" } },
  {
    do: "validate",
    at: area("Job", 5, 0, 2, 1),
    rule: { kind: "list", choices: ["flooded", "agm"], message: "One of these" },
  },
  {
    do: "colour rule",
    at: area("Job", 0, 0, 5, 1),
    rule: {
      words: [
        { equals: "pass", fill: "D5EEDC", colour: "0B4F26" },
        { equals: "fail", fill: "F6D5D0", colour: "8A1C10" },
      ],
    },
  },
  { do: "merge", at: area("Job", 12, 0, 1, 3) },
  { do: "column width", sheet: "Job", column: 1, characters: 20 },
  { do: "row height", sheet: "Job", row: 0, points: 22 },
  { do: "freeze", sheet: "Job", rows: 1, columns: 0 },
  {
    do: "print",
    at: area("Job", 0, 0, 40, 6),
    setup: { orientation: "landscape", fitWidthPages: 1, fitHeightPages: 2, titleRows: 1, footer: "Page &P" },
  },
  { do: "table", at: area("Job", 14, 0, 3, 2), name: "Readings" },
  { do: "widen table", at: area("Job", 30, 0, 3, 2), name: "Mine", by: 2 },
  { do: "name", name: "RestedVolts", at: area("Job", 1, 1) },
  {
    do: "chart",
    sheet: "Job",
    chart: {
      title: "Volts",
      kind: "scatter",
      series: [
        { name: "V", x: area("Job", 1, 0, 3, 1), y: area("Job", 1, 1, 3, 1) },
        { name: "W", y: area("Job", 1, 2, 3, 1) },
      ],
      xTitle: "rpm",
      yTitle: "V",
      anchor: { row: 8, column: 6, rows: 10, columns: 5 },
    },
  },
  { do: "add sheet", sheet: "Fleet" },
  {
    do: "write",
    at: area("Fleet", 0, 0, 2, 2),
    values: [
      ["Machine", "Volts"],
      ["1", 12.6],
    ],
  },
  { do: "format", at: area("Fleet", 0, 0, 1, 2), format: { bold: true } },
  { do: "table", at: area("Fleet", 0, 0, 2, 2), name: "FleetTable" },
  { do: "name", name: "FleetVolts", at: area("Fleet", 1, 1) },
  {
    do: "chart",
    sheet: "Fleet",
    chart: {
      title: "Fleet",
      kind: "line",
      series: [{ name: "V", y: area("Fleet", 1, 1) }],
      xTitle: "",
      yTitle: "",
      anchor: { row: 8, column: 0, rows: 10, columns: 5 },
    },
  },
];

/** Applies a batch with a failure; tells what the user reads and how many requests were made. */
async function applied(book: StrictBook, batch: readonly Step[], failure?: Failure) {
  const excel = new StrictExcel(book);
  excel.failure = failure;
  const fault = await new ExcelWorkbook(excel).apply(batch).then(
    () => undefined,
    (error: unknown) => error as Error,
  );
  return { fault, requests: excel.runs[0]?.context.log.length ?? 0, syncs: excel.runs[0]?.context.syncs ?? 0 };
}

describe("a batch is done or not begun", () => {
  it("changes everything it names when nothing fails, in two round trips and one for spills", async () => {
    const book = usersBook();
    const before = book.snapshot();
    const { fault, syncs } = await applied(book, EVERYTHING);
    expect(fault).toBeUndefined();
    expect(syncs).toBeLessThanOrEqual(3);
    expect(book.snapshot()).not.toBe(before);
    expect(book.sheets.map((sheet) => sheet.name)).toEqual(["Job", "Old jobs, 2024", "Fleet"]);
  });

  it("leaves the workbook as it was, whichever request fails", async () => {
    const { requests } = await applied(usersBook(), EVERYTHING);
    expect(requests).toBeGreaterThan(100);
    const wrong: string[] = [];
    let putBack = 0;
    for (let at = 1; at <= requests; at++) {
      const book = usersBook();
      const before = book.snapshot();
      const { fault } = await applied(book, EVERYTHING, { at });
      if (fault?.name !== "WorkbookFault") wrong.push(`request ${at}: ${fault?.message ?? "no fault"}`);
      if (book.snapshot() !== before)
        wrong.push(`request ${at}: the workbook differs\n${difference(before, book.snapshot())}`);
      if (fault?.message.endsWith("Nothing was changed.")) putBack++;
    }
    expect(wrong.slice(0, 2)).toEqual([]);
    expect(putBack).toBeGreaterThan(50);
  });

  it("puts back in a second try when the first is refused as well", async () => {
    const { requests } = await applied(usersBook(), EVERYTHING);
    const book = usersBook();
    const before = book.snapshot();
    const excel = new StrictExcel(book);
    // The last write fails, and then a request of putting back.
    excel.failure = { at: requests, again: requests + 40 };
    await expect(new ExcelWorkbook(excel).apply(EVERYTHING)).rejects.toThrow(/Nothing was changed\.$/u);
    expect(book.snapshot()).toBe(before);
    expect(excel.runs[0]!.context.log.length).toBeGreaterThan(requests + 40);
  });

  it("says what to do when Excel answers no more and half is written", async () => {
    const { requests } = await applied(usersBook(), EVERYTHING);
    const { fault } = await applied(usersBook(), EVERYTHING, { at: requests - 5, lasting: true });
    expect(fault).toMatchObject({
      name: "WorkbookFault",
      message: expect.stringMatching(/refused to put the cells back.*Undo \(Ctrl\+Z\)/u),
    });
    expect(fault!.message).not.toMatch(/Nothing was changed/u);
  });

  it("[property] any batch on any sheet, failed at any request", async () => {
    const place = fc.record({
      row: fc.integer({ min: 0, max: 6 }),
      column: fc.integer({ min: 0, max: 5 }),
      rows: fc.integer({ min: 1, max: 3 }),
      columns: fc.integer({ min: 1, max: 3 }),
    });
    const content: fc.Arbitrary<CellWrite> = fc.oneof(
      fc.constant(undefined),
      fc.constantFrom<CellWrite>("", "12 V", "007", "pass", "=no formula", true, { formula: "=A1" }),
      fc.integer({ min: -5, max: 99 }),
    );
    const at = place.map((one) => ({ sheet: "Job", ...one }));
    const step: fc.Arbitrary<Step> = fc.oneof(
      at.chain((one) =>
        fc
          .array(fc.array(content, { minLength: one.columns, maxLength: one.columns }), {
            minLength: one.rows,
            maxLength: one.rows,
          })
          .map((values): Step => ({ do: "write", at: one, values })),
      ),
      fc
        .tuple(at, fc.constantFrom<"none" | "bottom" | "all">("none", "bottom", "all"))
        .map(([one, border]): Step => ({ do: "format", at: one, format: { border, bold: true, fill: "ABCDEF" } })),
      at.map((one): Step => ({ do: "merge", at: one })),
      at.map((one): Step => ({ do: "table", at: one, name: "Made" })),
      at.map((one): Step => ({ do: "name", name: "Named", at: one })),
      at.map((one): Step => ({ do: "validate", at: one, rule: { kind: "hint", title: "t", message: "m" } })),
      at.map((one): Step => ({
        do: "colour rule",
        at: one,
        rule: { words: [{ equals: "fail", fill: "F6D5D0", colour: "8A1C10" }] },
      })),
      fc.integer({ min: 0, max: 4 }).map((rows): Step => ({ do: "freeze", sheet: "Job", rows, columns: 4 - rows })),
    );
    await fc.assert(
      fc.asyncProperty(
        fc.array(step, { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 1, max: 120 }),
        async (batch, at) => {
          const book = usersBook();
          const before = book.snapshot();
          const { fault } = await applied(book, batch, { at });
          if (fault === undefined) return;
          expect(fault.name).toBe("WorkbookFault");
          if (book.snapshot() !== before) throw new Error(difference(before, book.snapshot()));
        },
      ),
      { seed: 20261125, numRuns: 400 },
    );
  });
});

/** The first lines that two snapshots do not share. */
function difference(before: string, after: string): string {
  const [a, b] = [before.split("\n"), after.split("\n")];
  const at = a.findIndex((line, i) => line !== b[i]);
  return `was:\n${a.slice(Math.max(0, at - 12), at + 4).join("\n")}\nis:\n${b.slice(Math.max(0, at - 12), at + 4).join("\n")}`;
}
