import type { Money } from "../core/quote/money";

/** Says amounts as people of a language write them. */
export type SayMoney = (amount: Money | number) => string;

/**
 * @param locale - Language of the pane
 * @param currency - Three letters, as the shop's terms have them
 * @param decimals - Decimals of the currency, 0 to 3
 */
export function moneyIn(locale: string, currency: string, decimals: number): SayMoney {
  const format = new Intl.NumberFormat(locale, {
    style: "currency",
    currency,
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  });
  return (amount) => format.format(typeof amount === "number" ? amount : amount.toNumber());
}
