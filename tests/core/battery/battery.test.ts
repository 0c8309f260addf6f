import fc from "fast-check";
import { ACCEPTANCE, chargeTime } from "../../../src/core/battery/charge-time";
import { cellSpread } from "../../../src/core/battery/cell-spread";
import { drainDays, selfDischarge } from "../../../src/core/battery/drain";
import {
  correctedGravity,
  freezingPoint,
  fullGravityOf,
  gravityAtCharge,
  stateOfChargeFromGravity,
} from "../../../src/core/battery/gravity";
import { internalResistance } from "../../../src/core/battery/internal-resistance";
import { loadLimit } from "../../../src/core/battery/load-limit";
import { judgeLoadTest, type LoadTest } from "../../../src/core/battery/load-test";
import { runTime } from "../../../src/core/battery/run-time";
import { restedVoltage, stateOfCharge, stateOfChargeBand } from "../../../src/core/battery/state-of-charge";
import { BATTERY_TYPES } from "../../../src/core/battery/types";
import { faultMessage, type Result } from "../../../src/core/result";
import { readTable, swapped, type Row } from "../../../src/core/table";

function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(faultMessage(result.fault));
  return result.value;
}
const message = (result: Result<unknown>) => (result.ok ? "no fault" : faultMessage(result.fault));
const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const type = fc.constantFrom(...BATTERY_TYPES);
const SEED = { seed: 20261125 };

describe("reading a table", () => {
  const rows: readonly Row[] = [
    [0, 1],
    [2, 5],
    [3, 5.5],
  ];
  it("meets its rows exactly, runs straight between, holds at the ends", () => {
    expect([-1, 0, 1, 2, 2.5, 3, 9].map((x) => readTable(rows, x))).toEqual([1, 1, 3, 5, 5.25, 5.5, 5.5]);
  });
  it("[property] reads back what it read", () => {
    fc.assert(
      fc.property(double(0, 3), (x) => Math.abs(readTable(swapped(rows), readTable(rows, x)) - x) < 1e-9),
      SEED,
    );
  });
});

