import fc from "fast-check";
import { diagnose } from "../../../src/core/diagnosis/diagnose";
import { jobOf, MACHINE_IN_ORDER, READINGS_IN_ORDER } from "./jobs";

const SEED = 20261125;
const ALL = { ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER };
const subset = fc.subarray(Object.keys(ALL), { minLength: 1 });
const pick = (ids: readonly string[]) => jobOf(Object.fromEntries(ids.map((id) => [id, ALL[id]])));
const chances = (job: ReturnType<typeof jobOf>) => diagnose(job)?.faults.map((f) => [f.fault, f.chance] as const);

describe("[property] diagnosis", () => {
  it("chances sum to 1 and none is negative, whatever was read", () => {
    fc.assert(
      fc.property(subset, (ids) => {
        const all = chances(pick(ids));
        if (!all) return;
        expect(Math.abs(all.reduce((sum, [, c]) => sum + c, 0) - 1)).toBeLessThan(1e-9);
        expect(all.every(([, c]) => c >= 0)).toBe(true);
      }),
      { seed: SEED, numRuns: 100 },
    );
  });
  it("the order of readings changes nothing", () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(Object.keys(ALL), { minLength: Object.keys(ALL).length }), (ids) => {
        expect(chances(pick(ids))).toEqual(chances(jobOf(ALL)));
      }),
      { seed: SEED, numRuns: 25 },
    );
  });
  it("the same job twice gives the same answer", () => {
    expect(diagnose(jobOf(ALL))).toEqual(diagnose(jobOf(ALL)));
  });
  it("no readings, no verdict: machine data alone says nothing", () => {
    expect(diagnose(new Map())).toBeUndefined();
    expect(diagnose(jobOf(MACHINE_IN_ORDER))).toBeUndefined();
  });
  it("a machine in order: no fault found, every part serviceable", () => {
    const plain = {
      "bridge-kind": "plain diodes",
      ...Object.fromEntries(["a", "b", "c"].map((p) => [`phase-drop-${p}`, 0.06])),
      ...Object.fromEntries(
        ["upper-forward", "lower-forward"].flatMap((b) => ["a", "b", "c"].map((p) => [`${b}-${p}`, 0.51])),
      ),
      ...Object.fromEntries(
        ["upper-reverse", "lower-reverse"].flatMap((b) => ["a", "b", "c"].map((p) => [`${b}-${p}`, "OL"])),
      ),
    };
    const answer = diagnose(jobOf({ ...ALL, ...plain }))!;
    expect(answer.verdict.part).toBe("none");
    expect(answer.parts.map((p) => [p.part, p.state])).toEqual([
      ["battery", "serviceable"],
      ["regulator-rectifier", "serviceable"],
      ["stator", "serviceable"],
      ["rotor", "serviceable"],
      ["wiring", "serviceable"],
      ["load", "serviceable"],
    ]);
  });
});
