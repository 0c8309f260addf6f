import { CellValueType } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import type { Cell } from "../../../src/core/cell";
import type { FunctionTable } from "../../../src/functions/registry";
import { freshUnit } from "../../../src/hosts/engine/fresh-unit";
import { openHeadless, type Headless } from "../../../src/hosts/engine/headless";
import { CellReader } from "../../../src/hosts/engine/read-cells";

/** Functions that show what the engine hands over, and what becomes of what they hand back. */
const probes: FunctionTable = {
  SEEN: (...given) => [[JSON.stringify(given)]],
  FAULT: () => [[{ error: "#VALUE!", message: "the reading cannot be read" }]],
  ECHO: (block: Cell[][]) => block,
  THROWS: () => {
    throw new Error("broken on purpose");
  },
  ODD: (block: Cell[][]) =>
    block.map((row) =>
      row.map((cell) => (cell === 1 ? cell : { error: "#VALUE!" as const, message: `${String(cell)} is not one` })),
    ),
};

/** Calculates cells and reads them with what their formulas spill; `probe` may go on with the engine. */
async function calculated(
  cells: Record<string, string | number>,
  probe?: (engine: Headless, read: Read) => Promise<void>,
): Promise<Read> {
  const unit = freshUnit();
  const cellData: Record<number, Record<number, object>> = {};
  for (const [at, content] of Object.entries(cells)) {
    const [row, column] = place(at);
    (cellData[row] ??= {})[column] =
      typeof content === "string" && content.startsWith("=") ? { f: content } : { v: content };
  }
  const sheet = { id: "s", name: "Sheet1", rowCount: 50, columnCount: 20, cellData };
  const engine = openHeadless({ id: unit, sheetOrder: ["s"], sheets: { s: sheet } }, { functions: probes });
  const workbook = engine.book;
  const formulas = engine.injector.get(FormulaDataModel);
  const read: Read = (at) => new CellReader(workbook, workbook.getSheetBySheetId("s")!, formulas).value(...place(at));
  try {
    await engine.calculate();
    await probe?.(engine, read);
    const area = "ABCDEFGH"
      .split("")
      .flatMap((column) => Array.from({ length: 10 }, (_, row) => `${column}${row + 1}`));
    const values = new Map(area.map((at) => [at, read(at)]));
    return (at) => values.get(at);
  } finally {
    engine.close();
  }
}

type Read = (at: string) => Cell;

function place(at: string): [number, number] {
  return [Number(at.slice(1)) - 1, at.charCodeAt(0) - 65];
}

describe("what a function is handed", () => {
  it("keeps a blank cell blank, not zero", async () => {
    const read = await calculated({ A1: "=CHG.SEEN(C1)", A2: "=CHG.SEEN(C1:D2)", C2: 7 });
    expect(read("A1")).toBe("[[[null]]]");
    expect(read("A2")).toBe("[[[null,null],[7,null]]]");
  });

  it("gives numbers, text, booleans and array literals as they are", async () => {
    const read = await calculated({ A1: '=CHG.SEEN(12.45,"flooded",TRUE,{1,"a";2,FALSE})' });
    expect(read("A1")).toBe('[[[12.45]],[["flooded"]],[[true]],[[1,"a"],[2,false]]]');
  });

  it("cuts an array literal between its cells, not within their text", async () => {
    const read = await calculated({ A1: '=CHG.SEEN({"Key-off draw, allowed",3;"a; b",""})', A2: '=LEN({"a, b; c"})' });
    // Strings in array constants [ECMA-376-1, 18.17.2.3].
    expect(read("A1")).toBe('[[["Key-off draw, allowed",3],["a; b",""]]]');
    expect(read("A2")).toBe(7);
  });

  it("keeps an omitted argument's place", async () => {
    const read = await calculated({ A1: "=CHG.SEEN(1,,3)" });
    expect(read("A1")).toBe("[[[1]],[[null]],[[3]]]");
  });

  it("passes an error cell as an error", async () => {
    const read = await calculated({ A1: "=CHG.SEEN(C1)", C1: "=1/0" });
    expect(read("A1")).toBe('[[[{"error":"#DIV/0!"}]]]');
  });
});

describe("what a function hands back", () => {
  it("spills a block, blanks included", async () => {
    const read = await calculated({ A1: "=CHG.ECHO({1,2;3,4})", D1: "=CHG.ECHO(F1:F3)", F1: "x", F3: 9 });
    expect([read("A1"), read("B1"), read("A2"), read("B2")]).toEqual([1, 2, 3, 4]);
    expect([read("D1"), read("D2"), read("D3")]).toEqual(["x", "", 9]);
  });

  it("keeps the sentence of an error, also through operators, other functions and spills", async () => {
    const fault = { error: "#VALUE!", message: "the reading cannot be read" };
    const read = await calculated({
      A1: "=CHG.FAULT()",
      A2: "=CHG.FAULT()+1",
      A3: '=IF(1=1,CHG.FAULT(),"")',
      A5: "=CHG.ODD({1;2})",
    });
    for (const at of ["A1", "A2", "A3"]) expect(read(at)).toMatchObject(fault);
    expect(read("A5")).toBe(1);
    expect(read("A6")).toEqual({ error: "#VALUE!", message: "2 is not one" });
  });

  it("turns a throw into an error in its own cell and calculates the rest", async () => {
    const read = await calculated({ A1: "=CHG.THROWS()", A2: "=1+1" });
    expect(read("A1")).toMatchObject({ error: "#VALUE!", message: expect.stringContaining("broken on purpose") });
    expect(read("A2")).toBe(2);
  });

  it("forgets the sentence once the cell has a value", async () => {
    await calculated({ A1: '=IF(B1="ok","fine",CHG.FAULT())', B1: "no" }, async (engine, read) => {
      expect(read("A1")).toMatchObject({ error: "#VALUE!", message: "the reading cannot be read" });
      const cell = engine.book.getSheetBySheetId("s")!.getCellMatrix();
      cell.setValue(0, 1, { v: "ok", t: CellValueType.STRING });
      await engine.calculate();
      expect(read("A1")).toBe("fine");
      // An error of the engine's own in the same cell must not inherit the old sentence.
      cell.setValue(0, 0, { ...cell.getValue(0, 0), f: '=VALUE("abc")' });
      await engine.calculate();
      expect(read("A1")).toEqual({ error: "#VALUE!" });
    });
  });
});

it("answers to the name that a workbook file stores", async () => {
  const read = await calculated({ A1: "=_xldudf_CHG_SEEN(1)", A2: "=_XLDUDF_CHG_SEEN(2)" });
  expect([read("A1"), read("A2")]).toEqual(["[[[1]]]", "[[[2]]]"]);
});

it("sums a whole spill through its first cell", async () => {
  const read = await calculated({
    A1: "=CHG.ECHO({1,2;3,4})",
    A5: "=SUM(_xlfn.ANCHORARRAY(A1))",
    A6: "=ROWS(ANCHORARRAY(A1))",
  });
  expect([read("A5"), read("A6")]).toEqual([10, 2]);
});
