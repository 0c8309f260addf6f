import { lookAtTable, machineRows, sampleOf } from "../../src/workbook/adopt-table";
import { matchLabel } from "../../src/core/readings/match";
import { foundMeanings, kindOf, planResults } from "../../src/workbook/adopt-results";
import { routineShare } from "../../src/workbook/audit-formula";
import type { Step } from "../../src/workbook/port";
import { SPANISH } from "../../src/pane/words/spanish";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { ENGLISH } from "../../src/workbook/sheet-language";
import { MemoryWorkbook } from "../pane/memory-workbook";
import { areaAt, fill, look, MESSY, SHEET, type Rows } from "./adopt-sheets";

async function sheetOf(rows: Rows): Promise<MemoryWorkbook> {
  const workbook = new MemoryWorkbook();
  workbook.addSheet(SHEET);
  await workbook.apply([fill(rows)]);
  return workbook;
}
const headersOf = async (header: readonly string[], row: readonly (string | number)[]) => {
  const table = await look(await sheetOf([header, row, row]), "A1");
  return table.columns.map(({ meaning, told }) => [meaning?.id, meaning?.unit, told]);
};
const formulaOf = (steps: readonly Step[], row: number, column: number) => {
  for (const step of steps) {
    if (step.do !== "write") continue;
    const cell = step.values[row - step.at.row]?.[column - step.at.column];
    if (typeof cell === "object") return cell.formula;
  }
  return undefined;
};

describe("what the user points at", () => {
  it.each(["A4", "D8", "A1", "A4:G4", "A4:G11", "J30"])("finds the same table from %s", async (at) => {
    const table = await look(await sheetOf(MESSY), at);
    expect([table.headerRow, table.firstRow, table.rows]).toEqual([3, 4, 6]);
    // A blank row stands between the machines.
    expect(machineRows(table)).toBe(5);
    expect(table.columns.map(({ column, meaning, told }) => [column, meaning?.id, meaning?.unit, told])).toEqual([
      [0, "machine-name", undefined, "header"],
      [1, undefined, undefined, "nothing"],
      [2, "battery-type", undefined, "header"],
      [3, "rested-voltage", "V", "misspelt"],
      [4, "key-off-draw", "mA", "header"],
      [5, "cranking-voltage", undefined, "header"],
      [6, "test-voltage", undefined, "header"],
    ]);
  });

  it("takes the columns that are selected and no others", async () => {
    const table = await look(await sheetOf(MESSY), "D4:E10");
    expect(table.columns.map(({ column }) => column)).toEqual([3, 4]);
  });

  it("says what to select where no header is known", async () => {
    const found = await lookAtTable(
      await sheetOf([
        ["a", "b"],
        [1, 2],
      ]),
      areaAt("A1"),
    );
    expect(found).toMatchObject({
      ok: false,
      fault: { code: "refused", instead: expect.stringContaining("header row") },
    });
    // A selected header row is one because the user says so, whatever it holds.
    const table = await look(
      await sheetOf([
        ["a", "b"],
        [12.6, 2],
      ]),
      "A1:B1",
    );
    expect(table.columns.map(({ told }) => told)).toEqual(["nothing", "nothing"]);
    expect(table.rows).toBe(1);
  });

  it("ends at an empty column, at a second header and before a note", async () => {
    const rows: Rows = [
      ["Machine", "OCV", "", "Other list", "Idle voltage", "Order"],
      ["Q-1", 12.8, "", "x", 1, { formula: "=1+1" }],
      ["Q-2", 12.1, "", "y", 2],
      ["Q-9", "", "", "", ""],
      [],
      ["Machine", "Cranking voltage"],
      ["Q-3", 10],
    ];
    const upper = await look(await sheetOf(rows), "A2");
    expect([upper.headerRow, upper.rows, upper.columns.length]).toEqual([0, 3, 2]);
    // What stands beyond is not passed over in silence, but for results.
    expect(upper.apart).toEqual([4]);
    const lower = await look(await sheetOf(rows), "B7");
    expect([lower.headerRow, lower.rows]).toEqual([5, 1]);
  });
});