describe("state of charge", () => {
  it("[property] round trip between charge and rested voltage, for every type and nominal voltage", () => {
    fc.assert(
      fc.property(double(0, 1), type, fc.constantFrom(6, 12) as fc.Arbitrary<6 | 12>, (charge, kind, nominal) => {
        if (kind === "lithium" && nominal === 6) return;
        const volts = value(restedVoltage(charge, kind, nominal));
        expect(value(stateOfCharge(volts, kind, { nominal }))).toBeCloseTo(charge, 8);
      }),
      SEED,
    );
  });
  it("[property] more volts, never less charge; the band holds the likely value and only widens", () => {
    fc.assert(
      fc.property(double(7, 13.4), type, double(-40, 60), double(0, 24), (volts, kind, temperature, hoursRested) => {
        const plain = value(stateOfChargeBand(volts, kind, { nominal: 12 }));
        const wide = value(stateOfChargeBand(volts, kind, { nominal: 12, temperature, hoursRested }));
        expect(value(stateOfCharge(volts + 0.05, kind, { nominal: 12 }))).toBeGreaterThanOrEqual(plain.likely);
        expect(plain.low).toBeLessThanOrEqual(plain.likely);
        expect(plain.likely).toBeLessThanOrEqual(plain.high);
        expect(wide.low).toBeLessThanOrEqual(plain.low + 1e-9);
        expect(wide.high).toBeGreaterThanOrEqual(plain.high - 1e-9);
        expect(wide.likely).toBe(plain.likely);
      }),
      SEED,
    );
  });
  it("a short rest is said, a long one is not", () => {
    expect(value(stateOfChargeBand(12.5, "flooded", { hoursRested: 0.2 })).note).toMatch(/rested too short/);
    expect(value(stateOfChargeBand(12.5, "flooded", { hoursRested: 6 })).note).toBe("");
    expect(value(stateOfChargeBand(12.5, "agm", { hoursRested: 2 })).note).toMatch(/rested too short/);
  });
  it("temperature widens the band by at most what the tables disagree, 0.1 V", () => {
    const at = (temperature: number) => value(stateOfChargeBand(12.3, "flooded", { temperature }));
    expect(at(-15)).toEqual(at(-40));
    expect(at(-10).low).toBeGreaterThan(at(-15).low);
    expect(at(25)).toEqual(value(stateOfChargeBand(12.3, "flooded")));
  });
  it("a 6 V battery has the band of a 12 V one that was read half as well", () => {
    expect(value(stateOfChargeBand(6.2, "agm", { nominal: 6, u: 0.02 }))).toEqual(
      value(stateOfChargeBand(12.4, "agm", { u: 0.04 })),
    );
  });
  it("asks whether 6.2 V is a 6 V battery or a dead 12 V one, and takes the answer", () => {
    expect(message(stateOfCharge(6.2, "flooded"))).toMatch(/two ways; give the nominal voltage/);
    expect(value(stateOfCharge(6.2, "flooded", { nominal: 6 }))).toBeCloseTo(value(stateOfCharge(12.4, "flooded")), 12);
    expect(value(stateOfCharge(6.2, "flooded", { nominal: 12 }))).toBe(0);
    expect(value(stateOfCharge(7.5, "flooded"))).toBe(0);
  });
  it.each<[string, Result<unknown>, RegExp]>([
    ["on charge", stateOfCharge(14.1, "agm"), /14.1 V is a charging voltage for AGM batteries/],
    ["below zero", stateOfCharge(-0.1, "agm"), /rested voltage: −0.1 V is not possible; enter 0 to 20 V/],
    ["NaN", stateOfCharge(Number.NaN, "agm"), /rested voltage: NaN V is not possible/],
    [
      "too cold",
      stateOfCharge(12.5, "agm", { temperature: -41 }),
      /temperature: −41 °C is not possible; enter −40 to 60 °C/,
    ],
    ["too hot", stateOfChargeBand(12.5, "agm", { temperature: 61 }), /temperature: 61 °C/],
    ["rest below 0 h", stateOfChargeBand(12.5, "agm", { hoursRested: -1 }), /hours rested: −1 h/],
    ["lithium of 6 V", stateOfCharge(6.5, "lithium", { nominal: 6 }), /four cells/],
    ["charge above 1", restedVoltage(1.01, "gel"), /state of charge: 1.01 is not possible; enter 0 to 1\./],
    ["charge below 0", restedVoltage(-0.01, "gel"), /state of charge: −0.01/],
  ])("refuses %s", (_, result, expected) => expect(message(result)).toMatch(expected));
});

describe("gravity", () => {
  it("[property] warmer acid of the same strength reads lower, so its correction is higher", () => {
    fc.assert(
      fc.property(
        double(1.05, 1.3),
        double(-40, 69),
        (sg, t) => value(correctedGravity(sg, t + 1)) > value(correctedGravity(sg, t)),
      ),
      SEED,
    );
  });
  it("[property] stronger acid is never less charged and never freezes earlier", () => {
    fc.assert(
      fc.property(double(1, 1.29), double(1.25, 1.3), (sg, full) => {
        expect(value(stateOfChargeFromGravity(sg + 0.005, full))).toBeGreaterThanOrEqual(
          value(stateOfChargeFromGravity(sg, full)),
        );
        expect(value(freezingPoint(sg + 0.005))).toBeLessThanOrEqual(value(freezingPoint(sg)));
      }),
      SEED,
    );
  });
  it("[property] round trip between charge and gravity, whatever the cells are full at", () => {
    fc.assert(
      fc.property(double(0, 1), double(1.25, 1.3), (charge, full) => {
        expect(value(stateOfChargeFromGravity(value(gravityAtCharge(charge, full)), full))).toBeCloseTo(charge, 8);
      }),
      SEED,
    );
  });
  it.each<[string, Result<unknown>, RegExp]>([
    ["gravity too low", correctedGravity(0.89, 20), /enter 0.9 to 1.4/],
    ["gravity too high", freezingPoint(1.31), /enter 1 to 1.3/],
    ["slope too steep", correctedGravity(1.2, 20, { perDegree: 0.002 }), /correction per °C/],
    ["a sealed battery", fullGravityOf("agm"), /AGM batteries have no cells that a hydrometer can reach/],
    ["one cell", cellSpread([1.265, null]), /at least two cells/],
    ["a limit of nothing", cellSpread([1.265, 1.26], 0), /allowed spread/],
  ])("refuses %s", (_, result, expected) => expect(message(result)).toMatch(expected));
  it("the spread does not depend on temperature, order or cells not read; the lowest cell is named", () => {
    const a = value(cellSpread([1.25, 1.2, 1.26]));
    expect([a.spread, a.lowest]).toEqual([0.06, 2]);
    expect(value(cellSpread([null, 1.26, 1.25, null, 1.2])).lowest).toBe(5);
    expect(value(cellSpread([1.23, 1.18, 1.24])).judged.state).toBe(a.judged.state);
  });
});

