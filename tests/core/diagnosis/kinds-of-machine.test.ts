import { systemFromMachine } from "../../../src/core/circuit/machine-from-job";
import { explain } from "../../../src/core/diagnosis/why";
import { judgeReading } from "../../../src/core/limits/judge-reading";
import { jobOf } from "./jobs";

const answer = (values: Parameters<typeof jobOf>[0]) => explain(jobOf(values))!;
const chanceOf = (values: Parameters<typeof jobOf>[0], fault: RegExp) =>
  answer(values)
    .diagnosis.faults.filter((f) => fault.test(f.fault))
    .reduce((sum, f) => sum + f.chance, 0);
const wordsOf = (values: Parameters<typeof jobOf>[0]) => {
  const { diagnosis, evidence, nextChecks } = answer(values);
  const said = evidence.flatMap((e) => [...e.for, ...e.against].map((i) => i.words));
  return [diagnosis.verdict.sentence, ...said, ...nextChecks.map((c) => c.why)].join("\n");
};
/** Words that compare pairs or phases with each other. */
const SISTERS = /pairs|three|uneven|one phase|all phases alike|even\b/u;

const TRACTOR = { "alternator-kind": "single-phase", "battery-type": "flooded", "rated-output": 210 };

describe("a single-phase machine", () => {
  // Common practice: a 15 A system of a garden tractor gives 28 V AC or more at 3600 rpm, unplugged.
  it("[common practice, 28 V at 3600 rpm] gives full AC of a size that would be weak on three phases", () => {
    const read = { "no-load-rpm": 3600, "no-load-ab": 29 };
    expect(chanceOf({ ...TRACTOR, ...read }, /rotor/u)).toBeLessThan(0.1);
    expect(chanceOf({ ...TRACTOR, ...read, "alternator-kind": "three-phase" }, /rotor/u)).toBeGreaterThan(0.5);
  });

  it("is spoken of without sisters to its one pair", () => {
    for (const ac of [29, 14, 0.3]) {
      const read = { "rested-voltage": 12.3, "test-rpm": 3400, "test-voltage": 12.2, "no-load-ab": ac };
      expect(wordsOf({ ...TRACTOR, ...read, "no-load-rpm": 3400 })).not.toMatch(SISTERS);
    }
  });

  it("is not asked for a comparison of phases under load", () => {
    const checks = answer({ ...TRACTOR, "rested-voltage": 12.3, "test-voltage": 12.2 }).nextChecks.map((c) => c.check);
    expect(checks).not.toContain("loaded-ac");
    expect(checks).toContain("winding-ohms");
  });

  it("shows a weak rotor only once its winding is whole: one low pair may be short of turns as well", () => {
    const figure = {
      "no-load-nominal": 30,
      "no-load-nominal-rpm": 3600,
      "stator-ohms-min": 0.3,
      "stator-ohms-max": 0.4,
    };
    const low = { ...TRACTOR, ...figure, "no-load-rpm": 3600, "no-load-ab": 15, "meter-leads": 0.1 };
    const rotor = (values: Parameters<typeof jobOf>[0]) =>
      answer(values).diagnosis.parts.find((p) => p.part === "rotor")!.state;
    expect(rotor(low)).not.toBe("faulty");
    expect(rotor({ ...low, "winding-ab": 0.45, "meter-ohm-step": 0.01 })).toBe("faulty");
  });
});

describe("a half-wave machine without a regulator", () => {
  const MOWER = { "alternator-kind": "half-wave", "regulator-kind": "none", "battery-type": "flooded" };

  it("charges below any regulated band and is not blamed for it", () => {
    const read = { "rested-voltage": 12.5, "test-rpm": 3400, "test-voltage": 12.9, "battery-current": 1.5 };
    const { verdict } = answer({ ...MOWER, ...read }).diagnosis;
    expect(verdict.part).toBe("none");
    expect(verdict.sentence).not.toMatch(/something is wrong/u);
    expect(chanceOf({ ...MOWER, ...read }, /^regulator-(?!leaks)/u)).toBeLessThan(0.01);
  });

  it("fails no limit for staying below a band that it does not have, and passes none", () => {
    const read = { ...MOWER, "test-rpm": 3400, "test-voltage": 12.9, "idle-voltage": 12.6 };
    for (const id of ["test-voltage", "idle-voltage"])
      expect(judgeReading(id, jobOf(read))).toMatchObject({
        state: "unsure",
        reason: expect.stringContaining("without a regulator"),
      });
    expect(judgeReading("test-voltage", jobOf({ ...read, "regulator-kind": "shunt" })).state).toBe("fail");
    expect(judgeReading("test-voltage", jobOf({ ...read, "test-voltage": 16.2 })).state).toBe("fail");
  });

  // Common practice: a 3 A charging coil of a small engine gives 14 V AC or more at 3600 rpm, unplugged.
  it("[common practice, 14 V at 3600 rpm] gives full AC of a size that would be weak on a full-wave machine", () => {
    const read = { "no-load-rpm": 3600, "no-load-ab": 15 };
    expect(chanceOf({ ...MOWER, ...read }, /rotor/u)).toBeLessThan(0.15);
    expect(chanceOf({ ...MOWER, ...read, "alternator-kind": "single-phase" }, /rotor/u)).toBeGreaterThan(0.15);
    expect(chanceOf({ ...MOWER, ...read, "no-load-ab": 6 }, /rotor/u)).toBeGreaterThan(0.5);
  });

  it("that lifts the battery not at all has something wrong", () => {
    const read = { "rested-voltage": 12.5, "test-rpm": 3400, "test-voltage": 12.3 };
    expect(chanceOf({ ...MOWER, ...read }, /^healthy$/u)).toBeLessThan(0.03);
  });

  it("ends on the iron by design: its own ohms to ground condemn nothing", () => {
    const read = { "rested-voltage": 12.5, "test-voltage": 12.3, "ground-a": 0.4, insulation: 0 };
    expect(chanceOf({ ...MOWER, ...read }, /stator-ground-leak/u)).toBeLessThan(0.01);
    for (const id of ["ground-a", "insulation"])
      expect(judgeReading(id, jobOf({ ...MOWER, ...read }))).toMatchObject({
        state: "unsure",
        reason: expect.stringContaining("by design"),
      });
    const checks = answer({ ...MOWER, "rested-voltage": 12.5 }).nextChecks.map((c) => c.check);
    expect(checks).not.toContain("winding-to-ground");
  });
});

