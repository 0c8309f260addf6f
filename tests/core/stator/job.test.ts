import { readFileSync } from "node:fs";
import path from "node:path";
import { judgeGround } from "../../../src/core/stator/ground";
import { judgeInsulation } from "../../../src/core/stator/insulation";
import { judgeNoLoadAc, noLoadLimit } from "../../../src/core/stator/no-load-ac";
import { judgeWindingOhms, windingLimit } from "../../../src/core/stator/winding-ohms";
import { jobsFromFile } from "../../../src/core/readings/from-job-file";
import type { Job, Measured } from "../../../src/core/readings/types";

type Typed = number | "OL" | string;
/** Numbers are numbers, OL is over-range, any other text is a word of a choice. */
const job = (values: Record<string, Typed>): Job =>
  new Map(
    Object.entries(values).map(([id, typed]): [string, Measured] => [
      id,
      typeof typed === "number"
        ? { kind: "number", value: typed }
        : typed === "OL"
          ? { kind: "overload" }
          : { kind: "choice", value: typed },
    ]),
  );
const FIGURE = { "no-load-nominal": 60, "no-load-nominal-rpm": 3000, "no-load-tolerance": 15 };
const pairs = (prefix: string, [ab, bc, ca]: readonly [Typed, Typed, Typed]) => ({
  [`${prefix}-ab`]: ab,
  [`${prefix}-bc`]: bc,
  [`${prefix}-ca`]: ca,
});

describe("no-load AC of a job", () => {
  it("balanced and at its figure: pass; the figure moves with the speed", () => {
    const judged = judgeNoLoadAc(job({ ...FIGURE, "no-load-rpm": 4000, ...pairs("no-load", [80, 80.3, 79.8]) }));
    expect(judged.state).toBe("pass");
    expect(judged.perThousand).toBeCloseTo(20, 1);
    expect(judged.readings.get("no-load-ab")!.limit).toMatchObject({
      low: expect.closeTo(68, 9),
      high: expect.closeTo(92, 9),
    });
    expect(judged.readings.get("no-load-ab")!.limit!.origin.words).toBe(
      "machine's figure 60 V at 3000 rpm ±15 %, at 4000 rpm",
    );
  });
  it("balanced without a figure: balance passes, the level is unsure and says why, customary band beside it", () => {
    const judged = judgeNoLoadAc(job({ "no-load-rpm": 3000, ...pairs("no-load", [60, 60.2, 59.9]) }));
    expect(judged.balance!.judged.state).toBe("pass");
    expect(judged.state).toBe("unsure");
    expect(judged.reason).toMatch(/no-load figure is not known, so its level is not judged/);
    expect(judged.readings.get("no-load-ab")!.customary).toMatchObject({ low: 36, high: 75 });
  });
  it("without a speed the balance still stands", () => {
    const judged = judgeNoLoadAc(job({ ...FIGURE, ...pairs("no-load", [60, 60.2, 50]) }));
    expect(judged.balance!.judged.state).toBe("fail");
    expect(judged.readings.get("no-load-ab")!.reason).toMatch(/speed was not noted/);
    expect(judged.perThousand).toBeUndefined();
    expect(noLoadLimit(job(FIGURE))).toBeUndefined();
  });
  it("all three low alike: balance passes, level fails", () => {
    const judged = judgeNoLoadAc(job({ ...FIGURE, "no-load-rpm": 3000, ...pairs("no-load", [30, 30.1, 29.9]) }));
    expect(judged.balance!.judged.state).toBe("pass");
    expect(judged.state).toBe("fail");
    expect(judged.reason).toMatch(/misses the limit of 51.0 to 69.0 V/);
  });
  it("a figure without a tolerance passes within 10 % and fails beyond 20 %", () => {
    const at = (volts: number) =>
      judgeNoLoadAc(
        job({
          "no-load-nominal": 60,
          "no-load-nominal-rpm": 3000,
          "no-load-rpm": 3000,
          ...pairs("no-load", [volts, volts, volts]),
        }),
      ).state;
    expect([60, 52, 40].map(at)).toEqual(["pass", "unsure", "fail"]);
  });
  it("an open winding of a wye, and shorted turns, are named", () => {
    expect(judgeNoLoadAc(job(pairs("no-load", [0.1, 61.9, 0.1]))).reason).toMatch(
      /Only B–C gives output: winding or lead A is open/,
    );
    expect(judgeNoLoadAc(job(pairs("no-load", [49, 58.3, 49.8]))).reason).toMatch(
      /A–B and C–A are low: turns shorted in winding A/,
    );
    expect(judgeNoLoadAc(job(pairs("no-load", [60, 60.1, 52]))).reason).toMatch(
      /C–A alone is low: turns shorted between its terminals/,
    );
  });
  it("two speeds: in proportion passes, out of proportion is a wrong reading and never a fail", () => {
    const at = (second: number) =>
      judgeNoLoadAc(
        job({
          ...FIGURE,
          "no-load-rpm": 3000,
          ...pairs("no-load", [60, 60, 60]),
          "no-load-rpm-2": 5000,
          ...pairs("no-load-2", [second, second, second]),
        }),
      );
    expect(at(100).line!.state).toBe("pass");
    expect(at(100).state).toBe("pass");
    expect(at(75).line!).toMatchObject({
      state: "unsure",
      reason: expect.stringMatching(/not in proportion to the two speeds \(-25.0 % apart\)/),
    });
    expect(at(75).readings.get("no-load-2-ab")!.state).toBe("fail");
  });
  it("single-phase machines have one pair and no balance; nothing read is not read", () => {
    const single = judgeNoLoadAc(
      job({ ...FIGURE, "alternator-kind": "single-phase", "no-load-rpm": 3000, "no-load-ab": 60 }),
    );
    expect(single.state).toBe("pass");
    expect(single.balance).toBeUndefined();
    expect(judgeNoLoadAc(job({ "no-load-ab": 60 })).reason).toMatch(/Not every pair was read/);
    expect(judgeNoLoadAc(new Map())).toMatchObject({ state: "not read", reason: "No-load AC was not read." });
    expect(judgeNoLoadAc(job(pairs("no-load", [0, 0, 0]))).balance).toBeUndefined();
  });
});

