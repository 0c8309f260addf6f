import { ACCEPTANCE, chargeTime } from "../../../src/core/battery/charge-time";
import { cellSpread } from "../../../src/core/battery/cell-spread";
import { drainDays, selfDischarge } from "../../../src/core/battery/drain";
import { correctedGravity, freezingPoint, stateOfChargeFromGravity } from "../../../src/core/battery/gravity";
import { loadLimit } from "../../../src/core/battery/load-limit";
import { judgeLoadTest, type LoadTest } from "../../../src/core/battery/load-test";
import { capacityInTheCold, peukertExponent, runTime } from "../../../src/core/battery/run-time";
import { restedVoltage, stateOfCharge } from "../../../src/core/battery/state-of-charge";
import type { Result } from "../../../src/core/result";

const test: LoadTest = {
  volts: { kind: "number", value: 10 },
  amps: 150,
  cca: 300,
  seconds: 15,
  temperature: 25,
  restedVolts: 12.6,
};

/** Each argument with the last value that is answered at either end. */
const EDGES: [string, (x: number) => Result<unknown>, number, number][] = [
  ["rested voltage of a flooded battery", (x) => stateOfCharge(x, "flooded", { nominal: 12 }), 0, 13.5],
  ["rested voltage of an AGM battery of 6 V", (x) => stateOfCharge(x, "agm", { nominal: 6 }), 0, 6.75],
  ["rested voltage of a calcium battery", (x) => stateOfCharge(x, "calcium", { nominal: 12 }), 0, 13.5],
  ["rested voltage of a gel battery", (x) => stateOfCharge(x, "gel", { nominal: 12 }), 0, 13.5],
  ["rested voltage of a lithium battery", (x) => stateOfCharge(x, "lithium"), 0, 14.6],
  ["temperature at rest", (x) => stateOfCharge(12.5, "agm", { temperature: x }), -40, 60],
  ["hours rested", (x) => stateOfCharge(12.5, "agm", { hoursRested: x }), 0, 10000],
  ["state of charge", (x) => restedVoltage(x, "gel"), 0, 1],
  ["gravity to correct", (x) => correctedGravity(x, 20), 0.9, 1.4],
  ["electrolyte temperature", (x) => correctedGravity(1.25, x), -40, 70],
  ["reference temperature", (x) => correctedGravity(1.25, 20, { reference: x }), 0, 40],
  ["correction per degree", (x) => correctedGravity(1.25, 20, { perDegree: x }), 0.0005, 0.001],
  ["gravity for charge", (x) => stateOfChargeFromGravity(x), 1, 1.35],
  ["gravity when full", (x) => stateOfChargeFromGravity(1.2, x), 1.25, 1.3],
  ["gravity for freezing", freezingPoint, 1, 1.3],
  ["allowed spread", (x) => cellSpread([1.2, 1.25], x), 0.005, 0.1],
  ["load-limit temperature", (x) => loadLimit(x), -18, 60],
  ["load", (x) => judgeLoadTest({ ...test, amps: x }), 0, 5000],
  ["cold cranking amps", (x) => judgeLoadTest({ ...test, cca: x }), 1, 5000],
  ["seconds", (x) => judgeLoadTest({ ...test, seconds: x }), 0, 300],
  ["capacity to charge", (x) => chargeTime(x, 0.2, 0.8, 2, ACCEPTANCE.agm), 0.1, 10000],
  ["charging current", (x) => chargeTime(14, 0.2, 0.8, x, ACCEPTANCE.agm), 0.01, 1000],
  ["capacity to drain", (x) => drainDays(x, 1, 0.5, 30), 0.1, 10000],
  ["draw", (x) => drainDays(14, 1, 0.5, x, "agm"), 0, 30000],
  ["storage temperature", (x) => selfDischarge("agm", x), -40, 60],
  ["temperature in the cold", capacityInTheCold, -18, 60],
  ["capacity to run on", (x) => runTime(x, 20, 3, 1.2), 0.1, 10000],
  ["rate hours", (x) => runTime(70, x, 3, 1.2), 0.1, 1000],
  ["load to run", (x) => runTime(70, 20, x, 1.2), 0.0001, 10000],
  ["Peukert's exponent", (x) => runTime(70, 20, 3, x), 1, 2],
];

describe("[property] answered up to both edges, refused beyond them, NaN refused", () => {
  it.each(EDGES)("%s", (_, run, low, high) => {
    const step = Math.max(1e-6, Math.abs(high - low) * 1e-6);
    expect(run(low).ok).toBe(true);
    expect(run(high).ok).toBe(true);
    expect(run(low - step).ok).toBe(false);
    expect(run(high + step).ok).toBe(false);
    expect(run(Number.NaN).ok).toBe(false);
  });
  it("Peukert's exponent needs two different currents, however close", () => {
    expect(peukertExponent(42, 10, 33.6, 8).ok).toBe(false);
    expect(peukertExponent(42, 10, 41, 9).ok).toBe(true);
  });
});
