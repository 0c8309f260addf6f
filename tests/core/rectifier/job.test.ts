import { readFileSync } from "node:fs";
import path from "node:path";
import { bridgeKindOf, diodeBlockOf, diodeCheckTaken, judgeRectifier } from "../../../src/core/rectifier/job";
import { judgeCaseLeakage, judgeOutputShort } from "../../../src/core/rectifier/output-short";
import { jobsFromFile } from "../../../src/core/readings/from-job-file";
import type { Job, Measured } from "../../../src/core/readings/types";
import { reading, type Written } from "./blocks";

interface Simulated {
  readonly caseId: string;
  readonly truth: { readonly faultId: string; readonly parameters: { readonly bridgeUpperBankType: string } };
}
const file = JSON.parse(readFileSync(path.resolve(__dirname, "../../jobs/simulated-jobs.json"), "utf8")) as
  { cases: Simulated[] } | Simulated[];
const cases = Array.isArray(file) ? file : file.cases;
const read = jobsFromFile(file);
const jobs = new Map(read.ok ? read.value.map(({ id, job }) => [id, job]) : []);
const checked = cases.filter(({ caseId }) => diodeCheckTaken(jobs.get(caseId)!));
const DIODE_FAULTS = ["diode_open", "diode_shorted", "diode_leg_open"];

describe("diode checks of simulated jobs, whose faults are known", () => {
  it("enough of them were taken", () => {
    expect(jobs.size).toBe(120);
    expect(checked.length).toBeGreaterThan(60);
    expect(checked.filter((c) => DIODE_FAULTS.includes(c.truth.faultId)).length).toBeGreaterThan(10);
  });
  it("every faulty device is found, whether or not the kind of circuit is known", () => {
    for (const { caseId, truth } of checked.filter((c) => DIODE_FAULTS.includes(c.truth.faultId))) {
      expect([caseId, judgeRectifier(jobs.get(caseId)!).state]).toEqual([caseId, "faulty"]);
      expect(truth.faultId).not.toBe("");
    }
  });
  it("no unit with good devices is called faulty or suspect; unknown kind with a parallel path is unproven, the rest serviceable", () => {
    for (const { caseId, truth } of checked.filter((c) => !DIODE_FAULTS.includes(c.truth.faultId))) {
      const job = jobs.get(caseId)!;
      const hidden = bridgeKindOf(job) === "unknown" && truth.parameters.bridgeUpperBankType === "gate_parallel";
      expect([caseId, judgeRectifier(job).state]).toEqual([caseId, hidden ? "unproven" : "serviceable"]);
    }
  });
  it("a known-good job of the same circuit settles those that were unproven", () => {
    const open = checked.filter(({ caseId }) => judgeRectifier(jobs.get(caseId)!).state === "unproven");
    expect(open.length).toBeGreaterThan(5);
    for (const { caseId } of open)
      expect(judgeRectifier(jobs.get(caseId)!, { knownGood: [jobs.get(caseId)!] }).state).toBe("serviceable");
  });
  it("hiding the stated kind never turns a good unit faulty", () => {
    for (const { caseId, truth } of checked) {
      const job = new Map(jobs.get(caseId)!);
      job.delete("bridge-kind");
      if (!DIODE_FAULTS.includes(truth.faultId)) expect(judgeRectifier(job).state).not.toBe("faulty");
    }
  });
});

describe("the unplugged unit in a job", () => {
  const volts = (value: number): Measured => ({ kind: "number", value });
  const good = new Map<string, Measured>();
  for (const phase of ["a", "b", "c"]) {
    for (const bank of ["upper", "lower"]) {
      good.set(`${bank}-forward-${phase}`, volts(0.5));
      good.set(`${bank}-reverse-${phase}`, { kind: "overload" });
    }
  }
  const withMore = (more: Record<string, Measured>): Job => new Map([...good, ...Object.entries(more)]);

  it("nothing read: unproven, and it says so", () => {
    expect(judgeRectifier(new Map())).toMatchObject({ state: "unproven", reason: "Nothing was read." });
    expect(diodeCheckTaken(new Map())).toBe(false);
  });
  it("diode check good; B+ shorted to ground counts", () => {
    expect(judgeRectifier(good).state).toBe("serviceable");
    expect(
      judgeRectifier(withMore({ "output-to-ground": volts(0.001), "output-to-ground-swapped": volts(0.002) })).state,
    ).toBe("faulty");
    expect(judgeRectifier(withMore({ "case-leakage": volts(40e3) })).state).toBe("suspect");
    expect(judgeRectifier(withMore({ "case-leakage": { kind: "overload" } })).state).toBe("serviceable");
  });
  it("a small check alone does not make the part serviceable", () => {
    expect(judgeRectifier(new Map([["case-leakage", { kind: "overload" } as Measured]])).state).toBe("unproven");
  });
  it("single-phase machines have two columns", () => {
    const single = withMore({ "alternator-kind": { kind: "choice", value: "single-phase" } });
    expect(diodeBlockOf(single).upperForward).toHaveLength(2);
    expect(judgeRectifier(single).state).toBe("serviceable");
  });
  it("the kind is read from the job, unknown where it is not", () => {
    expect(bridgeKindOf(new Map())).toBe("unknown");
    expect(bridgeKindOf(new Map([["bridge-kind", { kind: "choice", value: "mosfet" } as Measured]]))).toBe("mosfet");
  });
});

describe("B+ to ground and terminals to case", () => {
  it.each<[Written, Written, string]>([
    [0.001, 0.002, "faulty"],
    ["OL", 0.98, "serviceable"],
    [1.6, 1.0, "serviceable"],
    ["OL", "OL", "serviceable"],
    [0.001, 0.9, "suspect"],
    ["OL", 0.002, "suspect"],
    [0.2, 0.25, "suspect"],
    ["OL", 0.2, "unproven"],
    ["OL", null, "unproven"],
    [0.001, null, "suspect"],
    [null, null, "unproven"],
  ])("red on B+ %p, red on ground %p: %s", (plus, ground, state) => {
    const judged = judgeOutputShort(reading(plus), reading(ground));
    expect(judged.state).toBe(state);
    expect(judged.reason).toMatch(/^B\+ to ground reads/);
    expect(judged.next).not.toBe("");
  });
  it.each<[Measured | null, string]>([
    [{ kind: "overload" }, "serviceable"],
    [{ kind: "number", value: 1e6 }, "serviceable"],
    [{ kind: "above", value: 2e7 }, "serviceable"],
    [{ kind: "above", value: 2e5 }, "unproven"],
    [{ kind: "number", value: 999e3 }, "suspect"],
    [{ kind: "number", value: 0.3 }, "unproven"],
    [{ kind: "below", value: 1 }, "unproven"],
    [null, "unproven"],
  ])("lowest terminal to case %p: %s, never faulty by itself", (measured, state) =>
    expect(judgeCaseLeakage(measured).state).toBe(state),
  );
});
