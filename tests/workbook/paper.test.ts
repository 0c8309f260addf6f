import { readFileSync } from "node:fs";
import path from "node:path";
import type { Cell } from "../../src/core/cell";
import { FAULTS } from "../../src/core/diagnosis/faults";
import { CATALOGUE, entryOf, isReading } from "../../src/core/readings/catalogue";
import { CONDITIONS } from "../../src/core/limits/conditions";
import { CHECKS } from "../../src/core/readings/checks";
import { jobsFromFile } from "../../src/core/readings/from-job-file";
import type { Job, Measured } from "../../src/core/readings/types";
import { cellsInSpanish } from "../../src/core/words/spanish/cells";
import { FUNCTIONS } from "../../src/functions/registry";
import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { SPANISH } from "../../src/pane/words/spanish";
import { writeTicket, type TicketLine } from "../../src/pane/ticket";
import { TICKET_ENGLISH } from "../../src/pane/words/ticket-english";
import { demoIn } from "../../src/workbook/demo";
import { listLayout } from "../../src/workbook/list-layout";
import { COLUMN, pageLayout } from "../../src/workbook/page-layout";
import { quoteLayout } from "../../src/workbook/quote-plan";
import type { Step, Workbook } from "../../src/workbook/port";
import { ENGLISH, inLanguage } from "../../src/workbook/sheet-language";
import { planSheets } from "../../src/workbook/sheet-plan";
import type { AuditColumn, ListTemplate, PageTemplate, QuoteTemplate } from "../../src/workbook/template-schema";
import { placeTemplates } from "../../src/workbook/place-templates";
import { templateOf, TEMPLATES } from "../../src/workbook/templates";
import { PRICES, TERMS } from "../core/quote/shop";
import { cutTexts, printed, sheetOf, SHOWN, smallestType } from "./paper";

jest.setTimeout(120_000);

const LANGUAGES = [
  ["English", ENGLISH],
  ["Spanish", spanishSheets(SPANISH)],
] as const;
const job = templateOf("job") as PageTemplate;

const file = readFileSync(path.resolve(__dirname, "../jobs/simulated-jobs.json"), "utf8");
const simulated = jobsFromFile(JSON.parse(file));
if (!simulated.ok) throw new Error("The simulated jobs cannot be read.");
const jobs = simulated.value.map((one) => one.job);

