import {
  atReference,
  junctionCurrent,
  junctionVoltage,
  modelDrop,
  saturationCurrent,
  thermalVoltage,
} from "../../src/core/rectifier/junction";
import { judgeDiodes } from "../../src/core/rectifier/diodes";
import { BODY_DIODE_BAND, PARALLEL_PATH_BAND, PLAIN_BAND } from "../../src/core/rectifier/expectation";
import type { BridgeKind } from "../../src/core/rectifier/types";
import { block } from "../core/rectifier/blocks";

const OL = "OL";
const unit = (upper: number | "OL", lower: number | "OL", kind?: BridgeKind, temperature?: number) =>
  judgeDiodes({
    ...block([
      [upper, upper, upper],
      [lower, lower, lower],
      [OL, OL, OL],
      [OL, OL, OL],
    ]),
    ...(kind ? { kind } : {}),
    ...(temperature === undefined ? {} : { temperature }),
  });

describe("junction as published", () => {
  it("[DIO-01, Satya Prakash and Rawat: I0 10 µA, 1 A, η 2, 300 K] 0.596 V", () => {
    const kelvin = 300;
    expect(Math.abs(junctionVoltage(1, 10e-6, (2 * 1.38e-23 * kelvin) / 1.6e-19) - 0.596)).toBeLessThanOrEqual(0.001);
    expect(Math.abs(junctionVoltage(1, 10e-6, 2 * thermalVoltage(kelvin)) - 0.596)).toBeLessThanOrEqual(0.001);
  });
  it("[DIO-02, Sedha: I0 0.2 µA, 0.1 V, 40 per volt] 10.72 µA", () =>
    expect(Math.abs(junctionCurrent(0.1, 0.2e-6, 1 / 40) * 1e6 - 10.72)).toBeLessThanOrEqual(0.01));
  it("[DIO-04, Nandi: germanium, 10 mA at 0.30 V, η 1] 91.66 nA", () => {
    // 91.66 nA comes of V_T = T/11600 at 300 K.
    expect(Math.abs(saturationCurrent(0.01, 0.3, 300 / 11600) / 91.66e-9 - 1)).toBeLessThanOrEqual(0.0005);
  });
  it("[DIO-06, Kuphaldt: 1 A at 0.925 V, n 2, V_T 26 mV] 18.8 nA", () =>
    expect(Math.abs(saturationCurrent(1, 0.925, 0.052) / 18.8e-9 - 1)).toBeLessThanOrEqual(0.005));
  it("[DIO-07, same model at a 1 mA test current] 0.566 V", () =>
    expect(Math.abs(modelDrop(1) - 0.566)).toBeLessThanOrEqual(0.002));
  it("[DIO-14, silicon −2 mV/°C, from memory] a hot part is referred back to 25 °C", () => {
    expect(atReference(0.42, { temperature: 75 })).toBeCloseTo(0.52, 12);
    expect(atReference(0.55, { temperature: 5 })).toBeCloseTo(0.51, 12);
    expect(atReference(0.5, {})).toBe(0.5);
  });
  it("[cross-check, Shockley with n·V_T = 52 mV] a meter of half the current reads 36 mV less, one of ten times 120 mV more", () => {
    expect(atReference(0.5, { testCurrent: 0.5 }) - 0.5).toBeCloseTo(0.052 * Math.log(2), 4);
    expect(0.5 - atReference(0.5, { testCurrent: 10 })).toBeCloseTo(0.052 * Math.log(10), 4);
  });
  it("[property] current and voltage are each other's inverse", () => {
    for (const amps of [1e-9, 1e-6, 1e-3, 1, 30])
      expect(junctionCurrent(junctionVoltage(amps, 18.8e-9, 0.052), 18.8e-9, 0.052) / amps).toBeCloseTo(1, 9);
  });
});

