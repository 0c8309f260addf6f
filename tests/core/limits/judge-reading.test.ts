import { readFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import { CONDITIONS } from "../../../src/core/limits/conditions";
import { judgeJob, judgeReading, type LimitOptions } from "../../../src/core/limits/judge-reading";
import { CATALOGUE, isReading } from "../../../src/core/readings/catalogue";
import { jobsFromFile } from "../../../src/core/readings/from-job-file";
import { parseEntry } from "../../../src/core/readings/parse";
import { entryOf } from "../../../src/core/readings/catalogue";
import type { Job, QuantityEntry } from "../../../src/core/readings/types";

const READINGS = CATALOGUE.filter((entry): entry is QuantityEntry => entry.kind === "quantity" && isReading(entry));

function job(values: Readonly<Record<string, string | number>>): Job {
  return new Map(
    Object.entries(values).map(([id, cell]) => {
      const parsed = parseEntry(cell, entryOf(id)!);
      if (!parsed.ok || parsed.value === null) throw new Error(`${id}: ${String(cell)}`);
      return [id, parsed.value];
    }),
  );
}
const state = (id: string, values: Readonly<Record<string, string | number>>, options?: LimitOptions) =>
  judgeReading(id, job(values), options).state;

describe("every quantity of the catalogue", () => {
  it("is not read where it is not there, and never passes, fails or throws without a word", () => {
    for (const entry of CATALOGUE) {
      if (entry.kind !== "quantity") continue;
      expect(judgeReading(entry.id, new Map())).toEqual({ state: "not read", reason: "Not read." });
      for (const value of [entry.min, entry.max, (entry.min + entry.max) / 2]) {
        const judged = judgeReading(entry.id, new Map([[entry.id, { kind: "number", value }]]));
        expect(["pass", "fail", "unsure"]).toContain(judged.state);
        expect(judged.reason.length).toBeGreaterThan(10);
        if (judged.state === "pass" || judged.state === "fail") expect(judged.limit).toBeDefined();
      }
    }
  });
  it("a pass or fail always names where its limit comes from", () => {
    fc.assert(
      fc.property(fc.constantFrom(...READINGS), fc.double({ min: 0, max: 1, noNaN: true }), (entry, share) => {
        const value = entry.min + share * (Math.min(entry.max, 1e4) - entry.min);
        const judged = judgeReading(entry.id, new Map([[entry.id, { kind: "number", value }]]));
        if (judged.state === "unsure") return;
        expect(judged.limit!.origin.words.length).toBeGreaterThan(5);
        expect(judged.reason).toContain(judged.limit!.origin.words);
      }),
      { seed: 20261125 },
    );
  });
  it("conditions have no limit of their own", () => {
    for (const id of CONDITIONS)
      expect(judgeReading(id, new Map([[id, { kind: "number", value: 20 }]])).state).toBe("unsure");
  });
  it("an id of our own making is a slip of the caller", () => {
    expect(() => judgeReading("rested-volts", new Map())).toThrow(/No quantity "rested-volts"/);
    expect(() => judgeReading("battery-type", new Map())).toThrow();
  });
});

describe("the order of origins", () => {
  const good = (ripple: number, rpm = 5000) => job({ "battery-ripple": ripple, "test-rpm": rpm });
  it("machine data before everything else", () => {
    const values = { "test-voltage": 14.9, "regulated-min": 13.5, "regulated-max": 14.5 };
    const knownGood = [job({ "test-voltage": 14.9 })];
    expect(judgeReading("test-voltage", job(values), { knownGood })).toMatchObject({
      state: "fail",
      limit: { high: 14.5, origin: { from: "machine data" } },
    });
  });
  it("known-good machines before a published default; at the same speed only; the count is shown", () => {
    const here = { "battery-ripple": 0.2, "test-rpm": 5000 };
    expect(state("battery-ripple", here)).toBe("unsure");
    const five = [0.19, 0.2, 0.21, 0.2, 0.195].map((ripple) => good(ripple));
    expect(judgeReading("battery-ripple", job(here), { knownGood: five })).toMatchObject({
      state: "pass",
      limit: { origin: { from: "known-good parts", count: 5 } },
    });
    expect(state("battery-ripple", { ...here, "battery-ripple": 0.6 }, { knownGood: five })).toBe("fail");
    expect(state("battery-ripple", here, { knownGood: [good(0.2, 3000)] })).toBe("unsure");
    expect(state("battery-ripple", here, { knownGood: [good(0.2, 4400)] })).toBe("unsure");
    expect(state("battery-ripple", here, { knownGood: [good(0.2, 4600)] })).toBe("pass");
  });
  it("a band of the trade is shown and decides nothing: 0.2 V of ripple neither passes nor fails by it", () => {
    const judged = judgeReading("battery-ripple", job({ "battery-ripple": 0.2 }));
    expect(judged).toMatchObject({ state: "unsure", customary: { high: 0.1 } });
    expect(judged.limit).toBeUndefined();
    expect(judgeReading("no-load-ab", job({ "no-load-ab": 500, "no-load-rpm": 5000 })).customary).toMatchObject({
      low: 60,
      high: 125,
    });
  });
});

describe("battery", () => {
  it("rested voltage: enough charge for its type, half of it for 6 V, a question for 6.2 V", () => {
    expect(state("rested-voltage", { "rested-voltage": 12.7, "battery-type": "flooded" })).toBe("pass");
    expect(state("rested-voltage", { "rested-voltage": 12.2, "battery-type": "flooded" })).toBe("fail");
    expect(state("rested-voltage", { "rested-voltage": 12.5, "battery-type": "flooded" })).toBe("unsure");
    expect(state("rested-voltage", { "rested-voltage": 6.4, "battery-type": "flooded", "battery-nominal": 6 })).toBe(
      "pass",
    );
    expect(judgeReading("rested-voltage", job({ "rested-voltage": 6.2 })).reason).toMatch(/two ways/);
    expect(judgeReading("rested-voltage", job({ "rested-voltage": 14.2, "battery-type": "agm" })).reason).toMatch(
      /charging voltage/,
    );
  });
  it("without a type it passes and fails only where every lead-acid type does", () => {
    expect([12.3, 12.5, 12.85].map((volts) => state("rested-voltage", { "rested-voltage": volts }))).toEqual([
      "fail",
      "unsure",
      "pass",
    ]);
  });
  it("a short rest leaves it unsure", () => {
    const at = (hours: number) =>
      state("rested-voltage", { "rested-voltage": 12.62, "battery-type": "flooded", "hours-rested": hours });
    expect([at(12), at(0.2)]).toEqual(["pass", "unsure"]);
  });
  it("cells are judged against the best of them; a discharged battery is charged first", () => {
    const cells = { "gravity-1": 1.265, "gravity-2": 1.26, "gravity-3": 1.22 };
    expect(["gravity-1", "gravity-2", "gravity-3"].map((id) => state(id, cells))).toEqual(["pass", "pass", "fail"]);
    expect(state("gravity-3", cells, { gravitySpread: 0.05 })).toBe("pass");
    expect(judgeReading("gravity-2", job({ "gravity-1": 1.2, "gravity-2": 1.15 })).reason).toMatch(
      /charge it and read again/,
    );
    expect(judgeReading("gravity-1", job({ "gravity-1": 1.2 })).reason).toMatch(/no other cell was read/);
  });
  it("below freezing it says whether the acid may be frozen", () => {
    expect(
      state("battery-temperature", { "battery-temperature": -20, "rested-voltage": 12.65, "battery-type": "flooded" }),
    ).toBe("pass");
    expect(
      judgeReading(
        "battery-temperature",
        job({ "battery-temperature": -20, "rested-voltage": 11.9, "battery-type": "flooded" }),
      ),
    ).toMatchObject({
      state: "fail",
      reason: expect.stringMatching(/neither charged nor tested/),
    });
    expect(state("battery-temperature", { "battery-temperature": -20 })).toBe("unsure");
    expect(state("battery-temperature", { "battery-temperature": 20 })).toBe("unsure");
  });
  it("load test: with the rested voltage before it, or the first one where it was not charged between", () => {
    const test = {
      "load-test-voltage": 9.1,
      "load-test-current": 150,
      "battery-cca": 300,
      "battery-temperature": 25,
      "battery-type": "flooded",
    };
    expect(state("load-test-voltage", { ...test, "load-test-rested": 12.6 })).toBe("fail");
    expect(judgeReading("load-test-voltage", job({ ...test, "rested-voltage": 12.1 })).reason).toMatch(
      /below 75 % charge/,
    );
    expect(
      judgeReading("load-test-voltage", job({ ...test, "rested-voltage": 12.1, "load-test-recharged": "yes" })).reason,
    ).toMatch(/enter the rested voltage/);
    expect(
      judgeReading("load-test-voltage", job({ "load-test-voltage": 9.1, "load-test-current": 150 })).reason,
    ).toMatch(/without the cold cranking amps/);
    expect(
      judgeReading("load-test-voltage", job({ ...test, "load-test-rested": 12.6, "cca-standard": "EN" })).reason,
    ).toMatch(/cannot be turned into SAE/);
  });
});

describe("running, wiring, loads", () => {
  it("at idle only too much fails; a low voltage is a matter of speed and load", () => {
    const machine = { "regulated-min": 13.5, "regulated-max": 14.8 };
    expect(
      [12.2, 13.1, 14.2, 15.3].map((volts) => state("idle-voltage", { "idle-voltage": volts, ...machine })),
    ).toEqual(["unsure", "unsure", "pass", "fail"]);
  });
  it("without machine data the battery's needs and bounds decide, and lithium's are its own", () => {
    expect([12.8, 13.4, 14.3, 15.2, 15.8].map((volts) => state("test-voltage", { "test-voltage": volts }))).toEqual([
      "fail",
      "unsure",
      "pass",
      "unsure",
      "fail",
    ]);
    expect(state("test-voltage", { "test-voltage": 15, "battery-type": "lithium" })).toBe("fail");
    expect(state("test-voltage", { "test-voltage": 7.15, "battery-nominal": 6 })).toBe("pass");
  });
  it("a 6 V system has half of every limit", () => {
    const six = { "battery-nominal": 6 };
    const limit = (id: string, values: Readonly<Record<string, string | number>>) =>
      judgeReading(id, job({ ...values, ...six })).limit!;
    const twelve = (id: string, values: Readonly<Record<string, string | number>>) =>
      judgeReading(id, job(values)).limit!;
    for (const [id, volts] of [
      ["test-voltage", 7],
      ["cranking-voltage", 5],
      ["idle-voltage", 7],
    ] as const) {
      const half = limit(id, { [id]: volts });
      const whole = twelve(id, { [id]: 2 * volts });
      for (const side of ["low", "high"] as const) {
        if (whole[side] !== undefined) expect(half[side]).toBeCloseTo(whole[side] / 2, 9);
        if (whole.lenient?.[side] !== undefined) expect(half.lenient![side]).toBeCloseTo(whole.lenient[side] / 2, 9);
      }
    }
    const rested = limit("rested-voltage", { "rested-voltage": 6.3, "battery-type": "agm" });
    expect(rested.low).toBeCloseTo(12.625 / 2, 9);
    expect(rested.u).toBeCloseTo(0.05 / Math.sqrt(3), 9);
  });
  it("the most that the machine can deliver bounds a drop of unknown current", () => {
    const at = (watts: number) =>
      judgeReading("bplus-drop", job({ "bplus-drop": 0.9, "rated-output": watts })).limit!.lenient!.high;
    expect(at(700)).toBeCloseTo(0.7 * (50 / 20), 9);
    expect(at(140)).toBeCloseTo(0.7, 9);
  });
  it("an uncertain current widens what a drop leaves open", () => {
    const judged = judgeReading("bplus-drop", job({ "bplus-drop": 0.1, "drop-current": 4 }));
    // ±(2 % + 3 counts of 0.1 A) of 4 A, at 25 mΩ
    expect(judged.limit!.u).toBeCloseTo(0.025 * Math.hypot(0.38 / Math.sqrt(3), 0.05 / Math.sqrt(3)), 6);
    expect(judgeReading("bplus-drop", job({ "bplus-drop": 0.02 })).limit!.u).toBe(0);
  });
  it("a drop is judged at the current that flowed", () => {
    const at = (amps: number) => state("bplus-drop", { "bplus-drop": 0.35, "drop-current": amps });
    expect([at(25), at(12), at(5)]).toEqual(["pass", "unsure", "fail"]);
    expect(judgeReading("bplus-drop", job({ "bplus-drop": 0.01, "drop-current": 0.3 })).reason).toMatch(/says nothing/);
    expect(state("bplus-drop", { "bplus-drop": 0.05 })).toBe("pass");
    expect(state("bplus-drop", { "bplus-drop": 0.4 })).toBe("unsure");
    expect(state("bplus-drop", { "bplus-drop": 2 })).toBe("fail");
    expect(state("bplus-drop", { "bplus-drop": -0.05, "drop-current": -12 })).toBe("pass");
  });
  it("key-off draw, battery current, key-on load, connectors, cranking", () => {
    expect([3, 20, 80].map((mA) => state("key-off-draw", { "key-off-draw": mA }))).toEqual(["pass", "unsure", "fail"]);
    expect([3, 8].map((mA) => state("key-off-draw", { "key-off-draw": mA, "key-off-limit": 5 }))).toEqual([
      "pass",
      "fail",
    ]);
    expect([-3, 0.1, 4].map((amps) => state("battery-current", { "battery-current": amps }))).toEqual([
      "fail",
      "unsure",
      "pass",
    ]);
    expect(state("key-on-load", { "key-on-load": 12 })).toBe("unsure");
    expect([12, 20].map((amps) => state("key-on-load", { "key-on-load": amps, "lights-load": 13 }))).toEqual([
      "pass",
      "fail",
    ]);
    expect(state("key-on-load", { "key-on-load": 20, "lights-load": 13, "added-load": 150 })).toBe("pass");
    expect(
      judgeReading("key-on-load", job({ "key-on-load": 20, "lights-load": 13, "added-load": 150 })).reason,
    ).toMatch(/added accessories/);
    expect(judgeReading("key-on-load", job({ "key-on-load": 20, "lights-load": 13 })).reason).not.toMatch(
      /accessories/,
    );
    expect([0.05, 0.4].map((volts) => state("phase-drop-b", { "phase-drop-b": volts }))).toEqual(["pass", "fail"]);
    expect([10.2, 9.3, 8.4].map((volts) => state("cranking-voltage", { "cranking-voltage": volts }))).toEqual([
      "pass",
      "unsure",
      "fail",
    ]);
    expect(
      [5.1, 4.2].map((volts) => state("cranking-voltage", { "cranking-voltage": volts, "battery-nominal": 6 })),
    ).toEqual(["pass", "fail"]);
  });
  it("a field winding that reads over-range is open, near zero shorted", () => {
    expect(["OL", 0.1, 4, 9].map((ohms) => state("field-ohms", { "field-ohms": ohms }))).toEqual([
      "fail",
      "fail",
      "pass",
      "unsure",
    ]);
  });
  it("the shop's meter and rule are settings", () => {
    const values = { "key-off-draw": 5.2, "key-off-limit": 5 };
    const fine = {
      name: "bench",
      ranges: [{ of: "milliamps", upTo: 100, percent: 0.1, counts: 1, resolution: 0.01 }],
    } as const;
    expect(state("key-off-draw", values, { meter: fine })).toBe("fail");
    expect(state("key-off-draw", { ...values, "key-off-draw": 5.03 })).toBe("unsure");
    expect(state("key-off-draw", { ...values, "key-off-draw": 5.03 }, { rule: { passAt: 0.95, failAt: 0.3 } })).toBe(
      "fail",
    );
  });
});

describe("simulated jobs with a known truth", () => {
  const file = JSON.parse(readFileSync(path.resolve(__dirname, "../../jobs/simulated-jobs.json"), "utf8")) as {
    cases: { truth: { faultId: string } }[];
  };
  const jobs = jobsFromFile(file);
  if (!jobs.ok) throw new Error("the job file cannot be read");
  it("not one reading of a healthy machine fails", () => {
    const healthy = jobs.value.filter((_, i) => file.cases[i]!.truth.faultId === "healthy");
    expect(healthy).toHaveLength(12);
    const failed = healthy.flatMap(({ id, job: filed }) =>
      [...judgeJob(filed)].filter(([, judged]) => judged.state === "fail").map(([reading]) => `${id} ${reading}`),
    );
    // A battery that came in discharged is not a faulty machine.
    expect(failed.filter((name) => !name.endsWith("rested-voltage"))).toEqual([]);
  });
  it.each([
    ["parasitic_drain", "key-off-draw", 3],
    ["high_resistance_bplus", "bplus-drop", 3],
    ["high_resistance_ground", "ground-drop", 3],
    ["regulator_overcharge", "test-voltage", 4],
    ["regulator_series_no_fire", "test-voltage", 5],
  ])("%s shows in %s where it was read", (fault, reading, least) => {
    const states = jobs.value
      .filter((_, i) => file.cases[i]!.truth.faultId === fault)
      .flatMap(({ job: filed }) => {
        const judged = judgeJob(filed).get(reading)!;
        return judged.state === "not read" ? [] : [judged.state];
      });
    expect(states.filter((s) => s === "fail").length).toBeGreaterThanOrEqual(least);
    expect(states.filter((s) => s === "pass")).toEqual([]);
  });
  it("judgeJob covers every reading of the catalogue and equals judgeReading", () => {
    const { job: filed } = jobs.value[7]!;
    const all = judgeJob(filed);
    expect([...all.keys()]).toEqual(READINGS.map((entry) => entry.id));
    for (const [id, judged] of all) expect(judgeReading(id, filed)).toEqual(judged);
  });
});
