import { money, roundMoney, roundToCoin, type MoneyRules } from "../../src/core/quote/money";

const cents = (rounding: MoneyRules["rounding"], decimals = 2): MoneyRules => ({ currency: "USD", decimals, rounding });

describe("rounding of money", () => {
  // Streamlined Sales and Use Tax Agreement §324, read in its Rhode Island enactment § 44-18.1-25: carried to the third
  // decimal, up to the next cent whenever that decimal is greater than four.
  const ssuta: [string, string][] = [
    ["1.234", "1.23"],
    ["1.235", "1.24"],
    ["0.686875", "0.69"],
    ["0.004", "0.00"],
    ["0.005", "0.01"],
    ["2.2650", "2.27"],
  ];
  it.each(ssuta)("[Rhode Island § 44-18.1-25, %s] %s", (tax, expected) => {
    expect(roundMoney(money(tax), cents("half up")).toFixed(2)).toBe(expected);
  });
  // VATREC12030: less than half a penny down, half a penny or more up.
  it.each([
    ["1.1149", "1.11"],
    ["1.115", "1.12"],
  ])("[HMRC VATREC12030] %s → %s", (tax, expected) => {
    expect(roundMoney(money(tax), cents("half up")).toFixed(2)).toBe(expected);
  });
  // ISO 80000-1 annex B, from memory: rounding interval 0.1, rule A (even) and rule B (up).
  it.each([
    ["12.223", "12.2", "12.2"],
    ["12.251", "12.3", "12.3"],
    ["12.275", "12.3", "12.3"],
    ["12.25", "12.2", "12.3"],
    ["12.35", "12.4", "12.4"],
  ])("[ISO 80000-1 annex B, from memory] %s: even %s, up %s", (amount, even, up) => {
    expect(roundMoney(money(amount), cents("half even", 1)).toFixed(1)).toBe(even);
    expect(roundMoney(money(amount), cents("half up", 1)).toFixed(1)).toBe(up);
  });
  it.each([
    ["12.22", "12.20"],
    ["12.23", "12.25"],
    ["12.275", "12.30"],
    ["0.02", "0.00"],
  ])("to a coin of 0.05 (common practice): %s → %s", (amount, expected) => {
    expect(roundToCoin(money(amount), { ...cents("half up"), smallestCoin: money("0.05") }).toFixed(2)).toBe(expected);
  });
});