describe.each(LANGUAGES)("the job sheet on paper, %s", (name, language) => {
  const [plan] = planSheets([job], { demo: demoIn(language), language });
  const sheet = sheetOf(plan!.steps, plan!.sheet);

  it.each(["A4", "Letter"] as const)("prints on two pages of %s, at 55 %% or more", (paper) => {
    for (const pixels of [6, 7]) {
      const { percent, pages } = printed(sheet, paper, pixels);
      expect(pages).toHaveLength(2);
      expect(percent).toBeGreaterThanOrEqual(55);
      expect(smallestType(sheet, percent)).toBeGreaterThanOrEqual(4.95);
    }
  });

  it("shows every method, caution, note and label whole", () => {
    for (const shown of SHOWN) expect(cutTexts(sheet, shown)).toEqual([]);
  });

  it("shows whole what is said of every reading, with the machine's data and without", () => {
    const longest = new Map<number, string>();
    const judged = new Set<string>();
    const limit = language.say("the limit of");
    let said = 0;
    for (const cells of jobs.map(cellsOf))
      for (const machine of [cells, []]) {
        const readings = cells.filter(([label]) => isJudged(idOf(label)));
        const column = (c: number) => readings.map((row) => [row[c]!]);
        const answers = FUNCTIONS["CHECK"]!(column(0), column(1), machine, cells, null, null, null, language.code);
        answers.forEach((answer, i) => {
          judged.add(idOf(readings[i]![0]!));
          const { row: read } = plan!.inputs.get(idOf(readings[i]![0]!))!;
          // One cell beside the readings of several phases or cells says it of any of them.
          const sisters = sheet.merges.find(
            (at) => at.column === COLUMN.reason && at.row <= read && read < at.row + at.rows,
          );
          const row = sisters?.row ?? read;
          const whole = String(answer[4]);
          const origin = whole.indexOf("(", whole.indexOf(limit));
          const reason = whole.includes(limit) && origin >= 0 ? whole.slice(origin) : whole;
          if (reason.length > (longest.get(row)?.length ?? 0)) longest.set(row, reason);
          said += 1;
        });
      }
    expect(said).toBeGreaterThan(3000);
    expect(judged.size).toBeGreaterThan(30);
    const reasons = new Map([...longest].map(([row, text]) => [`${row},${COLUMN.reason}`, text]));
    for (const shown of SHOWN) expect(cutTexts(sheet, shown, reasons)).toEqual([]);
  });

  it("tells the reasons of the jobs that have most to tell whole, or whole ones and that there are more", async () => {
    const why = (cells: Cell[][]) => FUNCTIONS["WHY"]!(cells, null, null, null, language.code).slice(1);
    const longest = jobs
      .map(cellsOf)
      .map((cells) => ({ cells, letters: why(cells).join().length }))
      .sort((a, b) => b.letters - a.letters);
    const { first, last } = pageLayout(job).factRows;
    const cell = sheet.merges.filter((at) => at.column === COLUMN.state && at.row < last).at(-1)!;
    expect(cell.row).toBeGreaterThan(first);
    const left: number[] = [];
    for (const { cells } of longest.slice(0, 3)) {
      const workbook = new FileWorkbook();
      const [placed] = await placeTemplates(workbook, [job], { language });
      const typedInto = cells.flatMap(([label, value]) => {
        const at = placed!.inputs.get(idOf(label!));
        return at
          ? [{ do: "write", at: { sheet: placed!.sheet, ...at, rows: 1, columns: 1 }, values: [[value]] } as Step]
          : [];
      });
      await workbook.apply(typedInto);
      const { values } = await workbook.read({
        sheet: placed!.sheet,
        row: cell.row,
        column: cell.column,
        rows: 1,
        columns: 1,
      });
      const text = String(values[0]![0]);
      expect(text.length).toBeGreaterThan(500);
      for (const shown of SHOWN)
        expect(cutTexts(sheet, shown, new Map([[`${cell.row},${cell.column}`, text]]))).toEqual([]);
      const told = text.replace(/…$/u, "").split("\n");
      const all = (
        await workbook.read({
          sheet: placed!.sheet,
          row: first + 2,
          column: COLUMN.why,
          rows: job.verdict.whyLines,
          columns: 2,
        })
      ).values.filter(([about]) => about !== "");
      told.forEach((line, i) => expect(line.toLowerCase()).toBe(`${all[i]![0]}: ${all[i]![1]}`.toLowerCase()));
      expect(text.endsWith("…")).toBe(told.length < all.length);
      left.push(all.length - told.length);
    }
    expect(Math.max(...left)).toBeLessThanOrEqual(2);
  });

  it("shows a complaint of a sentence whole", () => {
    const { row, column } = plan!.inputs.get("complaint")!;
    const complaint = new Map([[`${row},${column}`, "Will not start after a week; headlights flicker"]]);
    for (const shown of SHOWN) expect(cutTexts(sheet, shown, complaint)).toEqual([]);
  });

  it("shows the verdict's sentence and the next check whole", () => {
    // Where drawVerdict puts them: below the headline's two rows, and below the heading of the next check.
    const top = pageLayout(job).factRows.first;
    const merged = sheet.merges.filter((at) => at.column === COLUMN.state && at.row > top).map((at) => at.row);
    const [, sentence, next] = merged.sort((a, b) => a - b);
    for (const cells of jobs.filter((_, i) => i % 4 === 1).map(cellsOf)) {
      const verdict = FUNCTIONS["VERDICT"]!(cells, null, null, null, language.code)[0]!;
      const [check, minutes, why] = FUNCTIONS["NEXTCHECK"]!(cells, null, null, null, language.code)[0]!;
      const texts = new Map([
        [`${sentence},${COLUMN.state}`, String(verdict[3])],
        [
          `${next},${COLUMN.state}`,
          `${name === "Spanish" ? cellsInSpanish(String(check)) : check} (${minutes} min): ${why}`,
        ],
      ]);
      for (const shown of SHOWN) expect(cutTexts(sheet, shown, texts)).toEqual([]);
    }
  });
});

