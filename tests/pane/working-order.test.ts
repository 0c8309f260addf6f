import type { Judged } from "../../src/core/judgement/types";
import { CHECKS } from "../../src/core/readings/checks";
import { STAGES, type Job, type Measured } from "../../src/core/readings/types";
import { checksInOrder, drawnMachine, stagesOf } from "../../src/pane/working-order";

const choice = (value: string): Measured => ({ kind: "choice", value });
const number = (value: number): Measured => ({ kind: "number", value });
const job = (readings: Record<string, Measured>): Job => new Map(Object.entries(readings));
const judged = (states: Record<string, Judged["state"]>) =>
  new Map(Object.entries(states).map(([id, state]) => [id, { state, reason: "" } as Judged]));

describe("the checks in working order", () => {
  it("keeps the order of the catalogue and the stages", () => {
    const all = checksInOrder(job({}), new Map());
    expect(all.map((progress) => progress.check.id)).toEqual(CHECKS.map((check) => check.id));
    const stages = stagesOf(all).map((group) => group.stage);
    expect(stages).toEqual(STAGES.filter((stage) => stages.includes(stage)));
  });

  it("counts what was read, and the gravest state stands for the check", () => {
    const readings = job({ "test-rpm": number(5000), "test-voltage": number(12.4) });
    const running = checksInOrder(
      readings,
      judged({ "test-rpm": "pass", "test-voltage": "fail", "battery-current": "not read" }),
    ).find((progress) => progress.check.id === "running-test")!;
    expect(running).toMatchObject({ read: 2, state: "fail" });
    expect(running.entries.length).toBe(4);
  });

  it("nothing read is not read, never a pass", () => {
    expect(checksInOrder(job({}), judged({})).every((progress) => progress.state === "not read")).toBe(true);
  });

  it("a single-phase machine has one pair and four devices; what was read anyway stays visible", () => {
    const single = job({ "alternator-kind": choice("single-phase"), "winding-bc": number(0.4) });
    const ids = (check: string) =>
      checksInOrder(single, new Map())
        .find((progress) => progress.check.id === check)!
        .entries.map((entry) => entry.id);
    expect(ids("no-load-ac")).toEqual(["no-load-rpm", "no-load-ab", "no-load-rpm-2", "no-load-2-ab"]);
    expect(ids("winding-ohms")).toContain("winding-bc");
    expect(ids("diode-check").length).toBe(8);
    expect(drawnMachine(single).phases).toEqual(["a", "b"]);
  });

  it("gravities are for batteries with caps, the field winding for field-excited alternators", () => {
    const applies = (readings: Record<string, Measured>, check: string) =>
      checksInOrder(job(readings), new Map()).find((progress) => progress.check.id === check)!.applies;
    expect(applies({ "battery-type": choice("agm") }, "cell-gravities")).toBe(false);
    expect(applies({ "battery-type": choice("agm"), "gravity-1": number(1.26) }, "cell-gravities")).toBe(true);
    expect(applies({ "battery-type": choice("flooded") }, "cell-gravities")).toBe(true);
    expect(applies({}, "cell-gravities")).toBe(true);
    expect(applies({}, "rotor")).toBe(false);
    expect(applies({ "alternator-kind": choice("field-excited") }, "rotor")).toBe(true);
  });
});