describe("winding resistance of a job", () => {
  const DATA = { "stator-ohms-min": 0.4, "stator-ohms-max": 0.6, "stator-ohms-temp": 20 };
  it("three 0.3 Ω on a 0.1 Ω meter are unsure, not pass", () => {
    const judged = judgeWindingOhms(
      job({
        ...pairs("winding", [0.3, 0.3, 0.3]),
        "meter-leads": 0.1,
        "stator-temperature": 20,
        "meter-ohm-step": 0.1,
        "stator-ohms-min": 0.1,
        "stator-ohms-max": 0.3,
      }),
    );
    expect(judged.state).toBe("unsure");
    expect(judged.balance!.unbalance).toBe(0);
    expect(judged.balance!.resolves).toBeGreaterThan(0.5);
    expect(judged.atReference).toEqual([expect.closeTo(0.2, 12), expect.closeTo(0.2, 12), expect.closeTo(0.2, 12)]);
  });
  it("a milliohm meter passes what a coarse one leaves unsure", () => {
    const fine = { "meter-ohm-step": 0.001, "meter-leads": 0.002, "stator-temperature": 20, ...DATA };
    expect(judgeWindingOhms(job({ ...fine, ...pairs("winding", [0.502, 0.503, 0.502]) })).state).toBe("pass");
    expect(judgeWindingOhms(job({ ...fine, "meter-ohm-step": 0.1, ...pairs("winding", [0.5, 0.5, 0.5]) })).state).toBe(
      "unsure",
    );
    expect(judgeWindingOhms(job({ ...fine, ...pairs("winding", [0.502, 0.45, 0.502]) })).state).toBe("fail");
  });
  it("the machine's figure is referred to the stator's temperature, leads on top", () => {
    const limit = windingLimit(job({ ...DATA, "stator-temperature": 60, "meter-leads": 0.2 }))!;
    const factor = (234.5 + 60) / 254.5;
    expect(limit.low).toBeCloseTo(0.4 * factor + 0.2, 12);
    expect(limit.high).toBeCloseTo(0.6 * factor + 0.2, 12);
    expect(limit.origin.words).toBe("machine's figure 0.4 to 0.6 Ω at 20 °C, stator at 60 °C, leads 0.2 Ω");
    expect(windingLimit(job({}))).toBeUndefined();
    expect(windingLimit(job(DATA))!.u).toBeGreaterThan(0.1);
    expect(windingLimit(job({ "stator-ohms-max": 0.6 }))).not.toHaveProperty("low");
  });
  it("without a figure the level is unsure, the resistances are still shown at 20 °C", () => {
    const judged = judgeWindingOhms(
      job({ ...pairs("winding", [1.2, 1.2, 1.21]), "meter-leads": 0.2, "stator-temperature": 60 }),
    );
    expect(judged.state).toBe("unsure");
    expect(judged.atReference[0]).toBeCloseTo((1.0 * 254.5) / 294.5, 12);
  });
  it("the finest digit shows the step of an unknown meter", () => {
    const at = (one: number) =>
      judgeWindingOhms(job({ ...pairs("winding", [one, 0.3, 0.3]), "meter-leads": 0 })).balance!.resolves;
    expect(at(0.3)).toBeGreaterThan(3 * at(0.31));
  });
  it("over-range between two terminals is a break", () => {
    const judged = judgeWindingOhms(job(pairs("winding", ["OL", 0.7, "OL"])));
    expect(judged.state).toBe("fail");
    expect(judged.reason).toBe("Winding resistance: Terminal A has no path to the others: winding or lead A is open.");
    expect(judged.atReference[0]).toBe("OL");
    expect(judged.balance).toBeUndefined();
    expect(judgeWindingOhms(new Map([["winding-ab", { kind: "above", value: 2e7 } as Measured]])).state).toBe("fail");
    expect(judgeWindingOhms(job({ "winding-ab": 5e6 })).state).toBe("fail");
  });
  it("nothing read is not read; some read says that not all were", () => {
    expect(judgeWindingOhms(new Map())).toMatchObject({
      state: "not read",
      reason: "Winding resistance was not read.",
    });
    expect(judgeWindingOhms(job({ "winding-ab": 0.6 })).reason).toMatch(/Not every pair was read/);
  });
});