describe("headers", () => {
  it("in Spanish", async () => {
    expect(
      await headersOf(
        [
          "Máquina",
          "Fecha",
          "Tipo de batería",
          "Tensión en reposo (V)",
          "Consumo en reposo (mA)",
          "Temperatura °C",
          "Voltaje de carga",
        ],
        ["Q-1", "2026-11-20", "agm", 12.6, 2, 20, 14.2],
      ),
    ).toEqual([
      ["machine-name", undefined, "header"],
      ["visit-date", undefined, "header"],
      ["battery-type", undefined, "header"],
      ["rested-voltage", "V", "header"],
      ["key-off-draw", "mA", "header"],
      ["battery-temperature", "°C", "header"],
      ["test-voltage", undefined, "header"],
    ]);
  });
  it("in French", async () => {
    const found = await headersOf(
      [
        "Véhicule",
        "Type de batterie",
        "Tension au repos [V]",
        "Courant de fuite (mA)",
        "Tension au démarrage",
        "Tension de charge",
        "Régime moteur",
      ],
      ["Q-1", "agm", 12.6, 2, 10.4, 14.2, 5000],
    );
    expect(found.map(([id]) => id)).toEqual([
      "machine-name",
      "battery-type",
      "rested-voltage",
      "key-off-draw",
      "cranking-voltage",
      "test-voltage",
      "test-rpm",
    ]);
  });
  it("in German", async () => {
    const found = await headersOf(
      [
        "Fahrzeug",
        "Batterietyp",
        "Ruhespannung (V)",
        "Ruhestrom (mA)",
        "Startspannung",
        "Ladespannung",
        "Drehzahl",
        "Batteriekapazität (Ah)",
      ],
      ["Q-1", "agm", 12.6, 2, 10.4, 14.2, 5000, 14],
    );
    expect(found.map(([id]) => id)).toEqual([
      "machine-name",
      "battery-type",
      "rested-voltage",
      "key-off-draw",
      "cranking-voltage",
      "test-voltage",
      "test-rpm",
      "battery-capacity",
    ]);
  });

  it("takes the same no-load reading at another speed for the second speed, as the worksheet's functions do", async () => {
    const header = ["Machine", "No-load AC A-B @ 2000 rpm", "No-load AC A-B @ 5000 rpm", "No-load AC A-B @ 5000 rpm"];
    const table = await look(await sheetOf([header, ["Q-1", 20.5, 51.2, 51.3], ["Q-2", 20.1, 50.4, 50.2]]), "A1");
    expect(table.columns.map(({ meaning, told }) => [meaning?.id, meaning?.rpm, told])).toEqual([
      ["machine-name", undefined, "header"],
      ["no-load-ab", 2000, "misspelt"],
      ["no-load-2-ab", 5000, "misspelt"],
      ["no-load-2-ab", 5000, "doubled"],
    ]);
  });

  it("leaves the second of a doubled name out until the user says what it is", async () => {
    const workbook = await sheetOf([
      ["Machine", "Voltage at idle", "Charging voltage", "Charging voltage"],
      ["Q-1", 13.1, 14.2, 14.1],
    ]);
    const table = await look(workbook, "A1");
    expect(table.columns.map(({ told }) => told)).toEqual(["header", "header", "header", "doubled"]);
    expect([...foundMeanings(table).keys()]).toEqual([0, 1, 2]);
    const both = new Map([...foundMeanings(table), [3, { id: "test-voltage" }]]);
    expect(() => planResults(table, both)).toThrow(/Two columns are matched to Running voltage at test speed/u);
  });

  it("reads a title over several columns together with what stands below it", async () => {
    const table = await look(
      await sheetOf([
        ["", "At idle", "", "No-load AC", "", ""],
        ["Machine", "Voltage", "rpm", "A-B", "B-C", "C-A"],
        ["Q-1", 13.1, 1400, 51, 52, 51],
        ["Q-2", 13.4, 1400, 49, 52, 50],
      ]),
      "A2:F2",
    );
    expect(table.columns.map(({ meaning, told }) => [meaning?.id, told])).toEqual([
      ["machine-name", "header"],
      ["idle-voltage", "around"],
      ["test-rpm", "header"],
      ["no-load-ab", "around"],
      ["no-load-bc", "around"],
      ["no-load-ca", "around"],
    ]);
    const { steps } = planResults(table, foundMeanings(table));
    expect(formulaOf(steps, 2, 7)).toContain('"No-load AC, A–B [V AC]"');
  });

  it("takes units from a row of their own below the headers", async () => {
    const table = await look(
      await sheetOf([
        ["Machine", "Rested voltage", "Key-off draw"],
        ["", "mV", "(A)"],
        ["Q-1", 12600, 0.002],
      ]),
      "A1",
    );
    expect([table.firstRow, table.rows]).toEqual([2, 1]);
    expect(table.columns.map(({ meaning }) => meaning?.unit)).toEqual([undefined, "mV", "A"]);
    const { steps } = planResults(table, foundMeanings(table));
    expect(formulaOf(steps, 2, 4)).toBe(
      '=CHG.AUDIT(CHOOSE({1,2,3},IF($A$3:$A$3="","",$A$3:$A$3),IF($B$3:$B$3="","",$B$3:$B$3),IF($C$3:$C$3="","",$C$3:$C$3)),,,,' +
        '{"Machine","Rested voltage [mV]","Key-off draw [A]"})',
    );
  });

  it.each([
    ["English", undefined, '"Running voltage at test speed (5200 rpm) [mV]"'],
    ["Spanish", spanishSheets(SPANISH), '"Tensión en marcha a régimen de prueba (5200 rpm) [mV]"'],
  ] as const)("keeps the speed of a header where the formula names its columns, in %s", async (_, language, name) => {
    const table = await look(
      await sheetOf([
        ["Machine", "Volts @ 5200 rpm", "Key-off draw"],
        ["", "mV", "(A)"],
        ["Q-1", 14100, 0.002],
      ]),
      "A1",
    );
    const formula = formulaOf(planResults(table, foundMeanings(table), undefined, language).steps, 2, 4)!;
    expect(formula).toContain(name);
    const [{ entry, unit, rpm } = {}] = [matchLabel(name.slice(1, -1))];
    expect([entry?.id, unit, rpm]).toEqual(["test-voltage", "mV", 5200]);
  });
});