describe.each(LANGUAGES)("the other sheets on paper, %s", (_, language) => {
  const sheets = planSheets(TEMPLATES, { demo: demoIn(language), language })
    .filter(({ template }) => template !== job.id)
    .map(({ template, steps, sheet }) => [template, sheetOf(steps, sheet)] as const);

  it.each(sheets)("%s prints on one page of A4 and of Letter, its empty rows with it", (_template, sheet) => {
    for (const paper of ["A4", "Letter"] as const)
      for (const pixels of [6, 7]) expect(printed(sheet, paper, pixels).pages).toHaveLength(1);
  });

  it.each(sheets)("%s shows its labels, its notes and what is typed whole", (_template, sheet) => {
    for (const shown of SHOWN) expect(cutTexts(sheet, shown)).toEqual([]);
  });

  it.each(["quote", "terms"])("%s is printed at 55 %% or more", (template) => {
    const [, sheet] = sheets.find(([id]) => id === template)!;
    for (const paper of ["A4", "Letter"] as const)
      for (const pixels of [6, 7]) expect(printed(sheet, paper, pixels).percent).toBeGreaterThanOrEqual(55);
  });

  it("quote shows every line and every note whole, with a price list and with hardly one", () => {
    const [, sheet] = sheets.find(([id]) => id === "quote")!;
    const { lines } = quoteLayout(inLanguage(templateOf("quote") as QuoteTemplate, language));
    const texts = new Set<string>();
    const parts = FAULTS.filter(({ part }) => part !== null);
    for (const { part, label } of parts)
      for (const prices of [PRICES, PRICES.slice(0, 2)])
        for (const state of ["faulty", "suspect"]) {
          const [verdict, causes] = [[[part, state, 0.97, ""]], [[label, part, 0.95]]];
          const next = CHECKS.map((check) => [[check.label, check.minutes]])[texts.size % CHECKS.length];
          const quote = FUNCTIONS["QUOTE"]!(verdict, prices, TERMS, null, next, null, causes, language.code);
          // The first row is the reason, which stands beside the facts.
          for (const row of quote.slice(1))
            for (const column of [2, 7]) if (row[column] !== "") texts.add(`${column} ${String(row[column])}`);
        }
    expect(texts.size).toBeGreaterThan(60);
    for (const text of texts) {
      const place = `${lines},${text.slice(0, 1)}`;
      for (const shown of SHOWN) expect(cutTexts(sheet, shown, new Map([[place, text.slice(2)]]))).toEqual([]);
    }
  });

  it("fleet shows next checks and all but a few of the longest verdicts whole", () => {
    const [, sheet] = sheets.find(([id]) => id === "fleet")!;
    const { results } = templateOf("fleet") as ListTemplate;
    const row = listLayout(templateOf("fleet") as ListTemplate).firstRow;
    const first = sheet.print!.at.columns - results!.show.length;
    const place = (name: AuditColumn) => `${row},${first + results!.show.indexOf(name)}`;
    const cut = (texts: readonly string[], name: AuditColumn) =>
      texts.filter((text) => SHOWN.some((shown) => cutTexts(sheet, shown, new Map([[place(name), text]])).length > 0));
    expect(
      cut(
        CHECKS.map(({ label }) => language.say(label)),
        "Next check",
      ),
    ).toEqual([]);
    const verdicts = jobs.map((one) =>
      String(FUNCTIONS["VERDICT"]!(cellsOf(one), null, null, null, language.code)[0]![3]),
    );
    expect(new Set(verdicts).size).toBeGreaterThan(50);
    expect(cut(verdicts, "Verdict").length).toBeLessThanOrEqual(verdicts.length / 50);
  });
});

describe.each([
  ["English", TICKET_ENGLISH],
  ["Spanish", SPANISH.ticket],
] as const)("the ticket on paper, %s", (_, words) => {
  const { verdict, fault } = words;
  const found = Object.values(fault).flatMap((of) => [
    verdict.faulty(of!),
    verdict.suspect(of!),
    verdict.unproven(of!),
  ]);
  const others = [...Object.values(verdict), ...Object.values(words)].filter((text) => typeof text === "string");
  const sentences = [...found, ...others, words.nextCheck(45)].sort((a, b) => b.length - a.length);

  async function laidOut(lines: readonly TicketLine[]) {
    const batches: Step[] = [];
    const book = {
      sheetNames: async () => [],
      activateSheet: async () => undefined,
      apply: async (steps: readonly Step[]) => void batches.push(...steps),
    };
    const name = await writeTicket(book as unknown as Workbook, lines, words);
    return sheetOf(batches, name);
  }

  it("shows every sentence whole", async () => {
    expect(sentences.length).toBeGreaterThan(60);
    const sheet = await laidOut(sentences.map((text) => ({ kind: "sentence", text })));
    for (const shown of SHOWN) expect(cutTexts(sheet, shown)).toEqual([]);
  });

  it("prints on one page of A4 and of Letter at 55 % or more, with everything in it", async () => {
    const pair: TicketLine = { kind: "pair", text: words.job, value: "J-118" };
    const sheet = await laidOut([
      { kind: "title", text: words.title },
      ...Array.from({ length: 11 }, () => pair),
      ...sentences.slice(0, 4).flatMap((text): TicketLine[] => [
        { kind: "heading", text: words.found },
        { kind: "sentence", text },
      ]),
    ]);
    for (const paper of ["A4", "Letter"] as const)
      for (const pixels of [6, 7]) {
        const { percent, pages } = printed(sheet, paper, pixels);
        expect(pages).toHaveLength(1);
        expect(percent).toBeGreaterThanOrEqual(55);
      }
  });
});

it("would see a text that is cut", () => {
  const [plan] = planSheets([job]);
  const sheet = sheetOf(plan!.steps, plan!.sheet);
  const { stages } = pageLayout(job);
  const row = stages[0]!.checks[0]!.title!;
  sheet.heights.set(row, sheet.heights.get(row)! / 2);
  expect(cutTexts(sheet, SHOWN[0]!)).toEqual([expect.stringContaining("Look at the battery first")]);
});

/** What says how another reading was taken has no reason beside it. */
function isJudged(id: string): boolean {
  return isReading(entryOf(id)!) && entryOf(id)!.kind === "quantity" && !CONDITIONS.has(id);
}

const idByLabel = new Map(CATALOGUE.map(({ id, label }) => [label, id]));
function idOf(label: Cell): string {
  return idByLabel.get(String(label))!;
}

function cellsOf(of: Job): Cell[][] {
  return [...of].map(([id, measured]) => [entryOf(id)!.label, typed(measured)]);
}

function typed(measured: Measured): Cell {
  return "value" in measured ? measured.value : "OL";
}
