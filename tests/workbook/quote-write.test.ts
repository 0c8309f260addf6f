import Decimal from "decimal.js";
import { verdictFromCells } from "../../src/core/quote/from-verdict-cells";
import { quoteFromSheets } from "../../src/core/quote/quote-from-sheets";
import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { openHeadlessGrid } from "../../src/hosts/grid/headless-grid";
import { DEMO } from "../../src/workbook/demo";
import { placeTemplates } from "../../src/workbook/place-templates";
import type { SheetPlan } from "../../src/workbook/sheet-plan";
import { findJobSources, findShopSheets } from "../../src/workbook/quote-sources";
import { QUOTE_HEADERS, findQuoteRecord } from "../../src/workbook/quote-record";
import { readQuoteSheet } from "../../src/workbook/quote-read";
import { layOutShop, writeDecision, writeQuote } from "../../src/workbook/quote-write";
import { ENGLISH } from "../../src/workbook/sheet-language";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { SPANISH } from "../../src/pane/words/spanish";
import { templateOf } from "../../src/workbook/templates";
import { MemoryWorkbook } from "../pane/memory-workbook";
import { ORDER, shop, tiesIn, type } from "./quote-shop";
import { TIES } from "./quote-ties";

jest.setTimeout(120_000);

/** Names, and words that are the same in both languages. */
const SAME_IN_BOTH = [
  ...["45 min", "CAB-6", "Cable 6 mm², made up", "J-118", "Lower yard", "Quad 7", "REG-07"],
  ...["Ring terminal M6, crimped", "STA-07", "TER-6", "Total USD", "material", "total"],
];

