import type { Block } from "../../src/core/cell";
import { quoteFromCells } from "../../src/core/quote/quote-from-cells";
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

/** A quote of battery, grease and hardware alone: its three parts are the three supplies of an invoice. */
function invoice(prices: readonly [number, number, number], terms: Block): Map<string, number> {
  const [battery, grease, hardware] = prices;
  const list: Block = [
    ["Part number", "Use", "Price"],
    ["B", "battery", battery],
    ["G", "grease", grease],
    ["H", "hardware", hardware],
  ];
  const made = quoteFromCells([["battery", "faulty"]], list, [["Labour rate", 0], ...terms]);
  if (!made.ok) throw new Error("The invoice cannot be quoted.");
  const lines = made.value.filter(([kind]) => kind === "part" || kind === "material");
  expect(lines).toHaveLength(3);
  return new Map([
    ["lines", lines.reduce((sum, l) => sum + Math.round(Number(l[5]) * 100), 0) / 100],
    ...made.value.map((l) => [String(l[0]), Number(l[5])] as const),
  ]);
}

describe("tax of several supplies on one invoice", () => {
  // A New Tax System (Goods and Services Tax) Act 1999 (Australia), section 9-90(2), read at ato.gov.au: (a) the amounts
  // without rounding, added, then rounded, 0.5 cents upwards; (b) each amount rounded to the decimals of the accounting
  // system, then added. Tax at 10 %, the amounts worked out by hand from the section.
  it.each([
    ["total", [1.05, 1.05, 1.05], 0.32], // 0.105 + 0.105 + 0.105 = 0.315
    ["line", [1.05, 1.05, 1.05], 0.33], // 0.11 + 0.11 + 0.11
    ["total", [1.04, 1.04, 1.04], 0.31], // 0.312
    ["line", [1.04, 1.04, 1.04], 0.3], // 0.10 + 0.10 + 0.10
    ["total", [0.01, 0.02, 0.02], 0.01], // 0.005, half a cent upwards
  ] as const)("[GST Act 1999 s 9-90(2), by hand] figured on the %s of %p: %p", (on, prices, tax) => {
    const figures = invoice(prices, [
      ["Tax on parts", 0.1],
      ["Tax figured on", on],
    ]);
    expect(figures.get("tax")).toBe(tax);
  });

  // EN 16931-1, calculation rules, from memory: BR-CO-10 sum of line net amounts; BR-CO-17 tax = taxable amount × rate,
  // rounded to two decimals; BR-CO-15 total with tax = total without + tax; BR-CO-16 amount due = total + rounding.
  it.each([
    [[86.76, 12.34, 0.99], 0.2, 0.05],
    [[119.95, 4.15, 2.45], 0.075, 0.1],
    [[0.07, 0.08, 0.09], 0.19, 0.05],
  ] as const)("[EN 16931-1 BR-CO-10, 15, 16, 17, from memory] %p at %p", (prices, rate, coin) => {
    const figures = invoice(prices, [
      ["Tax on parts", rate],
      ["Tax figured on", "total"],
      ["Smallest coin", coin],
    ]);
    const inCents = (name: string) => Math.round((figures.get(name) ?? 0) * 100);
    const net = prices.reduce((sum, price) => sum + Math.round(price * 100), 0);
    expect(inCents("lines")).toBe(net);
    expect(inCents("net")).toBe(net);
    expect(inCents("tax")).toBe(Math.floor((net * Math.round(rate * 1000)) / 1000 + 0.5));
    expect(inCents("net") + inCents("tax") + inCents("rounding")).toBe(inCents("total"));
    expect(inCents("total") % Math.round(coin * 100)).toBe(0);
    expect(Math.abs(inCents("rounding"))).toBeLessThanOrEqual(Math.round(coin * 100) / 2);
  });
});
