import { AUDIT_COLUMNS } from "../../src/core/fleet/audit-columns";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { SPANISH } from "../../src/pane/words/spanish";
import { planRemoval } from "../../src/workbook/adopt-removal";
import { foundMeanings, planResults } from "../../src/workbook/adopt-results";
import { ENGLISH, type SheetLanguage } from "../../src/workbook/sheet-language";
import { SPANISH_HEADERS } from "../functions/spanish-headers";
import { HOSTS, saidOf, type Opened } from "./adopt-hosts";
import { areaAt, everyCell, fill, look, MESSY, valuesAt, type Rows } from "./adopt-sheets";

jest.setTimeout(120_000);

const IN_SPANISH = spanishSheets(SPANISH);
const { say } = IN_SPANISH;

it("colours the states by their Spanish words, also where English ones stood", async () => {
  const { workbook, close } = await HOSTS[0]![1]();
  await workbook.apply([fill(MESSY.slice(3, 10))]);
  const coloured = async (language: SheetLanguage) => {
    const table = await look(workbook, "B4");
    const { steps } = planResults(table, foundMeanings(table), undefined, language);
    await workbook.apply(steps);
    return steps.flatMap((step) => (step.do === "colour rule" ? step.rule.words.map(({ equals }) => equals) : []));
  };
  expect(await coloured(ENGLISH)).toEqual(["serviceable", "faulty", "suspect", "unproven"]);
  expect(await coloured(ENGLISH)).toEqual([]);
  const words = await coloured(IN_SPANISH);
  expect(words).toEqual(["en buen estado", "con avería", "bajo sospecha", "sin probar"]);
  expect(await coloured(IN_SPANISH)).toEqual([]);
  const states = (await valuesAt(workbook, "J2:J4")).flat().filter((state) => state !== "");
  for (const state of states) expect(words).toContain(state);
  expect(states).toHaveLength(2);
  close?.();
});

describe.each(HOSTS)("results in Spanish on %s", (_, start) => {
  let opened: Opened;
  beforeEach(async () => {
    opened = await start();
  });
  afterEach(() => opened.close?.());

  it("are found again, renewed in the other language and back in their place, and taken away", async () => {
    const { workbook, undo } = opened;
    const units: Rows = [...MESSY.slice(3, 4), ["", "", "", "V", "mA", "", ""], ...MESSY.slice(4, 10)];
    await workbook.apply([fill(units)]);
    const before = await everyCell(workbook);
    const seen = () => look(workbook, "B4");
    const renew = async (language = IN_SPANISH) => {
      const table = await seen();
      await workbook.apply(planResults(table, foundMeanings(table), undefined, language).steps);
      return everyCell(workbook);
    };
    const spanish = await renew();
    const results = await valuesAt(workbook, "I1:O8");
    expect(results[0]).toEqual(SPANISH_HEADERS);
    for (const i of [2, 3, 5]) {
      const [part, state, chance, sentence] = saidOf(MESSY[3]!, units[i]!, "es");
      expect([results[i]![0], results[i]![1], results[i]![6]]).toEqual([say(part), say(state), sentence]);
      expect(results[i]![2]).toBeCloseTo(chance, 9);
    }
    expect([results[6]![1], results[7]![1]]).toEqual(["sin leer", "no se entiende"]);
    expect(results[7]![6]).toContain("no se puede leer");
    expect((await seen()).standing).toMatchObject({
      kind: "spilled",
      row: 0,
      column: 8,
      columns: 7,
      rows: 7,
      language: "es",
    });

    expect(await renew()).toEqual(spanish);
    const english = await renew(ENGLISH);
    expect(await valuesAt(workbook, "I1:O1")).toEqual([[...AUDIT_COLUMNS]]);
    expect((await seen()).standing).toMatchObject({ kind: "spilled", row: 0, columns: 7, rows: 7, language: "en" });
    expect(await renew()).toEqual(spanish);
    if (undo) {
      await undo();
      expect(await everyCell(workbook)).toEqual(english);
    }
    await workbook.apply(planRemoval(await seen()));
    expect(await everyCell(workbook)).toEqual(before);
  });

  it("by the table's own headers: the formula brings Spanish ones, and English ones again", async () => {
    const { workbook } = opened;
    await workbook.apply([fill(MESSY.slice(3, 10))]);
    const before = await everyCell(workbook);
    const write = async (language: SheetLanguage) => {
      const table = await look(workbook, "B4");
      await workbook.apply(planResults(table, foundMeanings(table), undefined, language).steps);
      return everyCell(workbook);
    };
    const english = await write(ENGLISH);
    const spanish = await write(IN_SPANISH);
    expect((await valuesAt(workbook, "I1:O1"))[0]).toEqual(SPANISH_HEADERS);
    expect((await valuesAt(workbook, "O2"))[0]).toEqual([saidOf(MESSY[3]!, MESSY[4]!, "es")[3]]);
    expect(await write(ENGLISH)).toEqual(english);
    expect(await write(IN_SPANISH)).toEqual(spanish);
    await workbook.apply(planRemoval(await look(workbook, "B4")));
    expect(await everyCell(workbook)).toEqual(before);
  });

  it("inside a table: verdicts and headers, renewed in the other language, taken away again", async () => {
    const { workbook } = opened;
    const rows = MESSY.slice(3, 10);
    await workbook.apply([fill(rows), { do: "table", at: areaAt("A1:G7"), name: "Round" }]);
    const before = await everyCell(workbook);
    const write = async (language: SheetLanguage) => {
      const table = await look(workbook, "C3");
      await workbook.apply(planResults(table, foundMeanings(table), undefined, language).steps);
      return valuesAt(workbook, "H1:L7");
    };
    const spanish = await write(IN_SPANISH);
    expect(spanish[0]).toEqual(["Estado", "Pieza", "Probabilidad", "Siguiente prueba", "Dictamen"]);
    for (const i of [1, 2, 4]) {
      const [part, state, , sentence] = saidOf(rows[0]!, rows[i]!, "es");
      expect([spanish[i]![1], spanish[i]![0], spanish[i]![4]]).toEqual([say(part), say(state), sentence]);
    }
    const english = await write(ENGLISH);
    expect(english[0]).toEqual(["State", "Part", "Chance", "Next check", "Verdict"]);
    expect(english[1]![4]).toBe(saidOf(rows[0]!, rows[1]!)[3]);
    expect(await write(IN_SPANISH)).toEqual(spanish);
    expect((await workbook.tablesIn(areaAt("A1")))[0]?.at).toEqual(areaAt("A1:L7"));
    await workbook.apply(planRemoval(await look(workbook, "C3")));
    expect(await everyCell(workbook)).toEqual(before);
    expect((await workbook.tablesIn(areaAt("A1")))[0]?.at).toEqual(areaAt("A1:G7"));
  });
});
