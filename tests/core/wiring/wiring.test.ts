import fc from "fast-check";
import {
  conductorDrop,
  conductorOhms,
  crossSection,
  ohmsPerMetre,
} from "../../../src/core/wiring/conductor-resistance";
import { parseConductorSize, sizeWords, type ConductorSize } from "../../../src/core/wiring/conductor-size";
import { METRIC_TABLES } from "../../../src/core/wiring/conductor-tables";
import { joint } from "../../../src/core/wiring/joint";
import { allowedDrop, RUNS } from "../../../src/core/wiring/run-limits";
import { faultMessage, type Result } from "../../../src/core/result";
import type { Cell } from "../../../src/core/cell";

function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(faultMessage(result.fault));
  return result.value;
}
const message = (result: Result<unknown>) => (result.ok ? "no fault" : faultMessage(result.fault));
const double = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const gauge = fc.integer({ min: -3, max: 40 }).map((n): ConductorSize => ({ system: "AWG", gauge: n }));
const SEED = { seed: 20261125 };

describe("conductor sizes as they are printed", () => {
  it.each<[Cell, ConductorSize]>([
    ["14 AWG", { system: "AWG", gauge: 14 }],
    ["AWG 14", { system: "AWG", gauge: 14 }],
    ["14AWG", { system: "AWG", gauge: 14 }],
    ["#10", { system: "AWG", gauge: 10 }],
    ["10 ga", { system: "AWG", gauge: 10 }],
    ["4/0 AWG", { system: "AWG", gauge: -3 }],
    ["4/0", { system: "AWG", gauge: -3 }],
    ["0000", { system: "AWG", gauge: -3 }],
    ["0 AWG", { system: "AWG", gauge: 0 }],
    ["1/0", { system: "AWG", gauge: 0 }],
    ["2.5 mm²", { system: "mm²", area: 2.5 }],
    ["2,5 mm2", { system: "mm²", area: 2.5 }],
    [0.75, { system: "mm²", area: 0.75 }],
    ["16 sqmm", { system: "mm²", area: 16 }],
  ])("%p", (cell, expected) => expect(value(parseConductorSize(cell))).toEqual(expected));
  it("blank is blank", () =>
    expect([null, "", "  "].map((cell) => value(parseConductorSize(cell)))).toEqual([null, null, null]));
  it.each<[Cell, RegExp]>([
    [12, /"12" can be read in two ways; write 12 AWG or 12 mm²/],
    ["41 AWG", /enter a gauge from 4\/0 AWG to 40 AWG/],
    ["5/0", /cannot be read/],
    ["14.5 AWG", /enter a gauge/],
    ["0.001 mm²", /0.001 mm² is not possible; enter 0.01 to 1000 mm²/],
    ["2000 mm²", /not possible/],
    ["-2.5 mm²", /not possible/],
    ["thick", /"thick" cannot be read; enter a size such as 14 AWG/],
    [true, /cannot be read/],
    [{ error: "#REF!" }, /#REF!/],
  ])("%p is refused", (cell, expected) => expect(message(parseConductorSize(cell))).toMatch(expected));
  it("[property] what is written is read back", () => {
    fc.assert(
      fc.property(gauge, (size) => expect(value(parseConductorSize(sizeWords(size)))).toEqual(size)),
      SEED,
    );
  });
});

describe("conductors", () => {
  it("[cross-check: every table against its copper] a listed maximum is up to 20 % above exact plain copper, never below", () => {
    for (const { rows } of Object.values(METRIC_TABLES)) {
      expect(rows.size).toBeGreaterThan(10);
      for (const [area, ohmsPerKm] of rows) {
        const over = ohmsPerKm / 1000 / (0.017241 / area);
        expect(over).toBeGreaterThan(1);
        expect(over).toBeLessThan(1.2);
      }
    }
  });
  it("[property] thinner, longer and hotter each mean more resistance; drop is in proportion to current", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -3, max: 39 }),
        double(0.1, 1000),
        double(-40, 150),
        double(0.1, 300),
        (g, length, t, amps) => {
          const of = (n: number, l: number, at: number) => value(conductorOhms({ system: "AWG", gauge: n }, l, at));
          const here = of(g, length, t);
          expect(of(g + 1, length, t)).toBeGreaterThan(here);
          expect(of(g, 2 * length, t) / here).toBeCloseTo(2, 9);
          expect(of(g, length, t + 10)).toBeGreaterThan(here);
          expect(value(conductorDrop({ system: "AWG", gauge: g }, length, amps, t))).toBeCloseTo(here * amps, 9);
        },
      ),
      SEED,
    );
  });
  it("[cross-check: three gauges halve the section] within 0.6 %", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -3, max: 37 }),
        (n) =>
          Math.abs(crossSection({ system: "AWG", gauge: n }) / crossSection({ system: "AWG", gauge: n + 3 }) / 2 - 1) <
          0.006,
      ),
      SEED,
    );
  });
  it.each<[string, Result<unknown>, RegExp]>([
    [
      "a size the class does not have",
      ohmsPerMetre({ system: "mm²", area: 3 }),
      /3 mm²: IEC 60228 class 5 has no such size/,
    ],
    [
      "tinned AWG",
      ohmsPerMetre({ system: "AWG", gauge: 14 }, "flexible tinned"),
      /14 AWG: no table gives flexible tinned/,
    ],
    ["a length below zero", conductorOhms({ system: "AWG", gauge: 14 }, -1), /length: −1 m/],
    [
      "too hot",
      conductorOhms({ system: "AWG", gauge: 14 }, 1, 251),
      /temperature: 251 °C is not possible; enter −60 to 250 °C/,
    ],
  ])("refuses %s", (_, result, expected) => expect(message(result)).toMatch(expected));
});

