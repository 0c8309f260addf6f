import type { Block } from "../../../src/core/cell";
import { readPriceList } from "../../../src/core/quote/price-list";
import { quote, type Quote, type QuotedVerdict } from "../../../src/core/quote/quote";
import { readTerms } from "../../../src/core/quote/terms";
import { faultMessage } from "../../../src/core/result";

/** Columns of a price list. */
export const PRICE_HEADER: readonly string[] = [
  "Part number",
  "Description",
  "Use",
  "Condition",
  "Fits",
  "Cost",
  "Price",
  "Margin",
  "Core charge",
  "Deposit",
  "Stock",
  "Lead days",
  "Superseded by",
];

/** An invented shop's prices and terms. */
export const PRICES: Block = [
  PRICE_HEADER,
  ["RR-100", "Regulator-rectifier", "regulator-rectifier", "new", "Ridge 450", 60, 119.9, "", 15, "", 0, 4, "RR-110"],
  [
    "RR-110",
    "Regulator-rectifier, later kind",
    "regulator-rectifier",
    "new",
    "Ridge 450",
    60,
    "124,90",
    "",
    15,
    "",
    2,
    4,
    "",
  ],
  ["RR-110", "Regulator-rectifier", "regulator-rectifier", "rebuilt", "Ridge 450", 40, 79.5, "", "", "", 1, "", ""],
  ["B-14", "Battery 14 Ah", "battery", "", "any", 52, "", "35 %", "", 5, 3, "", ""],
  ["CN-3", "Connector, three ways", "connector", "", "", "", 8.35, "", "", "", 10, "", ""],
  ["T-6", "Ring terminal", "terminal", "", "", "", 1.15, "", "", "", 50, "", ""],
];
export const TERMS: Block = [
  ["Labour rate", 95],
  ["Diagnosis minutes", 30],
  ["Shop supplies", "5 %"],
  ["Shop supplies, at most", 12],
  ["Tax on parts", "7 %"],
  ["Tax on labour", "7 %"],
  ["Currency", "USD"],
  ["Machine", "Ridge 450"],
  ["Part number", "RR-100"],
];
export const faulty: QuotedVerdict = {
  part: "regulator-rectifier",
  state: "faulty",
  sentence: "The regulator-rectifier is faulty.",
};

export function made(verdict: QuotedVerdict, prices = PRICES, terms = TERMS): Quote {
  const [list, known] = [readPriceList(prices), readTerms(terms)];
  if (!list.ok) throw new Error(faultMessage(list.fault));
  if (!known.ok) throw new Error(faultMessage(known.fault));
  return quote(verdict, list.value, known.value);
}
