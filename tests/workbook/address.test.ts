import fc from "fast-check";
import {
  cellName,
  columnName,
  columnNumber,
  overlaps,
  parseRange,
  rangeName,
  sheetPrefix,
} from "../../src/workbook/address";

it.each([
  [0, "A"],
  [25, "Z"],
  [26, "AA"],
  [701, "ZZ"],
  [702, "AAA"],
  [16383, "XFD"],
])("[ECMA-376 last column XFD and the alphabet] column %i is %s", (column, name) => {
  expect(columnName(column)).toBe(name);
  expect(columnNumber(name)).toBe(column);
});

it("[property] an area reads back from its name", () => {
  const area = fc.record({
    row: fc.integer({ min: 0, max: 99_999 }),
    column: fc.integer({ min: 0, max: 16_000 }),
    rows: fc.integer({ min: 1, max: 500 }),
    columns: fc.integer({ min: 1, max: 300 }),
  });
  fc.assert(
    fc.property(area, (at) => {
      expect(parseRange(rangeName(at))).toEqual(at);
    }),
    { seed: 7 },
  );
});

it.each([["A1:B"], ["A:A"], ["1:1"], ["A0"], ["ABCD1"], [""], ["Sheet1!A1"]])(
  "refuses %p, which is no rectangle of cells",
  (text) => {
    expect(parseRange(text)).toBeUndefined();
  },
);

it.each([
  ["Job", "Job!"],
  ["Job 2", "'Job 2'!"],
  ["Müller's", "'Müller''s'!"],
  ["A1", "'A1'!"],
  ["R1C1", "'R1C1'!"],
  ["2025", "'2025'!"],
])("writes the sheet %s as %s before an address", (sheet, prefix) => {
  expect(sheetPrefix(sheet)).toBe(prefix);
});

it("tells touching areas from overlapping ones", () => {
  const at = { row: 2, column: 2, rows: 2, columns: 2 };
  expect(overlaps(at, { row: 3, column: 3, rows: 5, columns: 1 })).toBe(true);
  expect(overlaps(at, { row: 4, column: 2, rows: 1, columns: 1 })).toBe(false);
  expect(overlaps(at, { row: 2, column: 4, rows: 1, columns: 1 })).toBe(false);
  expect(cellName(4, 2)).toBe("C5");
});
