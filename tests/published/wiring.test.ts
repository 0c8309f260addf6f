import {
  conductorDrop,
  conductorOhms,
  COPPER_OHMS,
  COPPER_PER_DEGREE,
  crossSection,
  gaugeDiameter,
  ohmsPerMetre,
} from "../../src/core/wiring/conductor-resistance";
import { parseConductorSize } from "../../src/core/wiring/conductor-size";
import type { ConductorKind } from "../../src/core/wiring/conductor-tables";
import { joint } from "../../src/core/wiring/joint";
import { allowedDrop } from "../../src/core/wiring/run-limits";
import { faultMessage, type Result } from "../../src/core/result";

function value<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(faultMessage(result.fault));
  return result.value;
}
const size = (text: string) => value(parseConductorSize(text))!;
const perKm = (text: string, kind?: ConductorKind) => value(ohmsPerMetre(size(text), kind)) * 1000;
const perKft = (text: string, temperature: number, kind?: ConductorKind) =>
  value(conductorOhms(size(text), 304.8, temperature, kind));
const near = (actual: number, expected: number, within: number) =>
  expect(Math.abs(actual - expected)).toBeLessThanOrEqual(within + 1e-12);
const share = (actual: number, expected: number, within: number) =>
  expect(Math.abs(actual / expected - 1)).toBeLessThanOrEqual(within + 1e-12);

describe("copper", () => {
  it("[WIRE-01] annealed copper, 20 °C: 0.017241 Ω·mm²/m, 58 m/(Ω·mm²), 0.15328 Ω·g/m²", () => {
    expect(value(conductorOhms(size("1 mm²"), 1, 20, "by area"))).toBe(0.017241);
    near(1 / COPPER_OHMS, 58, 0.01);
    near(COPPER_OHMS * 8.89, 0.15328, 0.00001);
  });
  it("[WIRE-02] 0.00393 /°C at 20 °C = 1/254.5; 0.00323 /°C at 75 °C", () => {
    near(COPPER_PER_DEGREE, 1 / 254.5, 0.00001);
    near(COPPER_PER_DEGREE / (1 + COPPER_PER_DEGREE * 55), 0.00323, 0.00001);
  });
  it("[WIRE-03, WIRE-21] the CRC variant (α 0.004041) of the line-drop example stays within 0.5 % of ours at 35 °C", () => {
    // Printed: two 15 Ω wires at 20 °C are 15.909 Ω each at 35 °C; 14 V into 250 Ω leaves 12.42 V.
    const ours = 15 * (1 + COPPER_PER_DEGREE * 15);
    share(ours, 15.909, 0.005);
    near(14 * (250 / (250 + 2 * 15)), 12.5, 0.005);
    near(14 * (250 / (250 + 2 * ours)), 12.42, 0.01);
    near((14 * ours) / (250 + 2 * ours), 0.79, 0.005);
  });
  it("[WIRE-10] 1.98 Ω/kft at 75 °C is 1.628 at 20 °C by the code's own factor; ours within 0.1 %", () => {
    share(1.98 / (1 + COPPER_PER_DEGREE * 55), 1.628, 0.001);
  });
  it("[WIRE-18] a winding of 3.42 Ω at 20 °C that reads 4.22 Ω is 79.5 °C by the 234.5 rule", () => {
    near(20 + (4.22 / 3.42 - 1) / COPPER_PER_DEGREE, 79.53, 0.1);
  });
});

