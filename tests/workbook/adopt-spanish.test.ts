import { AUDIT_COLUMNS } from "../../src/core/fleet/audit-cells";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { SPANISH } from "../../src/pane/words/spanish";
import { foundMeanings, planRemoval, planResults } from "../../src/workbook/adopt-results";
import { ENGLISH, type SheetLanguage } from "../../src/workbook/sheet-language";
import { HOSTS, saidOf, type Opened } from "./adopt-hosts";
import { areaAt, everyCell, fill, look, MESSY, valuesAt, type Rows } from "./adopt-sheets";

jest.setTimeout(120_000);

const IN_SPANISH = spanishSheets(SPANISH);
const SPANISH_HEADERS = [
  "Pieza",
  "Estado",
  "Probabilidad",
  "Siguiente prueba",
  "Días hasta descargarse",
  "Orden",
  "Dictamen",
];

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
      expect([results[i]![0], results[i]![1], results[i]![6]]).toEqual([part, state, sentence]);
      expect(results[i]![2]).toBeCloseTo(chance, 9);
    }
    expect(results[7]![6]).toContain("no se puede leer");
    expect((await seen()).standing).toMatchObject({ kind: "spilled", row: 0, column: 8, columns: 7, rows: 7 });

    expect(await renew()).toEqual(spanish);
    const english = await renew(ENGLISH);
    expect(await valuesAt(workbook, "I1:O1")).toEqual([[...AUDIT_COLUMNS]]);
    expect((await seen()).standing).toMatchObject({ kind: "spilled", row: 0, column: 8, columns: 7, rows: 7 });
    expect(await renew()).toEqual(spanish);
    if (undo) {
      await undo();
      expect(await everyCell(workbook)).toEqual(english);
    }
    await workbook.apply(planRemoval(await seen()));
    expect(await everyCell(workbook)).toEqual(before);
  });

  it("by the table's own headers: go from one formula with headers to one without, and back", async () => {
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
      expect([spanish[i]![1], spanish[i]![0], spanish[i]![4]]).toEqual([part, state, sentence]);
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