describe("load test", () => {
  const good: LoadTest = {
    volts: { kind: "number", value: 10.2 },
    amps: 150,
    cca: 300,
    seconds: 15,
    temperature: 25,
    restedVolts: 12.6,
  };
  const at = (change: Partial<LoadTest>) => judgeLoadTest({ ...good, ...change });
  const low = { kind: "number" as const, value: 8.9 };

  it("passes a good battery and fails a bad one", () => {
    expect(value(at({})).state).toBe("pass");
    expect(value(at({ volts: low })).state).toBe("fail");
  });
  it("a light or short load proves no pass, but a fail stays one", () => {
    for (const change of [{ amps: 100 }, { seconds: 8 }]) {
      expect(value(at(change))).toMatchObject({
        state: "unsure",
        reason: expect.stringMatching(/too light or too short/),
      });
      expect(value(at({ ...change, volts: low })).state).toBe("fail");
    }
  });
  it("a heavy or long load proves no fail, but a pass stays one", () => {
    for (const change of [{ amps: 200 }, { seconds: 30 }]) {
      expect(value(at({ ...change, volts: low }))).toMatchObject({
        state: "unsure",
        reason: expect.stringMatching(/heavier or longer/),
      });
      expect(value(at(change)).state).toBe("pass");
    }
  });
  it("without a rested voltage nothing fails; without a temperature the limit is a range", () => {
    expect(value(at({ volts: low, restedVolts: undefined }))).toMatchObject({
      state: "unsure",
      reason: expect.stringMatching(/enter the rested voltage/),
    });
    expect(value(at({ temperature: undefined, volts: { kind: "number", value: 9.45 } })).state).toBe("unsure");
    expect(value(at({ temperature: undefined, volts: low })).state).toBe("fail");
    expect(value(at({ temperature: undefined })).state).toBe("pass");
  });
  it.each<[string, Partial<LoadTest>, RegExp]>([
    [
      "a discharged battery",
      { restedVolts: 12.4 },
      /12\.40 V rested the battery is below 75 % charge \(12\.45 V\); charge it/,
    ],
    ["a discharged AGM battery", { restedVolts: 12.5, type: "agm" }, /below 75 % charge/],
    ["lithium", { type: "lithium" }, /lead-acid/],
    ["an EN rating", { standard: "EN" }, /cannot be turned into SAE/],
    ["colder than the table", { temperature: -19 }, /battery temperature: −19 °C is not possible; enter −18 to 60 °C/],
    ["no rating", { cca: 0 }, /cold cranking amps: 0 A/],
  ])("refuses %s", (_, change, expected) => expect(message(at(change))).toMatch(expected));
  it("[property] warmer battery, never a lower limit; a 6 V battery has about half of it", () => {
    fc.assert(
      fc.property(double(-18, 59), (t) => {
        expect(value(loadLimit(t + 1))).toBeGreaterThanOrEqual(value(loadLimit(t)));
        expect(Math.abs(value(loadLimit(t, 6)) - value(loadLimit(t)) / 2)).toBeLessThanOrEqual(0.051);
      }),
      SEED,
    );
  });
});

