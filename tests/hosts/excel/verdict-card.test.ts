import { FUNCTIONS } from "../../../src/functions/registry";
import { hasCards } from "../../../src/hosts/excel/excel-host";
import { associateOnCall, type FunctionRuntime } from "../../../src/hosts/excel/functions";
import { verdictCard } from "../../../src/hosts/excel/verdict-card";
import { StrictBook } from "./strict-book";
import { StrictExcel } from "./strict-office";

const DRAIN = [
  ["Rested voltage", 11.9],
  ["Key-off draw", "60 mA"],
];

describe("the verdict as a card of Excel", () => {
  const card = verdictCard(FUNCTIONS, [DRAIN])!;
  const [[part, state, chance, sentence]] = FUNCTIONS.VERDICT!(DRAIN) as [[string, string, number, string]];

  it("shows the sentence of the verdict and holds part, state and chance", () => {
    expect(card).toMatchObject({
      type: "Entity",
      text: sentence,
      properties: {
        Part: { type: "String", basicValue: part },
        State: { type: "String", basicValue: state },
        Chance: { type: "FormattedNumber", basicValue: chance, numberFormat: "0 %" },
      },
    });
    expect([part, state]).toEqual(["load", "faulty"]);
  });

  it("opens to the causes with what speaks for and against, and to the next check", () => {
    const [[fault, , likely]] = FUNCTIONS.CAUSES!(DRAIN, 1) as [[string, string, number]];
    expect(card.properties!["Cause 1"]).toMatchObject({
      type: "Entity",
      text: `${fault} (${Math.round(likely * 100)} %)`,
      properties: { Fault: { basicValue: fault }, For: { basicValue: expect.stringMatching(/Key-off draw 60/u) } },
    });
    expect(card.properties!["Next check"]).toEqual({ type: "String", basicValue: FUNCTIONS.NEXTCHECK!(DRAIN)[0]![0] });
  });

  it("says sentence, causes and evidence in Spanish where that is asked for, under the same names", () => {
    const spanish = verdictCard(FUNCTIONS, [DRAIN, [], [], [], "es"])!;
    expect(Object.keys(spanish.properties!)).toEqual(Object.keys(card.properties!));
    expect(spanish.text).toBe(FUNCTIONS.VERDICT!(DRAIN, [], [], [], "es")[0]![3]);
    expect(spanish.text).not.toBe(card.text);
    expect(spanish.properties).toMatchObject({
      State: { basicValue: state },
      "Cause 1": {
        text: expect.stringMatching(/^Fuga con la llave quitada \(\d+ %\)$/u),
        properties: { For: { basicValue: expect.stringMatching(/Consumo en reposo 60/u) } },
      },
    });
  });

  it("lays out nothing that it does not hold", () => {
    const sections = card.layouts!.card!.sections as Excel.CardLayoutListSection[];
    expect(sections.flatMap(({ properties }) => properties).sort()).toEqual(Object.keys(card.properties!).sort());
  });

  it("leaves the plain answer where nothing was read or something cannot be read", () => {
    expect(verdictCard(FUNCTIONS, [[["Rested voltage", ""]]])).toBeUndefined();
    expect(verdictCard(FUNCTIONS, [[["Rested voltage", "abc"]]])).toBeUndefined();
  });

  it("is given only where Excel has cards", async () => {
    const associated = new Map<string, (...given: unknown[]) => unknown>();
    const runtime: FunctionRuntime = { associate: (id, run) => void associated.set(id, run), Error: class {} };
    const excel = new StrictExcel(new StrictBook("Job"));
    const noWords = () => Promise.reject(new Error("No other words are asked for."));
    associateOnCall(["CARD"], () => Promise.resolve(FUNCTIONS), runtime, noWords, {
      CARD: (functions, given) => (hasCards(excel) ? verdictCard(functions, given) : undefined),
    });
    const run = associated.get("CARD")!;
    expect(await run(DRAIN, { address: "Job!A1" })).toEqual([[card]]);
    excel.version = 15;
    expect(await run(DRAIN, { address: "Job!A1" })).toEqual([[sentence]]);
    excel.version = 16;
    expect(await run([["Rested voltage", ""]])).toEqual([["not read"]]);
  });
});
