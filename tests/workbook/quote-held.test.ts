import type { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { SPANISH } from "../../src/pane/words/spanish";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { findQuoteRecord } from "../../src/workbook/quote-record";
import { readQuoteSheet } from "../../src/workbook/quote-read";
import { writeDecision, writeQuote } from "../../src/workbook/quote-write";
import { ENGLISH } from "../../src/workbook/sheet-language";
import type { SheetPlan } from "../../src/workbook/sheet-plan";
import { ORDER, shop, tiesIn, type } from "./quote-shop";

jest.setTimeout(120_000);

const DAY = "2026-11-26";

describe.each([
  ["English", ENGLISH, "The lines below are those"],
  ["Spanish", spanishSheets(SPANISH), "Las líneas de abajo son las"],
] as const)("the lines of a quote in %s that the customer has answered to", (_, language, held) => {
  let workbook: FileWorkbook;
  let job: SheetPlan;
  let sheet: string;

  const quote = async () => (await readQuoteSheet(workbook, sheet))!;
  const reason = async () => {
    const { values } = await workbook.read({ sheet, row: 0, column: 3, rows: 14, columns: 1 });
    return values.flat().map(String);
  };
  const decide = async (decision: "accepted" | "declined" | "open") =>
    writeDecision(workbook, (await findQuoteRecord(workbook))!.rows[0]!, decision, DAY);

  beforeEach(async () => {
    ({ workbook, job } = await shop());
    const first = await writeQuote(workbook, ORDER, await tiesIn(workbook), language);
    sheet = first.sheet;
    const order = { ...ORDER, total: (await quote()).total! };
    await writeQuote(workbook, order, await tiesIn(workbook), language, (await findQuoteRecord(workbook))!.rows[0]);
  });

  it.each(["accepted", "declined"] as const)("stay as they were when the verdict changes: %s", async (decision) => {
    const given = await quote();
    expect(given.lines.length).toBeGreaterThan(1);
    await decide(decision);
    await type(workbook, job, "ground-drop", "");
    const later = await quote();
    expect([later.lines, later.ways, later.total]).toEqual([given.lines, given.ways, given.total]);
    expect((await reason()).some((text) => text.startsWith(held))).toBe(true);
    // Whoever reads the sheet still sees that the verdict is another one now.
    expect((await reason()).some((text) => /^(?:Outdated|Desactualizado)/u.test(text))).toBe(true);
  });

  it("follow the job again when the answer is taken back", async () => {
    const given = await quote();
    await decide("accepted");
    await decide("open");
    expect((await quote()).lines).toEqual(given.lines);
    await type(workbook, job, "ground-drop", "");
    expect((await quote()).lines).not.toEqual(given.lines);
    expect((await reason()).some((text) => text.startsWith(held))).toBe(false);
  });

  it("are not held where they are no longer those that were quoted", async () => {
    await type(workbook, job, "ground-drop", "");
    const now = await quote();
    await decide("accepted");
    await type(workbook, job, "ground-drop", 1.35);
    expect((await quote()).lines).not.toEqual(now.lines);
    expect((await quote()).facts.get("Decision")).toBeDefined();
  });
});
