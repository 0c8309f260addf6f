import Decimal from "decimal.js";
import fc from "fast-check";
import type { Cell } from "../../../src/core/cell";
import { FAULTS } from "../../../src/core/diagnosis/faults";
import { quoteFromCells } from "../../../src/core/quote/quote-from-cells";
import { USES } from "../../../src/core/quote/price-list";
import { faultMessage } from "../../../src/core/result";
import { PRICE_HEADER } from "./shop";

/**
 * Quotes of every part, as they are printed, worked out once more with another decimal library from what
 * was typed: prices or cost with margin, charges, rates, supplies with their cap, taxes, currencies of 0 to 3
 * decimals, the smallest coin.
 */

const amount = (most: number) => fc.integer({ min: 0, max: most * 1000 }).map((mills) => mills / 1000);
const share = fc.integer({ min: 0, max: 2500 }).map((points) => points / 10000);

const part = fc.record({
  price: amount(900),
  cost: amount(600),
  margin: share,
  sold: fc.boolean(),
  core: amount(50),
  deposit: amount(20),
});
const shop = fc.record({
  parts: fc.array(part, { minLength: USES.length, maxLength: USES.length }),
  labour: amount(150),
  diagnosis: amount(120),
  minutes: fc.integer({ min: 0, max: 300 }),
  supplies: share,
  cap: amount(40),
  tax: fc.record({ parts: share, labour: share, charges: share }),
  on: fc.constantFrom("line", "total"),
  rounding: fc.constantFrom("half up", "half even"),
  decimals: fc.integer({ min: 0, max: 3 }),
  coin: fc.constantFrom("", 0.05, 0.5, 1),
  fault: fc.constantFrom(...FAULTS.filter(({ part: of }) => of !== null)),
});

const KINDS = {
  parts: ["part", "material", "supplies"],
  labour: ["labour", "testing"],
  charges: ["core charge", "deposit"],
} as const;

it("[cross-check decimal.js] a thousand random quotes of every part and fault add up as printed", () => {
  const seen = new Set<string>();
  fc.assert(
    fc.property(shop, (given) => {
      const { parts, labour, diagnosis, minutes, supplies, cap, tax, on, rounding, decimals, coin, fault } = given;
      const prices = USES.map((use, i): Cell[] => {
        const { price, cost, margin, sold, core, deposit } = parts[i]!;
        return [
          use,
          "",
          use,
          "",
          "",
          sold ? "" : cost,
          sold ? price : "",
          sold ? "" : margin,
          core,
          deposit,
          "",
          "",
          "",
        ];
      });
      const terms: Cell[][] = [
        ["Labour rate", labour],
        ["Diagnosis rate", diagnosis],
        ["Diagnosis minutes", minutes],
        ["Shop supplies", supplies],
        ["Shop supplies, at most", cap],
        ["Tax on parts", tax.parts],
        ["Tax on labour", tax.labour],
        ["Tax on charges", tax.charges],
        ["Tax figured on", on],
        ["Rounding", rounding],
        ["Decimals", decimals],
        ["Smallest coin", coin],
      ];
      const made = quoteFromCells([[fault.part!, "faulty"]], [[...PRICE_HEADER], ...prices], terms, {
        causes: [[fault.label, "", 0.95]],
      });
      if (!made.ok) throw new Error(faultMessage(made.fault));

      const mode = rounding === "half up" ? Decimal.ROUND_HALF_UP : Decimal.ROUND_HALF_EVEN;
      const round = (x: Decimal) => x.toDecimalPlaces(decimals, mode);
      const D = (cell: Cell) => new Decimal(String(cell));
      const lines = made.value.filter((row) => typeof row[3] === "number");
      const printed = (kind: string) => D(made.value.find(([k]) => k === kind)?.[5] ?? 0);
      let labourNet = new Decimal(0);
      for (const [kind, number, , quantity, price, net] of lines) {
        const typed = parts[USES.findIndex((use) => use === number)];
        const count = D(quantity);
        seen.add(String(kind));
        const expected = (): Decimal => {
          switch (kind) {
            case "part":
            case "material":
              return round(
                typed!.sold ? D(typed!.price) : D(typed!.cost).div(new Decimal(1).minus(typed!.margin)),
              ).times(count);
            case "core charge":
              return round(D(typed!.core)).times(count);
            case "deposit":
              return round(D(typed!.deposit)).times(count);
            case "labour":
              return round(round(D(labour)).times(count));
            case "testing":
              // Hundredths of an hour, by the rule of the money.
              return round(round(D(diagnosis)).times(new Decimal(minutes).div(60).toDecimalPlaces(2, mode)));
            default:
              return round(Decimal.min(labourNet.times(supplies), cap));
          }
        };
        if (kind === "labour") labourNet = D(net);
        expect([kind, D(net).toFixed(3)]).toEqual([kind, expected().toFixed(3)]);
        // Who checks a line with a pocket calculator finds what is printed.
        expect(D(quantity).decimalPlaces()).toBeLessThanOrEqual(2);
        expect([kind, D(net).toFixed(3)]).toEqual([kind, round(D(price).times(count)).toFixed(3)]);
      }

      const sum = (cells: readonly Cell[]) =>
        cells.reduce((total: Decimal, cell) => total.plus(D(cell)), new Decimal(0));
      const net = sum(lines.map((row) => row[5]));
      expect(printed("net").toFixed(3)).toBe(net.toFixed(3));
      const taxes = (Object.keys(KINDS) as (keyof typeof KINDS)[]).flatMap((name) => {
        const nets = lines.filter(([kind]) => (KINDS[name] as readonly Cell[]).includes(kind)).map((row) => row[5]);
        return on === "line" ? nets.map((of) => round(D(of).times(tax[name]))) : [round(sum(nets).times(tax[name]))];
      });
      const whole = taxes.reduce((total, one) => total.plus(one), new Decimal(0));
      expect(printed("tax").toFixed(3)).toBe(whole.toFixed(3));
      if (on === "line") expect(sum(lines.map((row) => row[6])).toFixed(3)).toBe(whole.toFixed(3));
      const exact = net.plus(whole);
      const total =
        coin === "" ? exact : exact.div(coin).toDecimalPlaces(0, mode).times(coin).toDecimalPlaces(decimals, mode);
      expect(printed("total").toFixed(3)).toBe(total.toFixed(3));
      // What is printed adds up to what is paid.
      expect(printed("net").plus(printed("tax")).plus(printed("rounding")).toFixed(3)).toBe(
        printed("total").toFixed(3),
      );
    }),
    { numRuns: 1000, seed: 20261125 },
  );
  // Every kind of line has come up; else some of it would have gone unseen.
  expect([...seen].sort()).toEqual(["core charge", "deposit", "labour", "material", "part", "supplies", "testing"]);
});
