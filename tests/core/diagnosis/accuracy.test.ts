import path from "node:path";
import { FAULT_IDS } from "../../../src/core/diagnosis/faults";
import { asKnown, knownJobs, minutesOf, scoreOf } from "../../../src/tools/score-diagnoses";
import { makeCase, ONLY_WHEN_ASKED, RANGES, tasksFor } from "../../../src/tools/simulation/make-case";

/** Bounds are the goals; what is reached on a thousand jobs and more stands in DEVELOPERS.md. */
describe("verdicts on the 120 jobs solved with a circuit simulator [ngspice 39, held out]", () => {
  const score = scoreOf(knownJobs(path.join(__dirname, "../../jobs/simulated-jobs.json")));

  it("name the right fault and part as often as asked", () => {
    expect(score.jobs).toBe(120);
    expect(score.rightFaultFirst).toBeGreaterThanOrEqual(0.85);
    expect(score.rightWhereRevealed).toBeGreaterThanOrEqual(0.94);
    expect(score.rightPart).toBeGreaterThanOrEqual(0.9);
    expect(score.brier).toBeLessThanOrEqual(0.2);
  });
  it("call no good part faulty and no faulty part serviceable, and most faulty parts faulty", () => {
    expect(score.jobsWithGoodPartCalledFaulty).toBe(0);
    expect(score.faultyCalledServiceable).toBe(0);
    expect(score.faultyCalledFaulty).toBeGreaterThanOrEqual(0.88);
  });
});

const KEYS = FAULT_IDS.filter((id) => !ONLY_WHEN_ASKED.has(id));
const draw = (ranges: "common" | "small", perFault: number, seed: number, keys: readonly string[], whole = false) =>
  asKnown(tasksFor(keys, perFault, seed, whole).map((task) => makeCase(task, RANGES[ranges]!, whole)));

describe("verdicts on jobs from our own circuit, of machines that nothing is fitted to [seed 41]", () => {
  const jobs = [...draw("common", 2, 41, KEYS), ...draw("small", 1, 41, KEYS)];
  const score = scoreOf(jobs);

  it("name the right fault where a check could reveal it", () => {
    expect(score.jobs).toBeGreaterThanOrEqual(55);
    expect(score.rightFaultFirst).toBeGreaterThanOrEqual(0.8);
    expect(score.rightWhereRevealed).toBeGreaterThanOrEqual(0.9);
  });
  it("call no good part faulty and no faulty part serviceable", () => {
    expect(score.jobsWithGoodPartCalledFaulty).toBe(0);
    expect(score.faultyCalledServiceable).toBe(0);
  });
  it("come with less than half of the work of the whole sheet where the next check is followed", () => {
    const minutes = minutesOf(draw("common", 1, 43, KEYS, true));
    expect(minutes.guided).toBeLessThan(minutes.whole / 2);
    expect(minutes.guidedRight).toBeGreaterThanOrEqual(0.85);
  });
});

describe("two faults at once [seed 42]", () => {
  const pairs = ["battery-sulfated+diode-shorted", "parasitic-drain+stator-turns-shorted"];
  const rest = ["battery-sulfated+high-resistance-bplus", "high-resistance-phase+stator-turns-shorted"];

  it("one of the two leads, no good part is called faulty and no bad one serviceable", () => {
    const score = scoreOf(draw("common", 3, 42, [...pairs, ...rest]));
    expect(score.jobs).toBe(12);
    expect(score.rightFaultFirst).toBeGreaterThanOrEqual(0.9);
    expect(score.jobsWithGoodPartCalledFaulty).toBe(0);
    expect(score.faultyCalledServiceable).toBe(0);
  });
});

describe("a joint that fails only hot [seed 44]", () => {
  it("condemns no good part, whether or not it shows on the day", () => {
    const jobs = draw("common", 6, 44, ["joint-fails-hot"]);
    const score = scoreOf(jobs);
    expect(score.jobs).toBe(6);
    expect(score.jobsWithGoodPartCalledFaulty).toBe(0);
  });
});