describe("American wire gage", () => {
  it.each([
    [-3, 0.46],
    [0, 0.3249],
    [2, 0.2576],
    [4, 0.2043],
    [10, 0.1019],
    [12, 0.08081],
    [14, 0.06408],
    [18, 0.0403],
    [20, 0.03196],
    [24, 0.0201],
    [30, 0.01003],
    [36, 0.005],
    [40, 0.003145],
  ])("[WIRE-04, WIRE-05, gauge %p] %p in", (gauge, inches) => {
    const digits = String(inches).split(".")[1]!.length;
    near(gaugeDiameter(gauge) / 25.4, inches, 10 ** -digits);
  });
  it.each([
    [-3, 211600],
    [0, 105500],
    [2, 66370],
    [4, 41740],
    [10, 10380],
    [12, 6530],
    [14, 4107],
    [18, 1624],
    [20, 1022],
    [24, 404],
    [30, 100.5],
  ])("[Kuphaldt wire table, gauge %p] %p circular mils", (gauge, circularMils) =>
    share(crossSection({ system: "AWG", gauge }) / ((Math.PI / 4) * 0.0254 ** 2), circularMils, 0.001),
  );
  it.each([
    ["14 AWG", 8.285],
    ["12 AWG", 5.211],
    ["10 AWG", 3.277],
    ["8 AWG", 2.061],
    ["4 AWG", 0.8152],
  ])("[WIRE-07, %s] %p Ω/km", (text, ohms) => share(perKm(text), ohms, 0.0005));

  // Floyd, Electric Circuit Fundamentals, wire table: Ω per 1000 ft of solid copper at 20 °C
  it.each([
    ["4/0", 0.049],
    ["3/0", 0.0618],
    ["2/0", 0.078],
    ["1/0", 0.0983],
    ["1 AWG", 0.124],
    ["2 AWG", 0.1563],
    ["3 AWG", 0.197],
    ["4 AWG", 0.2485],
    ["5 AWG", 0.3133],
    ["6 AWG", 0.3951],
    ["8 AWG", 0.6282],
    ["10 AWG", 0.9989],
    ["12 AWG", 1.588],
    ["14 AWG", 2.525],
    ["16 AWG", 4.016],
    ["18 AWG", 6.385],
    ["20 AWG", 10.15],
    ["22 AWG", 16.14],
    ["24 AWG", 25.67],
    ["30 AWG", 103.2],
  ])("[Floyd wire table, %s] %p Ω/kft", (text, ohms) => share(perKft(text, 20), ohms, 0.002));

  it.each([
    ["18 AWG", 7.77],
    ["16 AWG", 4.89],
    ["14 AWG", 3.07],
    ["12 AWG", 1.93],
    ["10 AWG", 1.21],
  ])("[WIRE-08, %s solid at 75 °C] %p Ω/kft", (text, ohms) => near(perKft(text, 75), ohms, 0.01));
  // The same table, seven strands and more
  it.each([
    ["14 AWG", 3.14],
    ["12 AWG", 1.98],
    ["10 AWG", 1.24],
    ["8 AWG", 0.778],
    ["6 AWG", 0.491],
    ["4 AWG", 0.308],
    ["2 AWG", 0.194],
    ["1/0", 0.122],
    ["2/0", 0.0967],
    ["4/0", 0.0608],
  ])("[NEC chapter 9 table 8, %s stranded at 75 °C] %p Ω/kft", (text, ohms) =>
    share(perKft(text, 75, "stranded"), ohms, 0.01),
  );
  it.each([
    ["14 AWG", 8.7],
    ["12 AWG", 5.48],
    ["10 AWG", 3.45],
    ["8 AWG", 2.18],
  ])("[WIRE-16, %s flexible] %p Ω/km", (text, ohms) => share(perKm(text, "flexible"), ohms, 0.005));
});

