import type { Block } from "../../../src/core/cell";
import { DIRECT_PROOF, SOUND_CHECKS } from "../../../src/core/diagnosis/direct-checks";
import { FAULTS } from "../../../src/core/diagnosis/faults";
import { diagnose } from "../../../src/core/diagnosis/diagnose";
import { nextChecks } from "../../../src/core/diagnosis/next-check";
import { proveRepair } from "../../../src/core/diagnosis/proof";
import { CONDITIONS } from "../../../src/core/quote/price-list";
import { repairsOf } from "../../../src/core/quote/operations";
import { quoteFromCells } from "../../../src/core/quote/quote-from-cells";
import { quoteFromSheets } from "../../../src/core/quote/quote-from-sheets";
import type { QuotedVerdict } from "../../../src/core/quote/quote";
import { PARTS } from "../../../src/core/readings/types";
import { jobsFromFile } from "../../../src/core/readings/from-job-file";
import { faultMessage } from "../../../src/core/result";
import { QUOTE_PHRASES } from "../../../src/pane/words/counter-spanish";
import { SPANISH_PHRASES } from "../../../src/core/words/spanish/phrases";
import { withoutSubject } from "../../../src/pane/words/without-subject";
import { PRICE_HEADER } from "../../core/quote/shop";
import { readFileSync } from "node:fs";
import path from "node:path";

const BOOK = SPANISH_PHRASES.with(QUOTE_PHRASES);
const unknown = (sentences: Iterable<string>) =>
  [...new Set(sentences)].filter((text) => BOOK.said(text) === undefined);

const part = (cells: Readonly<Partial<Record<string, string | number>>>) =>
  PRICE_HEADER.map((label) => cells[label] ?? "");
const verdicts: readonly QuotedVerdict[] = [
  ...FAULTS.flatMap(({ id, part }): readonly QuotedVerdict[] =>
    part === null ? [] : [{ part, state: "faulty", faults: [id], sentence: "" }],
  ),
  ...PARTS.map((part): QuotedVerdict => ({ part, state: "faulty", sentence: "" })),
  { part: "stator", state: "suspect", sentence: "" },
  { part: "stator", state: "suspect", sentence: "", nextCheck: { label: "Diode check", minutes: 12 } },
  { state: "serviceable", sentence: "" },
];

/** All that quotes of every part say with these prices and terms, beside the shop's own words. */
function saidBy(prices: Block, terms: Block): string[] {
  return verdicts.flatMap((verdict) => {
    const priced = quoteFromSheets(verdict, [PRICE_HEADER, ...prices], terms);
    if (!priced.ok) throw new Error(faultMessage(priced.fault));
    const { alternatives, issues, reason } = priced.value.quote;
    return [
      ...issues,
      ...(verdict.state === "faulty" ? [reason.trim()] : []),
      ...alternatives.flatMap(({ lines, missing }) => [
        ...missing,
        ...lines.flatMap(({ kind, description, note }) => [
          note,
          ...(kind === "part" || kind === "material" ? [] : [description]),
        ]),
      ]),
    ];
  });
}
/** Words of the shop's own, and those that are the same in both languages. */
const SAME = ["S-1", "Ours", "material", "total", "Total USD"];
const TERMS: Block = [
  ["Labour rate", 90],
  ["Shop supplies", 0.05],
  ["Diagnosis minutes", 30],
  ["Machine", "Quad 7"],
  ["Part number", "R-1"],
];

