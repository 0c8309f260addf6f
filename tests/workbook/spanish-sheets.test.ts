import { readFileSync } from "node:fs";
import path from "node:path";
import type { Cell } from "../../src/core/cell";
import { entryOf, isReading } from "../../src/core/readings/catalogue";
import { CHECKS } from "../../src/core/readings/checks";
import { jobsFromFile } from "../../src/core/readings/from-job-file";
import type { Measured } from "../../src/core/readings/types";
import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { cellsInSpanish } from "../../src/core/words/spanish/cells";
import { SPANISH } from "../../src/pane/words/spanish";
import longTexts from "../pane/words/long-texts.json";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { DEMO, demoIn } from "../../src/workbook/demo";
import { locateReadings } from "../../src/workbook/job-sheet";
import { CHECK, COLUMN } from "../../src/workbook/page-layout";
import { placeTemplates } from "../../src/workbook/place-templates";
import { planSheets, type PlanOptions } from "../../src/workbook/sheet-plan";
import { ENGLISH, type SheetLanguage } from "../../src/workbook/sheet-language";
import { TEMPLATES } from "../../src/workbook/templates";

jest.setTimeout(120_000);

const LANGUAGE = spanishSheets(SPANISH);
const SHEETS = TEMPLATES.filter(({ kind }) => kind === "page" || kind === "list");
/** Where VERDICT, NEXTCHECK and CAUSES answer, and which of their cells are said. */
const ANSWERS = { row: 4, column: 9, rows: 7, columns: 5 };
const SENTENCES: ReadonlySet<string> = new Set([
  "0 3",
  "2 2",
  ...[4, 5, 6].flatMap((row) => [0, 1, 3, 4].map((column) => `${row} ${column}`)),
]);

it("says every text of the sheets but names, signs and words that are the same", () => {
  const unknown = new Set<string>();
  const say = (text: string) => {
    const said = LANGUAGE.say(text);
    if (said === text) unknown.add(text);
    return said;
  };
  planSheets(TEMPLATES, { language: { ...LANGUAGE, say } });
  expect([...unknown].sort()).toEqual([
    "#,##0.00#",
    "AGM",
    "DIN",
    "EN",
    "Gel",
    "IEC",
    "No",
    "SAE",
    "Total",
    "USD",
    "cable",
    "lights-load",
    "rotor",
    "terminal",
    "total",
  ]);
});

it("finds every reading of the Spanish job by its label, as of the English one", () => {
  const places = [ENGLISH, LANGUAGE].map((language) => {
    const [job] = planSheets(SHEETS, { language });
    const [write] = job!.steps;
    if (write?.do !== "write") throw new Error("The first step writes the cells.");
    const labels = write.values.map((line) => line.map((cell): Cell => (typeof cell === "object" ? "" : cell)));
    const found = locateReadings(labels)!;
    return [found.cells, found.proof].map((cells) =>
      [...cells].map(([id, { row, column }]) => `${id} ${row} ${column}`),
    );
  });
  expect(places[1]).toEqual(places[0]);
  expect(places[0]![0]!.length).toBeGreaterThan(80);
});

it("says the long texts of the templates as they were when they were put into Spanish", () => {
  const templates = JSON.stringify(TEMPLATES);
  expect(longTexts.length).toBeGreaterThan(30);
  for (const text of longTexts) {
    expect(templates).toContain(JSON.stringify(text).slice(1, -1));
    expect(LANGUAGE.say(text)).not.toBe(text);
    expect(LANGUAGE.say(`${text} `)).toBe(`${text} `);
  }
  // No other text that a sheet says begins so and is as long.
  const beginning = (text: string) => `${text.split(" ")[0]} ${text.length}`;
  const long = new Set(longTexts.map(beginning));
  const say = jest.fn((text: string) => text);
  planSheets(TEMPLATES, { language: { ...ENGLISH, say } });
  const others = new Set(say.mock.calls.map(([text]) => text).filter((text) => !longTexts.includes(text)));
  expect(others.size).toBeGreaterThan(300);
  expect([...others].filter((text) => long.has(beginning(text)) && LANGUAGE.say(text) !== SPANISH.said(text))).toEqual(
    [],
  );
});