describe("IEC 60228 and ISO 6722", () => {
  const CLASS_5 = [
    ["0.5 mm²", 39.0],
    ["0.75 mm²", 26.0],
    ["1 mm²", 19.5],
    ["1.5 mm²", 13.3],
    ["2.5 mm²", 7.98],
    ["4 mm²", 4.95],
    ["6 mm²", 3.3],
  ] as const;
  it.each(CLASS_5)("[WIRE-11, class 5, %s] %p Ω/km", (text, ohms) => expect(perKm(text)).toBeCloseTo(ohms, 10));
  it.each([
    ["10 mm²", 1.91],
    ["16 mm²", 1.21],
    ["25 mm²", 0.78],
    ["35 mm²", 0.554],
    ["50 mm²", 0.386],
    ["70 mm²", 0.272],
    ["95 mm²", 0.206],
  ])("[IEC 60228 table 3, class 5, %s] %p Ω/km", (text, ohms) => expect(perKm(text)).toBeCloseTo(ohms, 10));
  it.each([
    ["0.5 mm²", 40.1],
    ["0.75 mm²", 26.7],
    ["1 mm²", 20.0],
    ["1.5 mm²", 13.7],
    ["2.5 mm²", 8.21],
    ["4 mm²", 5.09],
    ["6 mm²", 3.39],
    ["10 mm²", 1.95],
    ["16 mm²", 1.24],
    ["25 mm²", 0.795],
  ])("[WIRE-13, class 5 tinned, %s] %p Ω/km", (text, ohms) =>
    expect(perKm(text, "flexible tinned")).toBeCloseTo(ohms, 10),
  );
  it.each([
    ["0.5 mm²", 36.0],
    ["0.75 mm²", 24.5],
    ["1 mm²", 18.1],
    ["1.5 mm²", 12.1],
    ["2.5 mm²", 7.41],
    ["4 mm²", 4.61],
    ["6 mm²", 3.08],
    ["10 mm²", 1.83],
    ["16 mm²", 1.15],
    ["25 mm²", 0.727],
    ["35 mm²", 0.524],
    ["50 mm²", 0.387],
  ])("[IEC 60228 tables 1 and 2, classes 1 and 2, %s] %p Ω/km", (text, ohms) => {
    expect(perKm(text, "solid")).toBeCloseTo(ohms, 10);
    expect(perKm(text, "stranded")).toBeCloseTo(ohms, 10);
  });
  it.each([
    [0.35, 52.0, 54.4],
    [0.5, 37.1, 37.1],
    [0.75, 24.7, 24.7],
    [1, 18.5, 18.5],
    [1.5, 12.7, 12.7],
    [2, 9.42, 9.42],
    [2.5, 7.6, 7.6],
    [4, 4.71, 4.71],
    [6, 3.14, 3.14],
    [10, 1.82, 1.82],
    [16, 1.16, 1.16],
    [25, 0.743, 0.743],
  ])("[WIRE-17, from memory, %p mm²] %p to %p mΩ/m", (area, low, high) => {
    expect(perKm(`${area} mm²`, "road vehicle")).toBeGreaterThanOrEqual(low * 0.99);
    expect(perKm(`${area} mm²`, "road vehicle")).toBeLessThanOrEqual(high * 1.01);
  });

  // The standard's rounded factor against the exact copper law: up to 0.4 % apart
  it.each([
    [5, 1.064],
    [10, 1.042],
    [15, 1.02],
    [20, 1],
    [25, 0.98],
    [30, 0.962],
    [35, 0.943],
    [40, 0.926],
    [45, 0.909],
    [50, 0.893],
    [55, 0.877],
    [60, 0.862],
    [65, 0.847],
    [70, 0.833],
    [75, 0.82],
    [80, 0.806],
    [85, 0.794],
    [90, 0.781],
    [95, 0.769],
    [100, 0.758],
  ])("[WIRE-14, k_t at %p °C] %p, within 0.4 %% and half its last digit", (temperature, factor) => {
    const warm = value(conductorOhms(size("1 mm²"), 1, temperature, "by area")) / COPPER_OHMS;
    share(warm * factor, 1, 0.004 + 0.0005 / factor);
    near(250 / (230 + temperature), factor, 0.0005);
  });
});

describe("voltage drops", () => {
  const drop = (volts: number, amps: number, run: Parameters<typeof allowedDrop>[0]) =>
    value(joint({ kind: "number", value: volts }, amps, allowedDrop(run, amps))).judged.state;
  it.each([
    [0.19, 100, "pass"],
    [0.25, 100, "fail"],
    [0.38, 200, "pass"],
    [0.43, 200, "fail"],
    [0.19, 50, "pass"],
    [0.25, 50, "fail"],
  ] as const)("[WIRE-23, WIRE-24, starter cable] %p V at %p A: %s (0.2 V, and 0.2 V per 100 A)", (volts, amps, state) =>
    expect(drop(volts, amps, "starter cable")).toBe(state),
  );
  it.each([
    [0.09, 20, "pass"],
    [0.11, 20, "fail"],
    [0.14, 30, "pass"],
    [0.16, 30, "fail"],
  ] as const)("[US Navy NAVEDTRA 14273, one connection] %p V at %p A: %s (0.1 V at 20 A)", (volts, amps, state) => {
    expect(drop(volts, amps, "connection")).toBe(state);
  });
  it.each([
    [0.45, "pass"],
    [0.6, "unsure"],
    [0.75, "fail"],
  ] as const)(
    "[US Navy NAVEDTRA 14273, insulated circuit at 20 A] %p V: %s (0.5 V by practice, never above 0.7 V)",
    (volts, state) => {
      expect(drop(volts, 20, "B+ run")).toBe(state);
    },
  );
  it("[vehicle service practice, charging-circuit resistance at 20 A] at most 0.5 V", () =>
    expect(allowedDrop("B+ run", 20).high).toBe(0.5));
  it("[Kuphaldt, Ohm's law] a joint that drops 0.35 V at 14 A has 25 mΩ and turns 4.9 W into heat", () => {
    const { ohms, watts } = value(joint({ kind: "number", value: 0.35 }, 14, allowedDrop("connection", 14)));
    near(ohms, 0.025, 1e-12);
    near(watts, 4.9, 1e-12);
  });
  it("[WIRE-21] a wire of 15 Ω that carries 0.05 A drops 0.75 V", () => {
    const metres = 15 / value(ohmsPerMetre(size("20 AWG")));
    near(value(conductorDrop(size("20 AWG"), metres, 0.05)), 0.75, 0.005);
  });
});