describe("a field-excited machine", () => {
  const WOUND = { "alternator-kind": "field-excited", "battery-type": "flooded", "rated-output": 560 };
  const FLAT = { ...WOUND, "rested-voltage": 12, "test-rpm": 3000, "test-voltage": 11.9 };

  // Common practice: 2 to 6 Ω, open above 50 Ω.
  it("[common practice] has a faulty rotor where the field winding is open, and is asked for it", () => {
    expect(answer(FLAT).nextChecks.map((c) => c.check)).toContain("rotor");
    expect(answer({ ...FLAT, "field-ohms": "OL" }).diagnosis.verdict).toMatchObject({ part: "rotor", state: "faulty" });
    expect(chanceOf({ ...FLAT, "field-ohms": 4 }, /rotor/u)).toBeLessThan(chanceOf(FLAT, /rotor/u));
  });

  it("has no shunt devices that could short its phases", () => {
    expect(chanceOf(FLAT, /regulator-shunt/u)).toBeLessThan(0.01);
  });
});

describe("a 6 V machine without a figure", () => {
  it("gives half the AC that a 12 V machine gives", () => {
    const read = { "no-load-rpm": 3000, "no-load-ab": 28, "no-load-bc": 28.2, "no-load-ca": 27.9 };
    expect(chanceOf({ "battery-nominal": 6, ...read }, /rotor/u)).toBeLessThan(0.15);
  });
});

describe("an alternator of another kind, such as a DC generator with a cut-out", () => {
  const OLD = { "alternator-kind": "dynamo", "battery-type": "flooded", "battery-nominal": 6 };
  const RUN = { "rested-voltage": 6.2, "test-rpm": 3000, "test-voltage": 6.1, "no-load-ab": 0.2, "winding-ab": 0.1 };

  it("is told that what makes the current is not weighed, and blames no part of it", () => {
    const { diagnosis, nextChecks } = answer({ ...OLD, ...RUN });
    expect(diagnosis.contradictions).toMatchObject([
      { kind: "machine data", setAside: ["test-rpm", "test-voltage", "no-load-ab", "winding-ab"] },
    ]);
    for (const part of ["regulator-rectifier", "stator", "rotor"] as const)
      expect(diagnosis.parts.find((p) => p.part === part)).toMatchObject({ state: "unproven" });
    expect(chanceOf({ ...OLD, ...RUN }, /regulator|diode|stator|rotor|phase/u)).toBeLessThan(0.01);
    expect(nextChecks.map((c) => c.check).sort()).toEqual(
      ["cranking", "key-off-draw", "key-on-load", "load-test", "voltage-drops"].sort(),
    );
    expect(diagnosis.verdict).toMatchObject({ part: "none", state: "unproven" });
  });

  it("has its battery, draw and runs judged as any other", () => {
    expect(answer({ ...OLD, ...RUN, "key-off-draw": 90 }).diagnosis.verdict).toMatchObject({ part: "load" });
    const drops = { "ground-drop": 0.9, "bplus-drop": 0.05, "drop-current": 9 };
    expect(answer({ ...OLD, ...RUN, ...drops }).diagnosis.verdict).toMatchObject({ part: "wiring", state: "faulty" });
  });

  it("is never called in order: its generator was not looked at", () => {
    const good = { "rested-voltage": 6.35, "key-off-draw": 0.2, "key-on-load": 6, "cranking-voltage": 5.3 };
    const { verdict } = answer({ ...OLD, ...good, "bplus-drop": 0.05, "ground-drop": 0.03 }).diagnosis;
    expect(verdict.state).toBe("unproven");
  });

  it("is solved for no curve", () => {
    expect(systemFromMachine(jobOf(OLD)).ok).toBe(false);
  });
});
