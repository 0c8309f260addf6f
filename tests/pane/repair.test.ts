import { readFileSync } from "node:fs";
import path from "node:path";
import { diagnose } from "../../src/core/diagnosis/diagnose";
import { jobsFromFile } from "../../src/core/readings/from-job-file";
import type { Job } from "../../src/core/readings/types";
import { limitOptions, type AssessOptions } from "../../src/pane/assess";
import type { OpenJob } from "../../src/pane/open-job";
import { repairOf } from "../../src/pane/repair";
import { returnCheck } from "../../src/workbook/return-check";

const file = path.join(__dirname, "../jobs/simulated-jobs.json");
const read = jobsFromFile(JSON.parse(readFileSync(file, "utf8")));
if (!read.ok) throw new Error("The simulated jobs cannot be read.");
const JOBS = read.value;
const OPTIONS: AssessOptions = { knownGood: [], rule: "guarded", meter: {} };

/** A job's sheet as far as readings before and after the repair go. */
const sheet = (before: Job, after: Job) => ({ before: { job: before }, after: { job: after } }) as OpenJob;

/** What a machine in order reads, of the checks that a job had and of the battery and running ones. */
const SOUND = {
  "rested-voltage": 12.8,
  "test-rpm": 5000,
  "test-voltage": 14.3,
  "battery-current": 3,
} as const;
const sound: Job = new Map(Object.entries(SOUND).map(([id, value]) => [id, { kind: "number", value }]));

it("the proof after the repair and the answer for a part that comes back are one judgement, on all simulated jobs", () => {
  expect(JOBS).toHaveLength(120);
  const outcomes = new Set<string>();
  JOBS.forEach(({ job: before }, i) => {
    const verdict = diagnose(before)?.verdict;
    if (verdict === undefined || verdict.part === "none") return;
    // By turns nothing repaired, another machine's readings, and those of one that charges as it should.
    const after = [before, JOBS[(i * 7 + 3) % JOBS.length]!.job, sound][i % 3]!;
    const proof = repairOf(sheet(before, after), OPTIONS)!;
    const answer = returnCheck({ before, after, quotes: [] }, verdict.part, limitOptions(OPTIONS));
    expect(answer.after).toEqual({ outcome: proof.outcome, sentence: proof.sentence });
    expect(answer.kind === "repaired").toBe(verdict.state === "faulty" && proof.outcome === "repaired");
    outcomes.add(proof.outcome);
  });
  expect([...outcomes].sort()).toEqual(["not repaired", "repaired", "something new", "unproven"]);
});

it("readings that showed the fault, taken once more as they were, prove no repair", () => {
  const wrong = JOBS.filter(({ job }) => repairOf(sheet(job, job), OPTIONS)?.outcome === "repaired");
  expect(wrong.map(({ id }) => id)).toEqual([]);
});

it("goes by the rule that the user set", () => {
  const before: Job = new Map([
    ["key-off-limit", { kind: "number", value: 3 }],
    ["key-off-draw", { kind: "number", value: 60 }],
  ]);
  // Just above what is allowed: certain enough for one in two, not for nineteen in twenty.
  const after: Job = new Map([...sound, ["key-off-draw", { kind: "number", value: 3.01 }]]);
  const sentence = (rule: AssessOptions["rule"]) => repairOf(sheet(before, after), { ...OPTIONS, rule })!.sentence;
  expect(sentence("simple")).toBe("Not repaired: still outside the limit (Key-off draw).");
  expect(sentence("guarded")).toMatch(/^Not proven yet: the chance of a fault in the load/u);
});