describe("samples", () => {
  it("show what stands there, and the first cell that cannot be read with the reason", async () => {
    const table = await look(await sheetOf(MESSY), "A4");
    const sample = sampleOf(table, 3, { id: "rested-voltage", unit: "V" });
    expect(sample.shown).toEqual(["12.82", "12,3 V", "12100 mV"]);
    expect([sample.filled, sample.unreadable]).toEqual([4, 1]);
    expect(sample.first).toMatchObject({ cell: "D10", why: expect.stringContaining('"n.a.?" cannot be read') });
    // The customers' column under a wrong meaning shows that it is wrong.
    expect(sampleOf(table, 1, { id: "rested-voltage" }).unreadable).toBe(5);
  });

  it("show days as days, whatever number the sheet keeps for them", async () => {
    // Days of a worksheet count from 1899-12-30.
    const day = Date.UTC(2026, 10, 3) / 86_400_000 + 25_569;
    const table = await look(
      await sheetOf([
        ["Machine", "Date", "OCV"],
        ["Q-1", day, 12.8],
        ["Q-2", "3 nov", 12.1],
      ]),
      "A1",
    );
    expect(sampleOf(table, 1, { id: "visit-date" }).shown).toEqual(["2026-11-03", "3 nov"]);
    expect(sampleOf(table, 1, undefined).shown).toEqual([String(day), "3 nov"]);
  });
});

