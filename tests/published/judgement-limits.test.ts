import { judgeReading } from "../../src/core/limits/judge-reading";
import { entryOf } from "../../src/core/readings/catalogue";
import { parseEntry } from "../../src/core/readings/parse";

function check(id: string, values: Readonly<Record<string, string | number>>) {
  const job = new Map(
    Object.entries(values).map(([key, cell]) => {
      const parsed = parseEntry(cell, entryOf(key)!);
      if (!parsed.ok || parsed.value === null) throw new Error(key);
      return [key, parsed.value] as const;
    }),
  );
  return judgeReading(id, job);
}

describe("limits with their rows", () => {
  it.each([
    [9.75, "pass"],
    [9.3, "unsure"],
    [8.8, "fail"],
  ] as const)(
    "[LOAD-10] cranking at %p V: %s (9.6 V by trade rule, from memory; never below 9.0 V = half of 18 V, US Army TM 9-2320-211-20)",
    (volts, state) => {
      expect(check("cranking-voltage", { "cranking-voltage": volts }).state).toBe(state);
    },
  );
  it.each([
    [1, "pass"],
    [2, "pass"],
    [4.5, "pass"],
    [20, "unsure"],
    [35, "unsure"],
    [49, "unsure"],
    [75, "fail"],
    [150, "fail"],
  ] as const)(
    "[LOAD-14, LOAD-15] a draw of %p mA without machine data: %s (5 mA motorcycles, from memory; 50 mA cars; 75 to 150 mA excessive)",
    (mA, state) => expect(check("key-off-draw", { "key-off-draw": mA }).state).toBe(state),
  );
  it.each([
    [13.5, "unsure"],
    [13.7, "pass"],
    [14.1, "pass"],
    [12.9, "fail"],
  ] as const)("[US Army TM 9-2330-356-14, 13.6 to 14.2 V] %p V running without machine data: %s", (volts, state) => {
    expect(check("test-voltage", { "test-voltage": volts }).state).toBe(state);
  });
  it.each([
    [15.7, "fail"],
    [15.3, "unsure"],
  ] as const)("[BAT-38, 2.583 V a cell = 15.5 V] %p V running: %s", (volts, state) => {
    expect(check("test-voltage", { "test-voltage": volts }).state).toBe(state);
  });
  it.each([
    [12.8, "fail"],
    [12.95, "unsure"],
  ] as const)("[BAT-44, wet float from 13.02 V] %p V running cannot even float a full battery: %s", (volts, state) => {
    expect(check("test-voltage", { "test-voltage": volts }).state).toBe(state);
  });
  it.each([
    [14.4, "pass"],
    [15.0, "fail"],
  ] as const)("[LFP-05, LFP-07] %p V at four lithium cells: %s (hard maximum 14.6 V)", (volts, state) => {
    expect(check("test-voltage", { "test-voltage": volts, "battery-type": "lithium" }).state).toBe(state);
  });
});

describe("bands that people quote are shown and decide nothing", () => {
  it("[RULE-01, RULE-02] 13.5 to 15.0 V beside the judgement: a machine that states 14.0 to 14.4 V fails at 14.9 V inside the band", () => {
    expect(check("test-voltage", { "test-voltage": 14.9, "regulated-min": 14, "regulated-max": 14.4 })).toMatchObject({
      state: "fail",
      customary: { low: 13.5, high: 15 },
    });
  });
  it.each([0.03, 0.09, 0.25, 0.5])("[RULE-03] %p V of ripple alone is never judged", (volts) => {
    expect(check("battery-ripple", { "battery-ripple": volts })).toMatchObject({
      state: "unsure",
      customary: { high: 0.1 },
    });
  });
  it.each([40, 90, 200])(
    "[RULE-05] %p V no-load at 5000 rpm: the band of 12 to 25 V per 1000 rpm does not judge it",
    (volts) => {
      expect(check("no-load-ab", { "no-load-ab": volts, "no-load-rpm": 5000 })).toMatchObject({
        state: "unsure",
        customary: { low: 60, high: 125 },
      });
    },
  );
  it("[RULE-08] a charging current of 30 A passes: how soon it falls is shown, not judged", () => {
    expect(check("battery-current", { "battery-current": 30 })).toMatchObject({
      state: "pass",
      customary: { words: expect.stringMatching(/5 % of the capacity/) },
    });
  });
});