it("takes over what an English sheet holds and what a Spanish one holds", async () => {
  const workbook = new FileWorkbook();
  const [job] = await placeTemplates(workbook, SHEETS, { language: LANGUAGE });
  expect(await workbook.sheetNames()).toEqual(["Trabajo", "Máquinas", "Referencia", "Flota"]);
  const cell = job!.inputs.get("rested-voltage")!;
  const at = { sheet: "Trabajo", ...cell, rows: 1, columns: 1 };
  await workbook.apply([{ do: "write", at, values: [["12,4 V"]] }]);
  await placeTemplates(workbook, SHEETS, { language: LANGUAGE });
  expect((await workbook.read(at)).values).toEqual([["12,4 V"]]);
});

it("fills in the invented shop in the language of the sheet, its parts and its job", () => {
  const texts = (language: SheetLanguage) =>
    planSheets(TEMPLATES, { demo: demoIn(language), language }).flatMap(({ template, steps }) => {
      const [write] = steps;
      if (write?.do !== "write") throw new Error("The first step writes the cells.");
      return template === "prices"
        ? write.values
            .slice(3)
            .map((line) => line[1])
            .filter((cell) => typeof cell === "string")
        : [];
    });
  const [english, spanish] = [texts(ENGLISH), texts(LANGUAGE)];
  expect(english).toContain("Stator, rewound");
  expect(spanish).toHaveLength(english.length);
  expect(spanish.filter((text) => english.includes(text))).toEqual([]);
});

it("quotes from Spanish prices and terms what it quotes from the English ones", async () => {
  const amounts = await Promise.all(
    [ENGLISH, LANGUAGE].map(async (language) => {
      const workbook = new FileWorkbook();
      const plans = await placeTemplates(workbook, TEMPLATES, { demo: demoIn(language), language });
      const quote = plans.find(({ template }) => template === "quote")!;
      const { values } = await workbook.read({ ...quote.area, column: 0, columns: 8 });
      return values.map((line) => line.slice(3, 7).map((cell) => (typeof cell === "number" ? cell : "")));
    }),
  );
  expect(amounts[0]!.flat().filter((cell) => cell !== "").length).toBeGreaterThan(5);
  expect(amounts[1]).toEqual(amounts[0]);
});

describe("verdict, causes, states and limits of a Spanish job are those of the English one", () => {
  it("for the demo", async () => {
    const [english, spanish] = await Promise.all([
      answers({ demo: DEMO }),
      answers({ demo: demoIn(LANGUAGE), language: LANGUAGE }),
    ]);
    expect(english!.answers[0]!.slice(0, 2)).toEqual(["wiring", "suspect"]);
    expect(spanish!.answers).toEqual(inSpanish(english!.answers));
    expect(spanish!.states).toEqual(english!.states.map(LANGUAGE.say));
    expect(spanish!.limits).toEqual(saidReasons(english!.limits));
    for (const { limits, origins } of [english!, spanish!]) {
      expect(origins.length).toBeGreaterThan(10);
      for (const origin of origins)
        expect(limits.map(([, , reason]) => String(reason))).toContainEqual(expect.stringContaining(origin));
      // Beside a reading its limit is not said again.
      expect(origins.filter((origin) => origin.startsWith("("))).not.toEqual([]);
      expect(origins.filter((origin) => /limit of|límite:/u.test(origin))).toEqual([]);
    }
    expect(spanish!.headline).toBe("Cableado: bajo sospecha (89 %)");
  });

  const file = readFileSync(path.resolve(__dirname, "../jobs/simulated-jobs.json"), "utf8");
  const jobs = jobsFromFile(JSON.parse(file));
  if (!jobs.ok) throw new Error("The simulated jobs cannot be read.");
  it.each(jobs.value.filter((_, i) => i % 24 === 5))("for the simulated job $id", async ({ job }) => {
    const english = await answers({}, job);
    const spanish = await answers({ language: LANGUAGE }, job);
    expect(english.states.filter((state) => ["pass", "fail", "unsure"].includes(state)).length).toBeGreaterThan(5);
    expect(spanish.answers).toEqual(inSpanish(english.answers));
    expect(spanish.states).toEqual(english.states.map(LANGUAGE.say));
    expect(spanish.limits).toEqual(saidReasons(english.limits));
    expect(spanish.sentences.filter((text) => english.sentences.includes(text))).toEqual([]);
    expect(spanish.sentences.length).toBeGreaterThan(100);
    // Titles are numbered, and one note shows both ways of writing, which are read alike.
    const others = spanish.sentences
      .map(String)
      .filter((text) => !/^\d\.\d {2}/u.test(text) && !text.includes("12.6, 12,6 V"));
    expect(others.filter((text) => /\d\.\d/u.test(text))).toEqual([]);
  });
});