describe("where results go", () => {
  it("one formula beside a plain range, with an empty column between, from its own headers", async () => {
    const table = await look(await sheetOf(MESSY), "A4");
    const plan = planResults(table, foundMeanings(table));
    expect(plan.kind).toBe("spilled");
    expect(plan.at).toEqual(areaAt("I4:O10"));
    expect(formulaOf(plan.steps, 3, 8)).toBe('=CHG.AUDIT(IF($A$4:$G$10="","",$A$4:$G$10))');
  });

  it("where the user says; the cell in the way is named", async () => {
    const workbook = await sheetOf(MESSY);
    await workbook.apply([{ do: "write", at: areaAt("S9"), values: [["keep"]] }]);
    const table = await look(workbook, "A4");
    expect(planResults(table, foundMeanings(table), "k").at.column).toBe(10);
    expect(() => planResults(table, foundMeanings(table), "M")).toThrow(
      /"keep" is in the way: Quads!S9\. Nothing was/u,
    );
    expect(() => planResults(table, foundMeanings(table), "F")).toThrow(/cover the table's own column F/u);
    expect(() => planResults(table, foundMeanings(table), "12")).toThrow(/is no column/u);
  });

  it("skips what stands at the right when nobody says where", async () => {
    const workbook = await sheetOf(MESSY);
    await workbook.apply([{ do: "write", at: areaAt("J6"), values: [["keep"]] }]);
    const table = await look(workbook, "A4");
    expect(planResults(table, foundMeanings(table)).at.column).toBe(10);
  });

  it("a merged cell in the way is named", async () => {
    const workbook = await sheetOf(MESSY);
    workbook.mergedIn = async () => [areaAt("A1:L1"), areaAt("K6:K7")];
    const table = await look(workbook, "A4");
    expect(() => planResults(table, foundMeanings(table), "I")).toThrow(/Merged cells are in the way: Quads!K6:K7/u);
  });

  it("a formula for each row inside a table, which becomes wider by them", async () => {
    const workbook = await sheetOf(MESSY);
    workbook.tables = [{ name: "Round", at: areaAt("A4:G11"), totals: true }];
    const table = await look(workbook, "C6");
    expect([kindOf(table), table.rows]).toEqual(["row by row", 6]);
    const plan = planResults(table, foundMeanings(table));
    expect(plan.at).toEqual(areaAt("H4:L10"));
    expect(formulaOf(plan.steps, 5, 7)).toBe('=INDEX(CHG.AUDIT(IF({1;0},$A$4:$G$4,IF($A6:$G6="","",$A6:$G6))),2,2)');
    expect(plan.steps.at(-1)).toEqual({ do: "widen table", at: areaAt("A4:G11"), name: "Round", by: 5 });
  });

  it("in Spanish, names of columns and language stand in the formula", async () => {
    const language = spanishSheets(SPANISH);
    const workbook = await sheetOf(MESSY);
    const range = await look(workbook, "A4");
    const found = foundMeanings(range);
    expect(formulaOf(planResults(range, found, undefined, language).steps, 3, 8)).toBe(
      '=CHG.AUDIT(IF($A$4:$G$10="","",$A$4:$G$10),"","","","","es all")',
    );
    const told = new Map([...found, [1, { id: "customer" }]]);
    expect(formulaOf(planResults(range, told, undefined, language).steps, 4, 8)).toMatch(
      /,,,,\{"Máquina","Cliente","Tipo de batería","Tensión en reposo \[V\]","Consumo en reposo \[mA\]",.*\},"es all"\)$/u,
    );
    workbook.tables = [{ name: "Round", at: areaAt("A4:G11"), totals: true }];
    const table = await look(workbook, "C6");
    expect(formulaOf(planResults(table, foundMeanings(table), undefined, language).steps, 5, 7)).toBe(
      '=INDEX(CHG.AUDIT(IF({1;0},$A$4:$G$4,IF($A6:$G6="","",$A6:$G6)),"","","","","es all"),2,2)',
    );
  });

  it("routine visits are a setting in the formula, and known by it later", async () => {
    const setting = '{"in order beforehand",0.9}';
    const spanish = spanishSheets(SPANISH);
    const workbook = await sheetOf(MESSY);
    const range = await look(workbook, "A4");
    const found = foundMeanings(range);
    const told = new Map([...found, [1, { id: "customer" }]]);
    const formula = (meanings: typeof found, row: number, language = spanish) =>
      formulaOf(planResults(range, meanings, undefined, language, 0.9).steps, row, 8);
    expect(formula(found, 3)).toBe(`=CHG.AUDIT(IF($A$4:$G$10="","",$A$4:$G$10),,,${setting},"","es all")`);
    expect(formula(told, 4)).toContain(`,,,${setting},{"Máquina","Cliente",`);
    expect(formula(found, 3, ENGLISH)).toBe(`=CHG.AUDIT(IF($A$4:$G$10="","",$A$4:$G$10),,,${setting})`);
    for (const meanings of [found, told]) {
      const written = await sheetOf(MESSY);
      await written.apply(planResults(range, meanings, undefined, spanish, 0.85).steps);
      const { standing } = await look(written, "A4");
      expect(standing).toMatchObject({ kind: "spilled", row: 3, column: 8, language: "es" });
      expect(routineShare(standing!.beside.settings)).toBe(0.85);
      const ids = (all: typeof found) => [...all].map(([column, { id }]) => [column, id]);
      expect(ids(standing!.meanings ?? new Map())).toEqual(meanings === told ? ids(told).sort() : []);
    }
    workbook.tables = [{ name: "Round", at: areaAt("A4:G11"), totals: true }];
    const table = await look(workbook, "C6");
    const plan = planResults(table, foundMeanings(table), undefined, ENGLISH, 0.9);
    expect(formulaOf(plan.steps, 5, 7)).toBe(
      `=INDEX(CHG.AUDIT(IF({1;0},$A$4:$G$4,IF($A6:$G6="","",$A6:$G6)),,,${setting}),2,2)`,
    );
    await workbook.apply(plan.steps.filter((step) => step.do === "write"));
    const { standing } = await look(workbook, "C6");
    expect(standing).toMatchObject({ kind: "row by row", columns: 5, beside: { settings: setting } });
  });

  it("what a formula goes by beside the table stays when it is renewed, and rows that it was meant to read", async () => {
    const beside = `,IF('Machines, ours'!A1:Y9="","",'Machines, ours'!A1:Y9),,Rules!$A$2:$B$4`;
    const workbook = await sheetOf(MESSY.slice(0, 8));
    const formula = `=CHG.AUDIT(IF($A$4:$G$20="","",$A$4:$G$20)${beside})`;
    const spills = { rows: 17, columns: 7 };
    await workbook.apply([{ do: "write", at: areaAt("I4"), values: [[{ formula, spills }]] }]);
    const table = await look(workbook, "A4");
    expect(table.rows).toBe(16);
    const again = (beforehand?: number) =>
      formulaOf(planResults(table, foundMeanings(table), undefined, ENGLISH, beforehand).steps, 3, 8);
    expect(again()).toBe(formula);
    expect(again(0.9)).toBe(formula.replace("Rules!$A$2:$B$4", '{"in order beforehand",0.9}'));
    // A note that stands there now is no machine.
    await workbook.apply([{ do: "write", at: areaAt("A19"), values: [["Readings at the posts, meter 2."]] }]);
    expect((await look(workbook, "A4")).rows).toBe(4);
  });

  it("one formula beside a table of more than 2,000 rows", async () => {
    const rows: Rows = [["Machine", "OCV"], ...Array.from({ length: 2001 }, (_, i) => [`Q-${i}`, 12.5])];
    const workbook = await sheetOf(rows);
    workbook.tables = [{ name: "Fleet", at: areaAt("A1:B2002"), totals: false }];
    const table = await look(workbook, "A1");
    const plan = planResults(table, foundMeanings(table));
    expect([plan.kind, plan.at.column]).toEqual(["spilled", 3]);
    expect(plan.steps.some((step) => step.do === "widen table")).toBe(false);
  });

  it("refuses where no column is a reading", async () => {
    const table = await look(await sheetOf(MESSY), "A4");
    expect(() => planResults(table, new Map([[0, { id: "machine-name" }]]))).toThrow(
      /No column is matched to a reading/u,
    );
  });
});