describe("a quote written from a job", () => {
  let workbook: FileWorkbook;
  let job: SheetPlan;
  beforeAll(async () => {
    ({ workbook, job } = await shop());
  });

  it("follows the job's own verdict cells, wherever they stand", async () => {
    const sources = await findJobSources(workbook, "Job");
    expect(sources!.verdictCells.slice(0, 2)).toEqual(["wiring", "faulty"]);
    const { formulas } = await workbook.read({ sheet: "Job", ...sources!.verdict, rows: 1, columns: 1 });
    expect(formulas[0]![0]).toMatch(/^=CHG\.VERDICT\(/u);
  });

  it("stands on a sheet of its own, quotes the way that was chosen, and is written down", async () => {
    const ties = await tiesIn(workbook);
    const before = await workbook.sheetNames();
    const priced = await quotedNow(workbook);
    const way = priced.quote.alternatives.find(({ name }) => name === ORDER.way)!;
    const written = await writeQuote(workbook, { ...ORDER, total: way.total.toNumber() }, ties, ENGLISH);
    expect(written).toEqual({ number: "Q-1", sheet: "Quote" });
    expect(await workbook.sheetNames()).toEqual([...before, "Quote", "Quotes"]);

    const sheet = (await readQuoteSheet(workbook, "Quote"))!;
    // Read back, the sheet agrees with what was worked out beside it, line by line.
    expect(sheet.total).toBe(way.total.toNumber());
    expect(sheet.lines.map(({ kind, net }) => [kind, net])).toEqual(way.lines.map((l) => [l.kind, l.net.toNumber()]));
    expect(sheet.ways.map(({ name, total }) => [name, total])).toEqual(
      priced.quote.alternatives.map((other) => [other.name, other.total.toNumber()]),
    );
    const net = sheet.lines.reduce((sum, line) => sum.plus(line.net), new Decimal(0));
    expect(net.toNumber()).toBe(way.net.toNumber());
    expect(Object.fromEntries(sheet.facts)).toMatchObject({
      "Quote number": "Q-1",
      "Job number": "J-118",
      Machine: "Quad 7",
      Customer: "Lower yard",
      "Diagnosis minutes": 45,
      "Quoted verdict": "wiring: faulty",
      "Quoted total": way.total.toNumber(),
    });

    const record = (await findQuoteRecord(workbook))!;
    expect(record.rows).toEqual([
      expect.objectContaining({
        number: "Q-1",
        date: "2026-11-25",
        valid: "2026-12-25",
        sheet: "Job",
        jobNumber: "J-118",
        customer: "Lower yard",
        part: "wiring",
        state: "faulty",
        way: "Replace the cable run",
        total: way.total.toNumber(),
        decision: "open",
        decided: "",
        quoteSheet: "Quote",
      }),
    ]);
  });

  it("while it is open it is written anew under its number, on its sheet", async () => {
    const [open] = (await findQuoteRecord(workbook))!.rows;
    const names = await workbook.sheetNames();
    const order = { ...ORDER, day: "2026-11-26", way: "Renew the joint", minutes: undefined };
    expect(await writeQuote(workbook, order, await tiesIn(workbook), ENGLISH, open)).toEqual({
      number: "Q-1",
      sheet: "Quote",
    });
    expect(await workbook.sheetNames()).toEqual(names);
    const sheet = (await readQuoteSheet(workbook, "Quote"))!;
    expect(sheet.facts.get("Way to quote")).toBe("Renew the joint");
    expect(sheet.facts.has("Diagnosis minutes")).toBe(false);
    expect(sheet.lines.some(({ kind }) => kind === "testing")).toBe(false);
    const { rows } = (await findQuoteRecord(workbook))!;
    expect(rows.map(({ number, date, way }) => [number, date, way])).toEqual([
      ["Q-1", "2026-11-26", "Renew the joint"],
    ]);
  });

  it("holds what the customer said, on the record and on the sheet, and takes it back", async () => {
    const { rows } = (await findQuoteRecord(workbook))!;
    await writeDecision(workbook, rows[0]!, "accepted", "2026-11-27");
    expect((await findQuoteRecord(workbook))!.rows[0]).toMatchObject({ decision: "accepted", decided: "2026-11-27" });
    expect((await readQuoteSheet(workbook, "Quote"))!.facts.get("Decision")).toBe("accepted");
    await writeDecision(workbook, rows[0]!, "open", "2026-11-28");
    expect((await findQuoteRecord(workbook))!.rows[0]).toMatchObject({ decision: "open", decided: "" });
    expect((await readQuoteSheet(workbook, "Quote"))!.facts.has("Decision")).toBe(false);
  });

  it("the next one gets the next number and a sheet of its own, below the last row", async () => {
    const written = await writeQuote(workbook, { ...ORDER, total: 10 }, await tiesIn(workbook), ENGLISH);
    expect(written).toEqual({ number: "Q-2", sheet: "Quote 2" });
    const { rows } = (await findQuoteRecord(workbook))!;
    expect(rows.map(({ number }) => number)).toEqual(["Q-1", "Q-2"]);
    expect(rows[1]!.row).toBe(rows[0]!.row + 1);
  });

  it("a changed verdict shows on the quote's own sheet", async () => {
    await type(workbook, job, "ground-drop", "");
    const { values } = await workbook.read({ sheet: "Quote 2", row: 0, column: 0, rows: 14, columns: 8 });
    expect(values.flat().find((cell) => String(cell).startsWith("Outdated"))).toMatch(
      /wiring: faulty; now it is wiring/u,
    );
  });
});

describe("a quote in Spanish", () => {
  const language = spanishSheets(SPANISH);
  let workbook: FileWorkbook;
  beforeAll(async () => {
    ({ workbook } = await shop());
  });
  const shown = async (sheet: string) => {
    const { values } = await workbook.read({ sheet, row: 0, column: 0, rows: 46, columns: 8 });
    return values;
  };

  it("has the lines, ways and totals of the English one, and is read back like it", async () => {
    const priced = await quotedNow(workbook);
    const total = priced.quote.alternatives[1]!.total.toNumber();
    const order = { ...ORDER, total };
    expect(await writeQuote(workbook, order, await tiesIn(workbook), language)).toEqual({
      number: "Q-1",
      sheet: "Presupuesto",
    });
    await writeQuote(workbook, order, await tiesIn(workbook), ENGLISH);
    const [spanish, english] = [
      (await readQuoteSheet(workbook, "Presupuesto"))!,
      (await readQuoteSheet(workbook, "Quote"))!,
    ];
    expect([spanish.language, english.language]).toEqual(["es", "en"]);
    const lines = (read: typeof english) =>
      read.lines.map(({ kind, partNumber, quantity, net }) => [kind, partNumber, quantity, net]);
    expect(english.lines.length).toBeGreaterThan(3);
    expect(lines(spanish)).toEqual(lines(english));
    expect(spanish.ways.map((way) => way.total)).toEqual(english.ways.map((way) => way.total));
    expect(spanish.total).toBe(total);
    const same = (read: typeof english) =>
      ["Date", "Valid until", "Machine", "Customer", "Diagnosis minutes", "Quoted total"].map((label) =>
        read.facts.get(label),
      );
    expect(same(spanish)).toEqual(same(english));
    expect(spanish.facts.get("Way to quote")).toBe("Cambiar el tramo de cable");
    expect(spanish.facts.get("Quoted verdict")).toBe("cableado: con avería");
  });

  it("says every word on its page but names and the shop's own", async () => {
    const [spanish, english] = [await shown("Presupuesto"), await shown("Quote")];
    const same = new Set<string>();
    english.forEach((row, r) => {
      row.forEach((cell, c) => {
        if (typeof cell === "string" && cell !== "" && cell === spanish[r]![c]) same.add(cell);
      });
    });
    expect([...same].sort()).toEqual(SAME_IN_BOTH);
    expect(spanish[3]![3]).toMatch(/^Cableado: con avería \(/u);
  });

  it("is marked in its language, and takes what the customer said in it", async () => {
    const { rows } = (await findQuoteRecord(workbook))!;
    await writeDecision(workbook, rows[0]!, "accepted", "2026-11-27");
    expect((await readQuoteSheet(workbook, "Presupuesto"))!.facts.get("Decision")).toBe("aceptado");
    expect((await findQuoteRecord(workbook))!.rows[0]).toMatchObject({ decision: "accepted" });
    await writeDecision(workbook, rows[0]!, "open", "2026-11-27");
    expect((await shown("Presupuesto")).flat().some((cell) => /^Desactualizado/u.test(String(cell)))).toBe(false);
    const place = (await readQuoteSheet(workbook, "Presupuesto"))!.places.get("Quoted verdict")!;
    await workbook.apply([{ do: "write", at: place, values: [["estátor: con avería"]] }]);
    expect((await shown("Presupuesto")).flat().find((cell) => /^Desactualizado/u.test(String(cell)))).toMatch(
      /era estátor: con avería; ahora es cableado: con avería$/u,
    );
  });

  it("is written anew on its sheet in the same language, and on another one in another", async () => {
    const [open] = (await findQuoteRecord(workbook))!.rows;
    const again = (of: typeof language) => tiesIn(workbook).then((ties) => writeQuote(workbook, ORDER, ties, of, open));
    expect(await again(language)).toEqual({ number: "Q-1", sheet: "Presupuesto" });
    expect((await shown("Presupuesto")).flat().some((cell) => /^Desactualizado/u.test(String(cell)))).toBe(false);
    expect(await again(ENGLISH)).toEqual({ number: "Q-1", sheet: "Quote 2" });
    expect((await findQuoteRecord(workbook))!.rows).toHaveLength(2);
  });
});

async function quotedNow(workbook: FileWorkbook) {
  const found = await findShopSheets(workbook);
  const sources = (await findJobSources(workbook, "Job"))!;
  const { values } = await workbook.read({ sheet: "Job", ...sources.causes!, rows: 3, columns: 3 });
  const verdict = verdictFromCells([sources.verdictCells], [["", ""]], values);
  if (!verdict.ok || !verdict.value) throw new Error("The demo has no verdict.");
  const job = [
    ["Machine", "Quad 7"],
    ["Regulator part number", "REG-07"],
    ["Diagnosis minutes", 45],
  ];
  const priced = quoteFromSheets(verdict.value, found.prices!.values, found.terms!.values, job);
  if (!priced.ok) throw new Error(priced.fault.code);
  return priced.value;
}

it("stands in the grid as it does in a file", async () => {
  const grid = openHeadlessGrid("Job");
  try {
    const templates = ["job", "machines", "reference", "prices", "terms"].map((id) => templateOf(id)!);
    await placeTemplates(grid.workbook, templates, { demo: DEMO });
    const order = { ...ORDER, way: "Further check", fixed: false };
    await writeQuote(grid.workbook, order, await tiesIn(grid.workbook), ENGLISH);
    const { workbook: file } = await shop("as it is");
    await writeQuote(file, order, await tiesIn(file), ENGLISH);
    const inGrid = await readQuoteSheet(grid.workbook, "Quote");
    expect(inGrid!.lines.map(({ kind }) => kind)).toEqual(["testing", "further check"]);
    expect(inGrid).toEqual(await readQuoteSheet(file, "Quote"));
    expect((await findQuoteRecord(grid.workbook))!.rows).toEqual((await findQuoteRecord(file))!.rows);
  } finally {
    grid.close();
  }
});

describe("the shop's own sheets", () => {
  it("are found by their words, under other names and in other places", async () => {
    const workbook = new MemoryWorkbook();
    workbook.addSheet("Rates", [
      [],
      ["", "What we charge"],
      ["", "Labour rate", 80],
      ["", "Currency", "EUR"],
      ["", "Tax on parts", 0.2],
    ]);
    workbook.addSheet("Shelf", [["Our parts"], ["SKU", "Price", "Used for"], ["A-1", 12, "fuse"]]);
    const { prices, terms } = await findShopSheets(workbook);
    expect(prices).toMatchObject({
      sheet: "Shelf",
      values: [
        ["SKU", "Price", "Used for"],
        ["A-1", 12, "fuse"],
      ],
    });
    expect(prices!.range).toBe("Shelf!$A$2:$C$63");
    expect(terms!.range).toBe("Rates!$B$3:$C$5");
  });

  it("that are missing are laid out, and a sheet of the user's own with that name is left alone", async () => {
    const workbook = new MemoryWorkbook();
    workbook.addSheet("Prices", [["My notes on prices"]]);
    expect(await findShopSheets(workbook)).toEqual({ prices: undefined, terms: undefined });
    expect(await layOutShop(workbook, { prices: true, terms: true }, ENGLISH)).toEqual(["Prices 2", "Terms"]);
    const { prices, terms } = await findShopSheets(workbook);
    expect([prices!.sheet, terms!.sheet]).toEqual(["Prices 2", "Terms"]);
    expect(workbook.valueAt("Prices", 0, 0)).toBe("My notes on prices");
  });

  it("a job sheet without a verdict cannot be followed", async () => {
    const workbook = new MemoryWorkbook();
    workbook.addSheet("Notes", [["Rested voltage", 12.4]]);
    expect(await findJobSources(workbook, "Notes")).toBeUndefined();
  });
});

describe("a quote that cannot be written", () => {
  it("leaves no half of it", async () => {
    const workbook = new MemoryWorkbook();
    workbook.addSheet("Job");
    workbook.failNext = "The workbook is protected.";
    await expect(writeQuote(workbook, ORDER, TIES, ENGLISH)).rejects.toThrow("protected");
    expect(await workbook.sheetNames()).toEqual(["Job"]);
  });

  it("a decision about a row that is gone says so", async () => {
    const { workbook } = await shop();
    await writeQuote(workbook, ORDER, await tiesIn(workbook), ENGLISH);
    const { rows } = (await findQuoteRecord(workbook))!;
    await expect(writeDecision(workbook, { ...rows[0]!, row: 40 }, "accepted", "2026-11-25")).rejects.toThrow(
      "no row for the quote Q-1",
    );
  });
});

it("the record is looked for by the headers that its template lays out", () => {
  const template = templateOf("quotes")!;
  if (template.kind !== "table") throw new Error("The record is a table.");
  expect(Object.fromEntries(template.columns.map(({ id, label }) => [id, label]))).toEqual(QUOTE_HEADERS);
});
