import Big from "big.js";

/** Exact decimal money; a sum of cents is never a sum of binary fractions. */
export type Money = Big;

export type RoundingRule = "half up" | "half even";

export interface MoneyRules {
  /** ISO 4217 code, shown beside totals. */
  readonly currency: string;
  /** Decimals of the currency, 0 to 3. */
  readonly decimals: number;
  readonly rounding: RoundingRule;
  /** Smallest coin of a total paid in cash (0.05); absent where there is none. */
  readonly smallestCoin?: Money;
}

export function money(amount: Big | number | string): Money {
  return new Big(amount);
}

/**
 * Rounds an amount to the currency's decimals. A half goes away from zero (`half up`) or to the even
 * neighbour (`half even`).
 *
 * @source ssuta-324 carried to the third decimal, up where it is greater than four; iso80000-1 annex B, rules A and B
 */
export function roundMoney(amount: Money, rules: MoneyRules): Money {
  return roundBy(amount, rules.decimals, rules);
}

function roundBy(amount: Big, decimals: number, { rounding }: MoneyRules): Big {
  return amount.round(decimals, rounding === "half up" ? Big.roundHalfUp : Big.roundHalfEven);
}

/** Decimals of a quantity that is billed: time counts in hundredths of an hour. */
const QUANTITY_DECIMALS = 2;

/** Rounds what is billed, by the same rule as money, so that price times quantity is the line as it is printed. */
export function roundQuantity(quantity: Big, rules: MoneyRules): Big {
  return roundBy(quantity, QUANTITY_DECIMALS, rules);
}

/** Rounds a total to the smallest coin: to the nearest multiple of it. */
export function roundToCoin(amount: Money, rules: MoneyRules): Money {
  const coin = rules.smallestCoin;
  if (!coin || coin.lte(0)) return amount;
  const steps = roundBy(amount.div(coin), 0, rules);
  return roundMoney(steps.times(coin), rules);
}

export function sum(amounts: readonly Money[]): Money {
  return amounts.reduce((total, amount) => total.plus(amount), new Big(0));
}
