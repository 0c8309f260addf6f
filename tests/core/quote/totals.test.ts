import type Big from "big.js";
import Decimal from "decimal.js";
import fc from "fast-check";
import { faulty, made, PRICES } from "./shop";

describe("[cross-check decimal.js] totals", () => {
  it("of a thousand random quotes add up to the cent, line by line", () => {
    const cents = fc.integer({ min: 0, max: 500000 }).map((c) => c / 100);
    const rate = fc.integer({ min: 0, max: 2500 }).map((r) => r / 10000);
    fc.assert(
      fc.property(
        cents,
        cents,
        cents,
        rate,
        rate,
        rate,
        fc.integer({ min: 0, max: 300 }),
        fc.constantFrom("line", "total"),
        fc.constantFrom("half up", "half even"),
        (price, core, labour, tp, tl, sup, minutes, on, rounding) => {
          const { alternatives } = made(
            faulty,
            [PRICES[0]!, ["X", "", "regulator-rectifier", "", "", "", price, "", core, "", "", "", ""]],
            [
              ["Labour rate", labour],
              ["Tax on parts", tp],
              ["Tax on labour", tl],
              ["Shop supplies", sup],
              ["Diagnosis minutes", minutes],
              ["Tax figured on", on],
              ["Rounding", rounding],
            ],
          );
          const a = alternatives[0]!;
          const mode = rounding === "half up" ? Decimal.ROUND_HALF_UP : Decimal.ROUND_HALF_EVEN;
          const cent = (x: Decimal) => x.toDecimalPlaces(2, mode);
          const D = (x: number | Big) => new Decimal(x.toString());
          const labourNet = cent(D(labour).times("0.8"));
          const testing = cent(D(labour).times(minutes).div(60));
          const supplies = cent(labourNet.times(sup));
          const net = D(price).plus(core).plus(labourNet).plus(testing).plus(supplies);
          expect(a.net.toFixed(2)).toBe(net.toFixed(2));
          const tax =
            on === "line"
              ? [
                  [D(price), tp],
                  [labourNet, tl],
                  [testing, tl],
                  [supplies, tp],
                ].reduce((t, [n, r]) => t.plus(cent((n as Decimal).times(r as number))), new Decimal(0))
              : cent(D(price).plus(supplies).times(tp)).plus(cent(labourNet.plus(testing).times(tl)));
          expect(a.tax.toFixed(2)).toBe(tax.toFixed(2));
          expect(a.total.toFixed(2)).toBe(net.plus(tax).toFixed(2));
        },
      ),
      { numRuns: 1000, seed: 20260 },
    );
  });
});
