import { decimalOf, isForeign } from "../../../src/core/quote/amount";

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

/** Signs of currencies and their codes [ISO 4217; Unicode, Currency Symbols]; a dollar sign is used for many. */
describe("money of another currency", () => {
  it.each([
    ["€ 2,30", "USD"],
    ["2.30 €", "GBP"],
    ["£5", "EUR"],
    ["$ 5", "EUR"],
    ["EUR 7", "USD"],
    ["7 CAD", "USD"],
    ["¥ 500", "USD"],
  ])("%s is none of %s", (typed, currency) => expect(isForeign(typed, currency)).toBe(true));
  it.each([
    ["€ 2,30", "EUR"],
    ["$ 5", "USD"],
    ["$ 5", "CAD"],
    ["$5", "MXN"],
    ["7 CAD", "CAD"],
    ["¥ 500", "CNY"],
    ["12.50", "USD"],
    ["kr 12", "SEK"],
    ["35 %", "EUR"],
  ])("%s may be of %s", (typed, currency) => expect(isForeign(typed, currency)).toBe(false));
  it("a number has no currency", () => expect(isForeign(12.5, "USD")).toBe(false));
});