describe("ground and insulation of a job", () => {
  it.each([
    [{ "ground-a": "OL" }, "pass"],
    [{ "ground-a": 8e6, "ground-b": "OL", "ground-c": "OL" }, "pass"],
    [{ "ground-a": 3e6 }, "unsure"],
    [{ "ground-a": "OL", "ground-b": 10.6, "ground-c": "OL" }, "fail"],
    [{ "ground-a": 0 }, "fail"],
    [{}, "not read"],
  ] as const)("winding to ground %p: %s", (values, state) =>
    expect(judgeGround(job(values as Record<string, Typed>)).state).toBe(state),
  );
  it("insulation is judged at its own temperature, leniently where that is not known", () => {
    const at = (megohms: Typed, temperature?: number) =>
      judgeInsulation(
        job({ insulation: megohms, ...(temperature === undefined ? {} : { "insulation-temperature": temperature }) }),
      ).state;
    expect([at(30, 20), at(12, 20), at("OL", 20), at(100), at(12), at(3)]).toEqual([
      "pass",
      "fail",
      "pass",
      "pass",
      "unsure",
      "fail",
    ]);
    expect(judgeInsulation(new Map()).state).toBe("not read");
  });
});

describe("simulated jobs, whose faults are known", () => {
  interface Simulated {
    readonly caseId: string;
    readonly truth: { readonly faultId: string; readonly faultComponent: string };
  }
  const file = JSON.parse(readFileSync(path.resolve(__dirname, "../../jobs/simulated-jobs.json"), "utf8")) as {
    cases: Simulated[];
  };
  const read = jobsFromFile(file);
  const jobs = new Map(read.ok ? read.value.map((one) => [one.id, one.job]) : []);
  const AT_THE_STATOR = ["stator_turns_shorted", "stator_phase_open", "stator_ground_leak", "high_resistance_phase"];

  it("a winding resistance fails only where the stator side is at fault", () => {
    const failed = file.cases.filter(({ caseId }) => judgeWindingOhms(jobs.get(caseId)!).state === "fail");
    expect(failed.length).toBeGreaterThanOrEqual(6);
    for (const { truth } of failed) expect(AT_THE_STATOR).toContain(truth.faultId);
  });
  it("no-load AC fails only for stator and rotor, and its balance never fails a good stator", () => {
    const failed = file.cases.filter(({ caseId }) => judgeNoLoadAc(jobs.get(caseId)!).state === "fail");
    expect(failed.length).toBeGreaterThanOrEqual(8);
    for (const { truth } of failed) expect(["stator", "rotor"]).toContain(truth.faultComponent);
    const balanced = file.cases
      .filter(({ truth }) => !AT_THE_STATOR.includes(truth.faultId))
      .flatMap(({ caseId }) => judgeNoLoadAc(jobs.get(caseId)!).balance ?? []);
    expect(balanced.length).toBeGreaterThan(60);
    for (const { judged } of balanced) expect(judged.state).toBe("pass");
  });
  it("every ground leak that was read fails", () => {
    const leaks = file.cases.filter(
      ({ caseId, truth }) =>
        truth.faultId === "stator_ground_leak" && judgeGround(jobs.get(caseId)!).state !== "not read",
    );
    expect(leaks.length).toBeGreaterThanOrEqual(2);
    for (const { caseId } of leaks) expect(judgeGround(jobs.get(caseId)!).state).toBe("fail");
  });
});
