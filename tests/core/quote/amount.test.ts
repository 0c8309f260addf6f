import { decimalOf } from "../../../src/core/quote/amount";

describe("amounts", () => {
  it.each([
    ["12.50", "12.5"],
    ["12,50", "12.5"],
    ["1'234.50", "1234.5"],
    ["1.234,50", "1234.5"],
    ["1,234.50", "1234.5"],
    ["$ 12.50", "12.5"],
    ["35 %", "0.35"],
    ["EUR 7", "7"],
    [".5", "0.5"],
  ])("%s", (typed, expected) => {
    expect(decimalOf(typed)?.toFixed()).toBe(expected);
  });
  it("a number that a sheet worked out is read as the sheet shows it", () => {
    // Of the binary fraction 0.1 + 0.2 = 0.30000000000000004 a sheet keeps fifteen digits.
    expect(decimalOf(0.1 + 0.2)?.toFixed()).toBe("0.3");
    expect(decimalOf(1.005)?.toFixed()).toBe("1.005");
    expect(decimalOf(1.234)?.toFixed()).toBe("1.234");
  });
  it.each(["0.125", "0,125", "1234.567"])("%s has one meaning", (typed) => {
    expect(decimalOf(typed)?.toFixed()).toBe(typed.replace(",", "."));
  });
  it.each(["abc", "1,234", "1.234", "12..5", "", "1-2"])("%p is not guessed", (typed) => {
    expect(decimalOf(typed)).toBeUndefined();
  });
});