describe("bands as published: they place a reading, they condemn nothing by themselves", () => {
  it("[DIO-12, instruction sheets of general-purpose meters] 0.4 to 0.9 V", () =>
    expect(PLAIN_BAND).toEqual({ low: 0.4, high: 0.9 }));
  it("[DIO-15, body diode, from memory] 0.35 V upward; [case of the tool, common practice] a parallel path 0.1 to 0.2 V, room left", () => {
    expect(BODY_DIODE_BAND.low).toBe(0.35);
    expect(PARALLEL_PATH_BAND.low).toBeLessThan(0.1);
    expect(PARALLEL_PATH_BAND.high).toBeGreaterThan(0.2);
  });
  it.each([
    ["[DIO-10, Kuphaldt: display 0.548 V]", 0.548, "plain diodes", "serviceable"],
    ["[DIO-12, low end 0.4 V]", 0.4, "plain diodes", "serviceable"],
    ["[DIO-12, other sheets' 0.5 V]", 0.5, "unknown", "serviceable"],
    ["[DIO-12, other sheets' 0.8 V]", 0.8, "plain diodes", "serviceable"],
    ["[DIO-12, high end 0.9 V]", 0.9, "plain diodes", "serviceable"],
    ["[DIO-15, body diode 0.35 V]", 0.35, "mosfet", "serviceable"],
    ["[DIO-15, body diode 0.65 V]", 0.65, "mosfet", "serviceable"],
  ] as const)("%s %d V, %s: %s", (_, volts, kind, state) => expect(unit(volts, volts, kind, 25).state).toBe(state));
  it.each([
    ["[DIO-12, bad: 2.0 V or more forward]", 2.0],
    ["[DIO-12, bad: OL forward]", OL],
  ] as const)("%s one device %p among sisters of 0.5 V is open", (_, shown) => {
    const judged = judgeDiodes({
      ...block([
        [0.5, shown, 0.5],
        [0.5, 0.5, 0.5],
        [OL, OL, OL],
        [OL, OL, OL],
      ]),
      kind: "plain diodes",
    });
    expect(judged.state).toBe("faulty");
    expect(judged.readings.upperForward).toEqual(["conducts", "open", "conducts"]);
  });
  it("[DIO-12, bad: 0 V] one device near zero both ways is shorted", () => {
    const judged = judgeDiodes(
      block([
        [0.5, 0, 0.5],
        [0.5, 0.5, 0.5],
        [OL, 0, OL],
        [OL, OL, OL],
      ]),
    );
    expect(judged.state).toBe("faulty");
    expect(judged.readings.upperReverse).toEqual(["blocks", "short", "blocks"]);
  });
  it("[DIO-15, SCR: anode to cathode OL both ways] a controlled bank that blocks is as it should be", () => {
    const judged = unit(OL, 0.5, "controlled upper");
    expect(judged.state).toBe("serviceable");
    expect(judged.readings.upperForward).toEqual(["blocks", "blocks", "blocks"]);
    expect(judged.hidden).toEqual(["Whether the upper devices fire does not show: AC under load would show it."]);
  });
  it("[DIO-11, ohms function below 0.3 V] OL of a meter that opens no junction proves nothing, a short still does", () => {
    const meter = {
      name: "ohms",
      ranges: [{ of: "diode" as const, upTo: 0.3, percent: 1, counts: 2, resolution: 0.001 }],
    };
    const shut = judgeDiodes({
      ...block([
        [OL, OL, OL],
        [OL, OL, OL],
        [OL, OL, OL],
        [OL, OL, OL],
      ]),
      kind: "plain diodes",
      meter,
    });
    expect(shut.state).toBe("unproven");
    expect(shut.reason).toMatch(/above 0.3 V and does not open a silicon junction/);
    expect(
      judgeDiodes({
        ...block([
          [0.001, OL, OL],
          [OL, OL, OL],
          [0.001, OL, OL],
          [OL, OL, OL],
        ]),
        meter,
      }).state,
    ).toBe("faulty");
  });
});
