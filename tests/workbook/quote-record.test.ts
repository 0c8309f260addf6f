import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { SPANISH } from "../../src/pane/words/spanish";
import { findQuoteRecord } from "../../src/workbook/quote-record";
import { writeDecision, writeQuote, type QuoteOrder } from "../../src/workbook/quote-write";
import { ENGLISH, type SheetLanguage } from "../../src/workbook/sheet-language";
import { TIES } from "./quote-ties";

const IN_SPANISH = spanishSheets(SPANISH);
const SENTENCE = "Wiring: faulty (97 %), resistance in the ground run; the ground run drops too much.";
const IN_SPANISH_SENTENCE =
  "Cableado: con avería (97 %), resistencia en el tramo de masa; el tramo de masa cae demasiado.";

const ORDER: QuoteOrder = {
  day: "2026-11-25",
  validDays: 30,
  job: { sheet: "Job", jobNumber: "J-118", machine: "Quad 7", customer: "Lower yard" },
  verdict: { part: "wiring", state: "faulty", chance: 0.97, sentence: SENTENCE },
  way: "Replace the cable run",
  fixed: true,
  partNumber: "",
  total: 120.5,
  currency: "USD",
  minutes: 45,
  warranty: "",
};
/** A workbook in which one quote after another was written, each by a pane in its language. */
async function quotedIn(...languages: readonly SheetLanguage[]) {
  const workbook = new FileWorkbook();
  await workbook.apply(["Job", "P", "T"].map((sheet) => ({ do: "add sheet" as const, sheet })));
  for (const language of languages) await writeQuote(workbook, ORDER, TIES, language);
  const record = (await findQuoteRecord(workbook))!;
  const { values } = await workbook.read(await workbook.usedArea(record.sheet));
  return { workbook, record, cells: record.rows.map(({ row }) => values[row]!), values };
}

describe("the record of quotes", () => {
  it("is laid out in the language of the pane that gives the first quote", async () => {
    const english = await quotedIn(ENGLISH);
    const spanish = await quotedIn(IN_SPANISH);
    expect([english.record.sheet, english.record.language]).toEqual(["Quotes", "en"]);
    expect([spanish.record.sheet, spanish.record.language]).toEqual(["Presupuestos", "es"]);
    expect(spanish.record.columns).toEqual(english.record.columns);
    expect(english.cells[0]).toEqual(expect.arrayContaining(["wiring", "faulty", SENTENCE, "Replace the cable run"]));
    expect(spanish.cells[0]).toEqual(
      expect.arrayContaining(["cableado", "con avería", IN_SPANISH_SENTENCE, "Cambiar el tramo de cable"]),
    );
    const same = spanish.values
      .flat()
      .filter((cell) => typeof cell === "string" && english.values.flat().includes(cell));
    const own = ["", "2026-11-25", "2026-12-25", "J-118", "Job", "Lower yard", "Q-1", "Quad 7", "Total", "USD"];
    expect([...new Set(same)].sort()).toEqual(own);
  });

  it("is read alike in either language", async () => {
    const [english, spanish] = [(await quotedIn(ENGLISH)).record, (await quotedIn(IN_SPANISH)).record];
    const said = { verdict: IN_SPANISH_SENTENCE, way: "Cambiar el tramo de cable", quoteSheet: "Presupuesto" };
    expect(english.rows).toHaveLength(1);
    expect(spanish.rows).toEqual([{ ...english.rows[0], ...said }]);
  });

  it("keeps its language whoever writes in it, and what the customer said", async () => {
    for (const [first, then, words] of [
      [IN_SPANISH, ENGLISH, ["cableado", "con avería", "aceptado"]],
      [ENGLISH, IN_SPANISH, ["wiring", "faulty", "accepted"]],
    ] as const) {
      const { workbook, record } = await quotedIn(first, then);
      expect(record.rows.map(({ part, state }) => `${part}: ${state}`)).toEqual(["wiring: faulty", "wiring: faulty"]);
      await writeDecision(workbook, record.rows[1]!, "accepted", "2026-11-27");
      const after = (await findQuoteRecord(workbook))!;
      expect(after.language).toBe(first.code);
      expect(after.rows.map(({ decision }) => decision)).toEqual(["open", "accepted"]);
      const line = await workbook.read({
        sheet: after.sheet,
        row: after.rows[1]!.row,
        column: 0,
        rows: 1,
        columns: 18,
      });
      expect(line.values[0]).toEqual(expect.arrayContaining([...words]));
    }
  });
});