/** Cells that other formulas go by as they are, sentences in Spanish. */
function inSpanish(answers: readonly (readonly Cell[])[]): Cell[][] {
  return answers.map((line, r) => line.map((cell, c) => (SENTENCES.has(`${r} ${c}`) ? told(cell) : cell)));
}

/** Words that are the same in both languages. */
const SAME: ReadonlySet<string> = new Set(["rotor"]);

function saidReasons(limits: readonly (readonly Cell[])[]): Cell[][] {
  return limits.map(([low, high, reason]) => [low!, high!, told(reason!)]);
}

function told(cell: Cell): Cell {
  if (typeof cell !== "string" || cell === "") return cell;
  const said = cellsInSpanish(cell);
  if (said === cell && !SAME.has(cell)) throw new Error(`Nothing is said in Spanish for: ${cell}`);
  return said;
}

/** What a job sheet answers, with readings typed in as they are typed in the sheet's language. */
async function answers(options: PlanOptions, job: ReadonlyMap<string, Measured> = new Map()) {
  const language = options.language ?? ENGLISH;
  const workbook = new FileWorkbook();
  const [plan] = await placeTemplates(workbook, SHEETS, options);
  const { sheet, inputs, area } = plan!;
  const writes = [...job].flatMap(([id, measured]) => {
    const cell = inputs.get(id);
    if (!cell) return [];
    const at = { sheet, ...cell, rows: 1, columns: 1 };
    return [{ do: "write" as const, at, values: [[typed(measured, language)]] }];
  });
  await workbook.apply(writes);
  const { values } = await workbook.read({ ...area, columns: COLUMN.workings + CHECK.columns });
  const rows = [...inputs].filter(([id]) => isReading(entryOf(id)!)).map(([, { row }]) => row);
  return {
    answers: (await workbook.read({ sheet, ...ANSWERS })).values,
    headline: values[4]![4],
    states: rows.map((row) => String(values[row]![4] ?? "")),
    limits: rows.map((row) => [COLUMN.low, COLUMN.high, COLUMN.workings + CHECK.reason].map((c) => values[row]![c])),
    origins: rows.flatMap((row) =>
      isSentence(values[row]![COLUMN.reason]) ? [String(values[row]![COLUMN.reason])] : [],
    ),
    sentences: (await workbook.read(await workbook.usedArea(sheet))).values.flatMap((line) => line.filter(isSentence)),
  };
}

/** Names of checks in the workings are what other formulas go by. */
const NAMES: ReadonlySet<Cell> = new Set(CHECKS.map(({ label }) => label));

function isSentence(cell: Cell): boolean {
  return typeof cell === "string" && cell.split(" ").length > 3 && !NAMES.has(cell);
}

function typed(measured: Measured, language: SheetLanguage): string | number {
  switch (measured.kind) {
    case "number":
      return measured.value;
    case "choice":
      return language.choice(measured.value);
    case "text":
      return measured.value;
    default:
      return "OL";
  }
}
