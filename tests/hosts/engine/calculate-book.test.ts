import { calculateBook } from "../../../src/hosts/engine/calculate-book";
import { inlineNames } from "../../../src/hosts/engine/inline-names";

const value = (row: number, column: number, content: string | number | boolean) => ({
  row,
  column,
  content: { value: content },
});
const formula = (row: number, column: number, text: string) => ({ row, column, content: { formula: text } });

const parts = {
  name: "Parts",
  cells: [
    value(0, 0, "part"),
    value(0, 1, "price"),
    value(1, 0, "stator"),
    value(1, 1, 5),
    value(2, 0, "rectifier"),
    value(2, 1, 6),
  ],
};

it("calculates across sheets, through names, tables and spills", async () => {
  const book = await calculateBook({
    sheets: [
      {
        name: "Job 1",
        cells: [
          formula(0, 0, "=SUM(prices)"),
          formula(1, 0, "=SUM(List[price])"),
          formula(2, 0, "=Parts!B2*2"),
          formula(3, 0, "={1,2;3,4}"),
          formula(6, 0, "=B5"),
          formula(7, 0, "=local"),
        ],
      },
      parts,
    ],
    names: [
      { name: "Prices", refersTo: "Parts!$B$2:$B$3" },
      { name: "local", refersTo: "1" },
      { name: "local", refersTo: "2", sheet: "Job 1" },
    ],
    tables: [{ name: "List", sheet: "Parts", row: 0, column: 0, rows: 3, headers: ["part", "price"] }],
  });
  expect([0, 1, 2, 3, 6, 7].map((row) => book.value("Job 1", row, 0))).toEqual([11, 11, 10, 1, 4, 2]);
  expect(book.value("Job 1", 4, 1)).toBe(4);
  expect(book.spill("Job 1", 3, 0)).toEqual({ rows: 2, columns: 2 });
  expect(book.spill("Job 1", 0, 0)).toEqual({ rows: 1, columns: 1 });
  expect(book.value("Job 1", 40, 3)).toBe("");
});

it("gives a second workbook its own names and cells, whatever the first one had", async () => {
  const sum = async (price: number) => {
    const book = await calculateBook({
      sheets: [{ name: "S", cells: [value(0, 0, price), formula(0, 1, "=A1*2"), formula(0, 2, "=twice+1")] }],
      names: [{ name: "twice", refersTo: "S!$B$1" }],
    });
    return book.value("S", 0, 2);
  };
  expect([await sum(1), await sum(10)]).toEqual([3, 21]);
});

it("keeps text text, whatever it looks like", async () => {
  const book = await calculateBook({
    sheets: [
      { name: "S", cells: [value(0, 0, "0012"), value(1, 0, "#N/A"), formula(0, 1, "=ISTEXT(A1)"), value(2, 0, true)] },
    ],
  });
  expect([book.value("S", 0, 0), book.value("S", 1, 0), book.value("S", 0, 1), book.value("S", 2, 0)]).toEqual([
    "0012",
    "#N/A",
    true,
    true,
  ]);
});

describe("inlineNames", () => {
  const names: Record<string, string> = { RATE: "Settings!$B$1", PLUS: "rate+1", LOOP: "loop+1" };
  const meaning = (name: string) => names[name];
  it.each([
    ["=rate*2", "=Settings!$B$1*2"],
    ["=plus*2", "=(Settings!$B$1+1)*2"],
    ['="rate"&other', '="rate"&other'],
    ["=LET(rate,2,rate*2)", "=LET(rate,2,rate*2)"],
    ["=SUM(A1:B2)", "=SUM(A1:B2)"],
  ])("%s becomes %s", (before, after) => {
    expect(inlineNames(before, meaning)).toBe(after);
  });
  it("stops at a name that leads back to itself", () => {
    expect(inlineNames("=loop", meaning)).toContain("loop");
  });
});

it("keeps zero and blank apart, however often a column is compared", async () => {
  const book = await calculateBook({
    sheets: [
      {
        name: "Job",
        cells: [
          value(0, 0, 0),
          formula(0, 1, '=IF(A1="","blank","zero")'),
          formula(0, 2, '=IF(A1="","blank","zero")'),
          formula(0, 3, '=A1=""'),
          formula(1, 1, '=IF(A2="","blank","zero")'),
          formula(1, 2, '=IF(A2="","blank","zero")'),
          formula(2, 1, '=SUM(IF(A1:A4="",1,0))'),
          formula(3, 1, '=SUM(IF(A1:A4="",1,0))'),
        ],
      },
    ],
  });
  const shown = (row: number, column: number) => book.value("Job", row, column);
  expect([1, 2].map((column) => shown(0, column))).toEqual(["zero", "zero"]);
  expect(shown(0, 3)).toBe(false);
  expect([1, 2].map((column) => shown(1, column))).toEqual(["blank", "blank"]);
  expect([2, 3].map((row) => shown(row, 1))).toEqual([3, 3]);
});
