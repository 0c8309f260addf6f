import type { Cell } from "../../src/core/cell";
import { planRemoval, typedOver } from "../../src/workbook/adopt-removal";
import { foundMeanings, planResults } from "../../src/workbook/adopt-results";
import { open } from "../hosts/excel/open-excel";
import { HOSTS, saidOf, type Opened } from "./adopt-hosts";
import { areaAt, everyCell, fill, look, MESSY, SHEET, valuesAt, type Rows } from "./adopt-sheets";

jest.setTimeout(120_000);

describe.each(HOSTS)("adopting a table on %s", (_, start) => {
  let opened: Opened;
  beforeEach(async () => {
    opened = await start();
  });
  afterEach(() => opened.close?.());

  it("beside a plain range: each row as VERDICT says, blanks blank, nothing else touched, undone in one step", async () => {
    const { workbook, undo } = opened;
    await workbook.apply([fill(MESSY), { do: "merge", at: areaAt("A1:G1") }]);
    const before = await everyCell(workbook);
    const table = await look(workbook, "B6");
    const plan = planResults(table, foundMeanings(table));
    await workbook.apply(plan.steps);

    const results = await valuesAt(workbook, "I4:O11");
    expect(results[0]).toEqual(["Part", "State", "Chance", "Next check", "Days until flat", "Order", "Verdict"]);
    for (const i of [1, 2, 4]) {
      const [part, state, chance, sentence] = saidOf(MESSY[3]!, MESSY[3 + i]!);
      const row = results[i]!;
      expect([row[0], row[1], row[6]]).toEqual([part, state, sentence]);
      expect(row[2]).toBeCloseTo(chance, 9);
    }
    expect(results[3]).toEqual(["", "", "", "", "", "", ""]);
    expect(results[5]![1]).toBe("not read");
    expect(results[6]!.slice(0, 2)).toEqual(["", "not understood"]);
    expect(results[6]![6]).toContain('"n.a.?" cannot be read');
    // The totals row has no results.
    expect(results[7]!.every((cell) => cell === "")).toBe(true);

    const after = await everyCell(workbook);
    for (const [cell, content] of before) expect([cell, after.get(cell)]).toEqual([cell, content]);
    if (!undo) return;
    await undo();
    expect(await everyCell(workbook)).toEqual(before);
  });

  it("inside a table: a formula for each row, the table wider by them, undone in one step, taken away again", async () => {
    const { workbook, undo } = opened;
    const rows = MESSY.slice(3, 10);
    await workbook.apply([fill(rows), { do: "table", at: areaAt("A1:G7"), name: "Round" }]);
    const before = await everyCell(workbook);
    const table = await look(workbook, "C3");
    await workbook.apply(planResults(table, foundMeanings(table)).steps);
    expect((await workbook.tablesIn(areaAt("A1")))[0]?.at).toEqual(areaAt("A1:L7"));
    const results = await valuesAt(workbook, "H1:L7");
    expect(results[0]).toEqual(["State", "Part", "Chance", "Next check", "Verdict"]);
    for (const i of [1, 2, 4]) {
      const [part, state, chance, sentence] = saidOf(rows[0]!, rows[i]!);
      expect([results[i]![1], results[i]![0], results[i]![4]]).toEqual([part, state, sentence]);
      expect(results[i]![2]).toBeCloseTo(chance, 9);
    }
    expect(results[3]).toEqual(["", "", "", "", ""]);
    const { formulas } = await workbook.read(areaAt("H1:L7"));
    expect(formulas.flat().filter((formula) => formula !== "")).toHaveLength(30);

    if (undo) {
      await undo();
      expect(await everyCell(workbook)).toEqual(before);
      expect((await workbook.tablesIn(areaAt("A1")))[0]?.at).toEqual(areaAt("A1:G7"));
      const again = await look(workbook, "C3");
      await workbook.apply(planResults(again, foundMeanings(again)).steps);
    }
    await workbook.apply(planRemoval(await look(workbook, "C3")));
    expect(await everyCell(workbook)).toEqual(before);
    expect((await workbook.tablesIn(areaAt("A1")))[0]?.at).toEqual(areaAt("A1:G7"));
  });

  it("keeping what was typed over a result, when the results are renewed and when they are taken away", async () => {
    const { workbook } = opened;
    const rows = MESSY.slice(3, 10);
    await workbook.apply([fill(rows), { do: "table", at: areaAt("A1:G7"), name: "Round" }]);
    const table = await look(workbook, "C3");
    await workbook.apply(planResults(table, foundMeanings(table)).steps);
    const typed = { ...areaAt("I4"), rows: 1, columns: 1 };
    await workbook.apply([{ do: "write", at: typed, values: [["seen to"]] }]);
    const renewed = await look(workbook, "C3");
    expect(typedOver(renewed)).toEqual([typed]);
    await workbook.apply(planResults(renewed, foundMeanings(renewed)).steps);
    expect((await valuesAt(workbook, "I4"))[0]).toEqual(["seen to"]);
    await workbook.apply(planRemoval(await look(workbook, "C3")));
    expect(await valuesAt(workbook, "H1:L7")).toEqual([
      ["State", "Part", "", "", ""],
      ["", "", "", "", ""],
      ["", "", "", "", ""],
      ["", "seen to", "", "", ""],
      ["", "", "", "", ""],
      ["", "", "", "", ""],
      ["", "", "", "", ""],
    ]);
    expect((await workbook.tablesIn(areaAt("A1")))[0]?.at).toEqual(areaAt("A1:I7"));
  });

  it.each(["H2", "I2", "L2", "H3", "H7", "L7"])("finding them whole where %s was typed over", async (name) => {
    const { workbook } = opened;
    const rows = MESSY.slice(3, 10);
    await workbook.apply([fill(rows), { do: "table", at: areaAt("A1:G7"), name: "Round" }]);
    const table = await look(workbook, "C3");
    await workbook.apply(planResults(table, foundMeanings(table)).steps);
    await workbook.apply([{ do: "write", at: { ...areaAt(name), rows: 1, columns: 1 }, values: [["seen to"]] }]);
    const now = await look(workbook, "C3");
    expect(now.standing).toMatchObject({ row: 0, column: 7, rows: 6, columns: 5 });
    expect(typedOver(now)).toEqual([{ ...areaAt(name), rows: 1, columns: 1 }]);
  });

  it("with corrected columns, and again after a column was moved", async () => {
    const { workbook } = opened;
    const rows: Rows = [
      ["Nr.", "Reading one", "Sort", "Reading two"],
      ["Q-1", 12300, "x", 350],
      ["Q-2", 12800, "y", 1],
      ["", "", "", ""],
    ];
    await workbook.apply([fill(rows)]);
    const table = await look(workbook, "A1:D1");
    expect(table.rows).toBe(2);
    const meanings = new Map([
      [0, { id: "machine-name" }],
      [1, { id: "rested-voltage", unit: "mV" }],
      [3, { id: "key-off-draw" }],
    ]);
    const plan = planResults(table, meanings);
    await workbook.apply(plan.steps);
    const said = (values: readonly Cell[][]) => values.map((row) => row.slice(0, 3));
    const expected = [
      ["Part", "State", "Chance"],
      ...rows.slice(1, 3).map(([name, volts, , draw]) => {
        const [part, state, chance] = saidOf(
          ["Machine", "Rested voltage", "Key-off draw"],
          [name, (volts as number) / 1000, draw],
        );
        return [part, state, chance];
      }),
    ];
    const first = await valuesAt(workbook, "F1:L3");
    expect(said(first).map((row) => row.slice(0, 2))).toEqual(expected.map((row) => row.slice(0, 2)));

    // The draw is now where the sorting was, a machine was added below: the results stay in their place.
    const moved: Rows = [
      ["Nr.", "Reading one", "Reading two", "Sort"],
      ["Q-1", 12300, 350, "x"],
      ["Q-2", 12800, 1, "y"],
      ["Q-3", 12200, 2, "z"],
    ];
    await workbook.apply([fill(moved)]);
    // Excel and the grid move the references of a formula with the columns; here it is done by hand.
    const followed = ((await workbook.read(areaAt("F2"))).formulas[0]![0] ?? "").replaceAll("$D$", "$C$");
    await workbook.apply([
      { do: "write", at: areaAt("F2"), values: [[{ formula: followed, spills: { rows: 2, columns: 7 } }]] },
    ]);
    const again = await look(workbook, "A1:D1");
    expect(again.columns.map(({ meaning }) => meaning)).toEqual([
      { id: "machine-name" },
      { id: "rested-voltage", unit: "mV" },
      { id: "key-off-draw", unit: "mA" },
      undefined,
    ]);
    expect(again.standing).toMatchObject({ kind: "spilled", column: 5, columns: 7 });
    const renewed = planResults(again, foundMeanings(again));
    expect(renewed.at.column).toBe(5);
    await workbook.apply(renewed.steps);
    const second = await valuesAt(workbook, "F1:L4");
    expect(second.slice(0, 3).map((row) => [row[0], row[1], row[6]])).toEqual(
      first.map((row) => [row[0], row[1], row[6]]),
    );
    expect(second[3]![1]).not.toBe("");
    await workbook.apply(planRemoval(await look(workbook, "A1:D1")));
    expect((await workbook.usedArea(SHEET)).columns).toBe(4);
  });

  it("from named columns back to the sheet's own headers, in the same place", async () => {
    const { workbook } = opened;
    await workbook.apply([
      fill([
        ["Machine", "Vr", "Key-off draw"],
        ["Q-1", 12.3, 350],
        ["Q-2", 12.8, 1],
      ]),
    ]);
    const table = await look(workbook, "A1");
    await workbook.apply(planResults(table, new Map([...foundMeanings(table), [1, { id: "rested-voltage" }]])).steps);
    const named = await valuesAt(workbook, "E1:K3");
    expect(named[1]![1]).toBe("faulty");
    await workbook.apply([{ do: "write", at: areaAt("B1"), values: [["Rested voltage"]] }]);
    const again = await look(workbook, "A1");
    const plan = planResults(again, foundMeanings(again));
    await workbook.apply(plan.steps);
    expect((await workbook.read(areaAt("E1"))).formulas[0]![0]).toBe('=CHG.AUDIT(IF($A$1:$C$3="","",$A$1:$C$3))');
    expect(await valuesAt(workbook, "E1:K3")).toEqual(named);
  });
});

