import { numberRow, withPassingRows } from "../../../src/core/diagnosis/number-row";

it("gives rows of zeros that do not touch each other", () => {
  const rows = Array.from({ length: 500 }, () => numberRow(173));
  rows.forEach((row, i) => row.fill(i + 1));
  rows.forEach((row, i) => expect([...new Set(row)]).toEqual([i + 1]));
  expect([...numberRow(16_384)].every((value) => value === 0)).toBe(true);
});

it("cuts anew what was cut while work ran whose rows pass, and nothing else", () => {
  const kept = numberRow(5).fill(7);
  const passing = withPassingRows(() => numberRow(5).fill(8).byteOffset);
  const after = numberRow(5);
  expect(after.byteOffset).toBe(passing);
  expect([...after]).toEqual([0, 0, 0, 0, 0]);
  expect([...kept]).toEqual([7, 7, 7, 7, 7]);
});

it("keeps what was cut before also where the work needed a new piece, runs inside other such work, or fails", () => {
  const kept = numberRow(9).fill(7);
  expect(() =>
    withPassingRows(() => {
      const outer = numberRow(16_000).fill(1);
      withPassingRows(() => numberRow(16_000).fill(2));
      expect(outer.every((value) => value === 1)).toBe(true);
      expect(numberRow(100).every((value) => value === 0)).toBe(true);
      expect(outer.every((value) => value === 1)).toBe(true);
      throw new Error("a fault in the work");
    }),
  ).toThrow("a fault in the work");
  numberRow(16_384).fill(3);
  expect([...kept]).toEqual(Array.from({ length: 9 }, () => 7));
});
