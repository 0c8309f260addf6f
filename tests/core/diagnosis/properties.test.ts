import { readFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import { diagnose } from "../../../src/core/diagnosis/diagnose";
import { frameOf } from "../../../src/core/diagnosis/frame";
import { HYPOTHESES } from "../../../src/core/diagnosis/hypotheses";
import { logLikelihoods, posterior, situationIn } from "../../../src/core/diagnosis/posterior";
import { jobsFromFile } from "../../../src/core/readings/from-job-file";
import type { Job } from "../../../src/core/readings/types";
import { jobOf, MACHINE_IN_ORDER, READINGS_IN_ORDER } from "./jobs";

const SEED = 20261125;
const ALL = { ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER };
const subset = fc.subarray(Object.keys(ALL), { minLength: 1 });
const pick = (ids: readonly string[]) => jobOf(Object.fromEntries(ids.map((id) => [id, ALL[id]])));
const chances = (job: ReturnType<typeof jobOf>) => diagnose(job)?.faults.map((f) => [f.fault, f.chance] as const);

function likelihoods(job: Job): Float64Array {
  const frame = frameOf(job);
  return logLikelihoods(job, frame, [], situationIn(job, frame));
}

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
  it("a reading that was not taken changes nothing, left out or blank", () => {
    fc.assert(
      fc.property(subset, (ids) => {
        const blanks = Object.fromEntries(Object.keys(ALL).map((id) => [id, ids.includes(id) ? ALL[id]! : null]));
        expect(chances(jobOf(blanks))).toEqual(chances(pick(ids)));
      }),
      { seed: SEED, numRuns: 50 },
    );
  });
  it("a reading moves the odds of two causes by how much better one foretells it, whatever one started from", () => {
    const start = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), {
      minLength: HYPOTHESES.length,
      maxLength: HYPOTHESES.length,
    });
    fc.assert(
      fc.property(subset, fc.constantFrom(...Object.keys(READINGS_IN_ORDER)), start, (ids, added, weights) => {
        const before = pick(ids.filter((id) => id !== added));
        const after = pick([...ids.filter((id) => id !== added), added]);
        const logs = Float64Array.from(weights, Math.log);
        const [was, is] = [posterior(before, logs), posterior(after, logs)];
        const [told, tells] = [likelihoods(before), likelihoods(after)];
        const gain = (i: number) => tells[i]! - told[i]!;
        for (let i = 1; i < HYPOTHESES.length; i++) {
          if (Math.min(was[0]!, was[i]!, is[0]!, is[i]!) < 1e-200) continue;
          const moved = Math.log(is[i]! / is[0]!) - Math.log(was[i]! / was[0]!);
          expect(moved).toBeCloseTo(gain(i) - gain(0), 6);
        }
      }),
      { seed: SEED, numRuns: 30 },
    );
  });
  it("the more current is drawn with the key off, the likelier a drain; the more ohms to ground, the less a leak", () => {
    const chanceOf = (changes: Readonly<Record<string, number>>, part: string) =>
      diagnose(jobOf({ ...ALL, ...changes }))!.parts.find((p) => p.part === part)!.chance;
    const rising = [0.5, 2, 6, 10, 14, 25, 60, 200, 900].map((mA) => chanceOf({ "key-off-draw": mA }, "load"));
    const falling = [2, 30, 400, 6000, 9e4, 1.2e6, 2e7].map((ohms) => chanceOf({ "ground-a": ohms }, "stator"));
    for (let i = 1; i < rising.length; i++) expect(rising[i]).toBeGreaterThanOrEqual(rising[i - 1]! - 1e-9);
    for (let i = 1; i < falling.length; i++) expect(falling[i]).toBeLessThanOrEqual(falling[i - 1]! + 1e-9);
  });
  it("what a job file says of the true fault is never looked at: gone or false, the answer stays", () => {
    const file = path.join(__dirname, "../../jobs/simulated-jobs.json");
    const cases = (JSON.parse(readFileSync(file, "utf8")) as { cases: Record<string, unknown>[] }).cases;
    const answers = (list: readonly unknown[]) => {
      const read = jobsFromFile(list);
      return read.ok ? read.value.map(({ job }) => diagnose(job)?.faults) : [];
    };
    const told = answers(cases);
    expect(told).toHaveLength(120);
    expect(answers(cases.map(({ truth: _truth, ...rest }) => rest))).toEqual(told);
    expect(answers(cases.map((c, i) => ({ ...c, truth: cases[(i + 7) % cases.length]!["truth"] })))).toEqual(told);
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