describe("time", () => {
  it("[cross-check: charge put in step by step] charge time agrees within 0.1 %", () => {
    fc.assert(
      fc.property(
        double(2, 40),
        double(0, 0.7),
        double(0.05, 0.25),
        double(0.5, 10),
        fc.constantFrom(ACCEPTANCE.flooded, ACCEPTANCE.agm, ACCEPTANCE.lithium),
        (ah, from, more, amps, how) => {
          const to = Math.min(0.98, from + more);
          let missing = ah * (1 - from);
          let hours = 0;
          const step = value(chargeTime(ah, from, to, amps, how)) / 20000;
          while (missing > ah * (1 - to)) {
            const mid = missing - (Math.min(amps, how.perMissing * missing) / how.factor) * (step / 2);
            missing -= (Math.min(amps, how.perMissing * mid) / how.factor) * step;
            hours += step;
          }
          expect(hours / value(chargeTime(ah, from, to, amps, how))).toBeCloseTo(1, 3);
        },
      ),
      { ...SEED, numRuns: 25 },
    );
  });
  it("[property] a stronger charger is never slower, a larger battery never faster", () => {
    fc.assert(
      fc.property(double(2, 100), double(0, 0.5), double(0.6, 1), double(0.5, 20), type, (ah, from, to, amps, kind) => {
        const hours = value(chargeTime(ah, from, to, amps, ACCEPTANCE[kind]));
        expect(value(chargeTime(ah, from, to, amps * 1.1, ACCEPTANCE[kind]))).toBeLessThanOrEqual(hours + 1e-9);
        expect(value(chargeTime(ah * 1.1, from, to, amps, ACCEPTANCE[kind]))).toBeGreaterThanOrEqual(hours - 1e-9);
      }),
      SEED,
    );
  });
  it("[property] scale: twice the battery and twice the draw take as long; heat only shortens it", () => {
    fc.assert(
      fc.property(double(2, 100), double(0.1, 100), type, double(0, 40), (ah, mA, kind, t) => {
        const days = value(drainDays(ah, 1, 0.5, mA, kind, t));
        expect(value(drainDays(2 * ah, 1, 0.5, 2 * mA, kind, t))).toBeCloseTo(days, 6);
        expect(value(drainDays(ah, 1, 0.5, mA, kind, t + 10))).toBeLessThan(days);
        expect(value(drainDays(ah, 1, 0.5, mA))).toBeGreaterThan(days);
        expect(value(selfDischarge(kind, t + 10)) / value(selfDischarge(kind, t))).toBeCloseTo(2, 9);
      }),
      SEED,
    );
  });
  it("[property] at the rated current a full battery lasts the rated hours, whatever the exponent", () => {
    fc.assert(
      fc.property(
        double(1, 100),
        double(1, 30),
        double(1, 2),
        (ah, h, k) => Math.abs(value(runTime(ah, h, ah / h, k)) - h) < 1e-9,
      ),
      SEED,
    );
  });
  it.each<[string, Result<unknown>, RegExp]>([
    ["charging downwards", chargeTime(14, 0.8, 0.8, 2, ACCEPTANCE.agm), /not above the state of charge at the start/],
    ["no charger", chargeTime(14, 0.5, 0.8, 0, ACCEPTANCE.agm), /charging current: 0 A/],
    ["draining upwards", drainDays(14, 0.5, 0.5, 30), /not below the state of charge now/],
    ["no drain", drainDays(14, 1, 0.5, 0), /nothing drains the battery/],
    ["a draw below zero", drainDays(14, 1, 0.5, -1), /draw: −1 mA/],
    ["a hot battery", drainDays(14, 1, 0.5, 1, "agm", 900), /temperature: 900 °C/],
    ["exponent below 1", runTime(70, 20, 3, 0.99), /exponent: 0.99/],
    ["exponent above 2", runTime(70, 20, 3, 2.01), /exponent: 2.01/],
    ["twice the same current", internalResistance(12, 5, 11, 5), /both are the same/],
    ["a voltage that rises with the load", internalResistance(12, 0, 12.5, 5), /rises with the load/],
  ])("refuses %s", (_, result, expected) => expect(message(result)).toMatch(expected));
  it("charging from above 99 % takes no time", () =>
    expect(value(chargeTime(14, 0.995, 1, 1, ACCEPTANCE.agm))).toBe(0));
});
