import { judgeJob, judgeReading } from "../../../src/core/limits/judge-reading";
import { entryOf } from "../../../src/core/readings/catalogue";
import { parseEntry } from "../../../src/core/readings/parse";
import type { Job } from "../../../src/core/readings/types";

type Values = Readonly<Record<string, string | number>>;
function job(values: Values): Job {
  return new Map(
    Object.entries(values).map(([id, cell]) => {
      const parsed = parseEntry(cell, entryOf(id)!);
      if (!parsed.ok || parsed.value === null) throw new Error(`${id}: ${String(cell)}`);
      return [id, parsed.value];
    }),
  );
}
const ROWS = ["upper-forward", "lower-forward", "upper-reverse", "lower-reverse"] as const;
/** Four rows, three phases each. */
function block(...rows: readonly (readonly [string | number, string | number, string | number])[]): Values {
  return Object.fromEntries(rows.flatMap((row, r) => row.map((cell, p) => [`${ROWS[r]}-${"abc"[p]}`, cell])));
}
const OL = ["OL", "OL", "OL"] as const;
const plain = block([0.5, 0.51, 0.5], [0.49, 0.5, 0.5], OL, OL);
const parallel = block([0.11, 0.12, 0.11], [0.5, 0.5, 0.51], OL, OL);
const diodes = (values: Values, options = {}) =>
  [...judgeJob(job(values), options)].filter(([id]) => /^(?:upper|lower)-/u.test(id));

describe("diode check, reading by reading", () => {
  it("plain diodes read as plain diodes should: each passes, with the band and its source", () => {
    for (const [, judged] of diodes({ ...plain, "bridge-kind": "plain diodes" })) {
      expect(judged).toMatchObject({
        state: "pass",
        limit: { origin: { from: "published", source: "diode-check-band" } },
      });
    }
    expect(judgeReading("upper-forward-a", job({ ...plain, "bridge-kind": "plain diodes" })).limit).toMatchObject({
      low: 0.4,
      high: 0.9,
    });
  });
  it("a bank near 0.1 V: passes for its kind, passes against a known-good part, is unsure with neither, never fails", () => {
    expect(diodes({ ...parallel, "bridge-kind": "parallel path" }).map(([, j]) => j.state)).toEqual(
      Array(12).fill("pass"),
    );
    const good = job(block([0.12, 0.12, 0.11], [0.5, 0.51, 0.5], OL, OL));
    const known = diodes(parallel, { knownGood: [good] });
    expect(known.map(([, j]) => j.state)).toEqual(Array(12).fill("pass"));
    expect(known[0]![1].limit!.origin).toMatchObject({ from: "known-good parts", count: 1 });
    const bare = diodes(parallel).map(([, j]) => j.state);
    expect(bare).not.toContain("fail");
    expect(bare.slice(0, 3)).toEqual(["unsure", "unsure", "unsure"]);
  });
  it("a part that is itself shorted is no known-good part", () => {
    const bad = job(block([0.001, 0.001, 0.001], [0.5, 0.5, 0.5], [0.001, 0.001, 0.001], OL));
    expect(diodes(plain, { knownGood: [bad] })[0]![1].limit).toBeUndefined();
    const good = job(block([0.5, 0.5, 0.5], [0.5, 0.5, 0.5], OL, OL));
    const limit = diodes(plain, { knownGood: [bad, good] })[0]![1].limit!;
    expect(limit.origin).toMatchObject({ from: "known-good parts", count: 1 });
    expect(limit.low).toBeGreaterThan(0.4);
  });
  it("a short both ways fails whatever is inside; its sisters do not", () => {
    const shorted = { ...plain, "upper-forward-b": 0.001, "upper-reverse-b": 0.002 };
    for (const kind of [{}, { "bridge-kind": "plain diodes" }]) {
      const states = new Map(diodes({ ...shorted, ...kind }).map(([id, j]) => [id, j.state]));
      expect([states.get("upper-forward-b"), states.get("upper-reverse-b")]).toEqual(["fail", "fail"]);
      expect(judgeReading("upper-forward-b", job({ ...shorted, ...kind })).chance).toBe(0);
      expect(judgeReading("lower-forward-b", job({ ...plain, "bridge-kind": "plain diodes" })).chance).toBe(1);
      expect(states.get("upper-forward-a")).not.toBe("fail");
    }
  });
  it("an open device fails forward and not in reverse", () => {
    const open = { ...plain, "lower-forward-c": "OL", "bridge-kind": "plain diodes" };
    expect(judgeReading("lower-forward-c", job(open)).state).toBe("fail");
    expect(judgeReading("lower-reverse-c", job(open)).state).toBe("pass");
  });
  it("swapped leads are said and judged the right way round", () => {
    const turned = block(OL, OL, [0.5, 0.51, 0.5], [0.49, 0.5, 0.5]);
    const judged = judgeReading("upper-forward-a", job({ ...turned, "bridge-kind": "plain diodes" }));
    expect(judged).toMatchObject({ state: "pass", reason: expect.stringMatching(/red and black swapped/) });
    expect(judgeReading("upper-reverse-a", job({ ...turned, "bridge-kind": "plain diodes" })).limit).toMatchObject({
      low: 0.4,
      high: 0.9,
    });
  });
  it("every reading near zero is a meter or lead question, not twelve failures", () => {
    const touching = block([0.001, 0.001, 0.001], [0.001, 0.002, 0.001], [0.001, 0.001, 0.001], [0.001, 0.001, 0.002]);
    const judged = diodes({ ...touching, "bridge-kind": "plain diodes" });
    expect(judged.map(([, j]) => j.state)).not.toContain("fail");
    expect(judged[0]![1].reason).toMatch(/touching leads/);
  });
  it("a single reading alone is unsure without a kind and says why", () => {
    expect(judgeReading("upper-forward-a", job({ "upper-forward-a": 0.5 }))).toMatchObject({
      state: "unsure",
      reason: expect.stringMatching(/circuit inside or a known-good part/),
    });
  });
  it("a single-phase machine has two phases: what stands in the third cannot be used", () => {
    const two = { ...plain, "bridge-kind": "plain diodes", "alternator-kind": "single-phase" };
    expect(judgeReading("upper-forward-b", job(two)).state).toBe("pass");
    expect(judgeReading("upper-forward-c", job(two))).toMatchObject({
      state: "unsure",
      reason: expect.stringMatching(/cannot be used/),
    });
  });
});

describe("B+ to ground, terminals to case", () => {
  it.each<[Values, string, string]>([
    [{ "output-to-ground": "OL", "output-to-ground-swapped": 0.9 }, "output-to-ground", "pass"],
    [{ "output-to-ground": 0.001, "output-to-ground-swapped": 0.001 }, "output-to-ground-swapped", "fail"],
    [{ "output-to-ground": "OL" }, "output-to-ground", "unsure"],
    [{ "case-leakage": "OL" }, "case-leakage", "pass"],
    [{ "case-leakage": "20 kohm" }, "case-leakage", "fail"],
    [{ "case-leakage": 2 }, "case-leakage", "unsure"],
  ])("%j: %s is %s", (values, id, state) => expect(judgeReading(id, job(values)).state).toBe(state));
});