describe("joints", () => {
  const at = (volts: number, amps: number, allowed = 0.1) =>
    joint({ kind: "number", value: volts }, amps, {
      high: allowed,
      origin: { from: "machine data", words: "as entered" },
    });
  it("[property] ohms times amps is the drop, watts are drop times amps, leads swapped change nothing", () => {
    fc.assert(
      fc.property(double(0.001, 10), double(2, 500), (volts, amps) => {
        const one = value(at(volts, amps));
        expect(one.ohms * amps).toBeCloseTo(volts, 9);
        expect(one.watts).toBeCloseTo(volts * amps, 6);
        expect(value(at(-volts, -amps))).toEqual(one);
        expect(one.share).toBeCloseTo(volts / 0.1, 9);
      }),
      SEED,
    );
  });
  it("without current nothing is judged", () => {
    for (const amps of [0, 1.9, -1.9, Number.NaN])
      expect(message(at(0.05, amps))).toMatch(/a drop says nothing; load the circuit to 2 A/);
    expect(value(at(0.05, 2)).judged.state).toBe("pass");
  });
  it("an allowed drop falls with the current of a run, not of a connection; it rises for both", () => {
    expect(allowedDrop("B+ run", 10).high).toBeCloseTo(0.25, 12);
    expect(allowedDrop("connection", 10).high).toBe(0.1);
    expect(allowedDrop("connection", 40).high).toBeCloseTo(0.2, 12);
    expect(allowedDrop("B+ run", -10)).toEqual(allowedDrop("B+ run", 10));
  });
  it("without the current a run passes only where it would at any current, and fails only at the most there can be", () => {
    for (const run of RUNS) {
      const limit = allowedDrop(run, undefined, 35);
      expect(limit.high).toBeLessThanOrEqual(allowedDrop(run, 100).high!);
      expect(limit.lenient!.high).toBeGreaterThanOrEqual(
        allowedDrop(run, 35).lenient?.high ?? allowedDrop(run, 35).high!,
      );
    }
  });
});