describe("adopting a long table", () => {
  it("20,000 rows: one formula, and any row as VERDICT says", async () => {
    const { workbook, close } = await HOSTS[0]![1]();
    const header = ["Unit", "Rested volts", "Key-off draw (mA)", "Charging voltage"];
    const row = (i: number) => [`Q-${i}`, 11.6 + (i % 130) / 100, (i * 7) % 90, 12.2 + (i % 29) / 10];
    const rows: Rows = [header, ...Array.from({ length: 20_000 }, (_, i) => (i % 1000 === 999 ? [] : row(i)))];
    await workbook.apply([fill(rows)]);
    const table = await look(workbook, "B7");
    expect(table.rows).toBe(20_000 - 1);
    const plan = planResults(table, foundMeanings(table));
    await workbook.apply(plan.steps);
    for (const i of [0, 1234, 9_998, 19_997]) {
      const [part, state, , sentence] = saidOf(header, row(i));
      const [[at, its, , , , , say] = []] = await valuesAt(workbook, `F${i + 2}:L${i + 2}`);
      expect([at, its, say]).toEqual([part, state, sentence]);
    }
    expect((await valuesAt(workbook, "F1001:L1001"))[0]!.every((cell) => cell === "")).toBe(true);
    close?.();
  });
});

describe("adopting a table in Excel", () => {
  it("is one batch of few round trips, and leaves everything as it was when Excel refuses", async () => {
    const { workbook, book } = open(SHEET);
    const rows = MESSY.slice(3, 10);
    await workbook.apply([fill(rows), { do: "table", at: areaAt("A1:G7"), name: "Round" }]);
    const table = await look(workbook, "C3");
    const before = book.snapshot();
    book.sheet(SHEET).protected = true;
    await expect(workbook.apply(planResults(table, foundMeanings(table)).steps)).rejects.toThrow(/is protected/u);
    book.sheet(SHEET).protected = false;
    expect(book.snapshot()).toBe(before);
    await workbook.apply(planResults(table, foundMeanings(table)).steps);
    expect(book.sheet(SHEET).tables[0]).toMatchObject({ name: "Round", at: { column: 0, columns: 12, rows: 7 } });
    expect((await workbook.read(areaAt("H2"))).formulas[0]![0]).toMatch(/^=INDEX\(CHG\.AUDIT\(/u);
    await workbook.apply(planRemoval(await look(workbook, "C3")));
    expect(book.sheet(SHEET).tables[0]!.at.columns).toBe(7);
    expect((await workbook.usedArea(SHEET)).columns).toBe(7);
  });
});