describe("quotes in Spanish", () => {
  it("say every line, its note and what has no price", () => {
    const prices = [
      part({ "Part number": "S-1", Use: "stator", Fits: "Quad 7", Price: 10, "Core charge": 5, Stock: 2 }),
      part({
        "Part number": "S-2",
        Use: "stator",
        Condition: "used",
        Fits: "Quad 7",
        Price: 10,
        Stock: 0,
        "Lead days": 4,
      }),
      part({ "Part number": "B-1", Use: "battery", Price: 10, Deposit: 5, "Lead days": 3 }),
      part({ "Part number": "R-1", Use: "regulator-rectifier", Fits: "Cart 4", Price: 8 }),
      part({ "Part number": "G-1", Use: "gasket" }),
      part({ "Part number": "F-1", Use: "fuse", Price: 1 }),
      part({ "Part number": "F-1", Use: "fuse", Price: 2 }),
      part({ "Part number": "C-1", Use: "cable", Price: 2, "Superseded by": "C-9" }),
    ];
    const said = saidBy(prices, TERMS);
    // What the lists above are made to bring out is there; else this would look at nothing.
    for (const sample of [
      "in stock",
      "0 in stock, 4 days to come",
      "listed for Cart 4: check the fit",
      "F-1: two prices in the list",
    ])
      expect(said).toContain(sample);
    expect(unknown(said)).toEqual([]);
    expect(BOOK.said("0 in stock, 4 days to come")).toBe("0 en existencia, llega en 4 días");
  });

  it("say what is missing where nothing is set, and why work is at zero", () => {
    expect(unknown(saidBy([], []))).toEqual([]);
    expect(unknown(saidBy([], TERMS))).toEqual([]);
    expect(unknown(saidBy([], [...TERMS, ["Warranty", "came back within a month"]]))).toEqual([]);
  });

  it("say what is wrong with the price list", () => {
    const said = saidBy(
      [
        part({ Use: "stator" }),
        part({ "Part number": "X", Use: "wheel" }),
        part({ "Part number": "X", Use: "stator", Condition: "bent" }),
        part({ "Part number": "X", Use: "stator", Price: "cheap" }),
        part({ "Part number": "X", Use: "stator", Price: -4 }),
        part({ "Part number": "X", Use: "stator", Cost: 4, Margin: 3 }),
      ],
      TERMS,
    );
    expect(said.filter((text) => text.startsWith("Line")).length).toBeGreaterThanOrEqual(6);
    expect(unknown(said)).toEqual([]);
  });

  it("name every way to repair", () => {
    const names = PARTS.flatMap((part) => repairsOf(part)).map(({ name }) => name);
    expect(names.length).toBeGreaterThan(8);
    expect(unknown(names.flatMap((name) => [name, ...CONDITIONS.map((condition) => `${name}, ${condition}`)]))).toEqual(
      [],
    );
  });

  it("say every cell that a function answers, whatever the verdict of a whole day's jobs, but the shop's own words", () => {
    const prices: Block = [PRICE_HEADER, part({ "Part number": "S-1", Description: "Ours", Use: "stator", Price: 10 })];
    const file = path.join(__dirname, "../../jobs/simulated-jobs.json");
    const jobs = jobsFromFile(JSON.parse(readFileSync(file, "utf8")));
    if (!jobs.ok) throw new Error("The simulated jobs cannot be read.");
    const left = new Set<string>();
    const kinds = new Set<string>();
    for (const { job } of jobs.value.slice(0, 60)) {
      const { verdict, faults } = diagnose(job)!;
      const next = nextChecks(job)[0];
      const wishes = {
        nextCheck: next ? [[next.label, next.minutes]] : [],
        causes: faults.slice(0, 3).map(({ label, chance }) => [label, "", chance]),
      };
      const cells = [[verdict.part, verdict.state, verdict.chance, verdict.sentence]];
      const [english, spanish] = ["en", "es"].map((language) => {
        const made = quoteFromCells(cells, prices, TERMS, { ...wishes, language });
        if (!made.ok) throw new Error(faultMessage(made.fault));
        return made.value;
      });
      kinds.add(verdict.state);
      english!.forEach((row, r) => {
        row.forEach((cell, c) => {
          const said = spanish![r]![c];
          if (typeof cell !== "string" || cell === "") expect(said).toEqual(cell);
          else if (said === cell && !SAME.includes(cell) && !/^\d+ min$/u.test(cell)) left.add(cell);
        });
      });
    }
    expect(kinds.size).toBeGreaterThan(2);
    expect([...left]).toEqual([]);
  });

  it("take the name of a way and the labels of a job in Spanish too, and no third language", () => {
    const made = (language: string) =>
      quoteFromCells(
        [["wiring", "faulty"]],
        [PRICE_HEADER, part({ "Part number": "T", Use: "terminal", Price: 4 })],
        TERMS,
        {
          alternative: "rehacer la unión",
          job: [["Garantía", "volvió en un mes"]],
          language,
        },
      );
    const spanish = made("es");
    if (!spanish.ok) throw new Error(faultMessage(spanish.fault));
    expect(spanish.value.find(([kind]) => kind === "total")![5]).toBe(0);
    expect(spanish.value.find(([kind]) => kind === "material")![7]).toBe("Garantía: volvió en un mes");
    const other = made("fr");
    expect(other.ok ? "" : faultMessage(other.fault)).toMatch(/language: "fr" cannot be read; enter en or es/u);
  });

  it("refuse terms and lists that cannot be read", () => {
    const refused = [
      quoteFromSheets(verdicts[0]!, [PRICE_HEADER], [["Labour rate", "much"]]),
      quoteFromSheets(verdicts[0]!, [PRICE_HEADER], [["Currency", "dollars"]]),
      quoteFromSheets(verdicts[0]!, [["Part number"]], []),
    ];
    expect(unknown(refused.map((result) => (result.ok ? "read" : faultMessage(result.fault))))).toEqual([]);
  });
});

describe("the answer for a part that comes back, in Spanish", () => {
  it("says on what grounds, and which checks", () => {
    expect(unknown(Object.values(DIRECT_PROOF).flatMap((proofs) => proofs.map(({ words }) => words)))).toEqual([]);
    expect(unknown(Object.values(SOUND_CHECKS).flatMap((checks) => checks.map(({ words }) => words)))).toEqual([]);
  });

  it("says what the readings after the work prove, whatever machine follows whatever other", () => {
    const file = path.join(__dirname, "../../jobs/simulated-jobs.json");
    const read = jobsFromFile(JSON.parse(readFileSync(file, "utf8")));
    if (!read.ok) throw new Error("The simulated jobs cannot be read.");
    const jobs = read.value.map((filed) => filed.job);
    const proofs = jobs
      .slice(0, 40)
      .flatMap((before, i) => proveRepair(before, jobs[(i * 7 + 3) % jobs.length]!) ?? []);
    expect(new Set(proofs.map(({ outcome }) => outcome)).size).toBeGreaterThan(1);
    expect(unknown(proofs.map(({ sentence }) => withoutSubject(sentence)))).toEqual([]);
  });
});
