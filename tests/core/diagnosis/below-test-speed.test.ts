import type { Cell } from "../../../src/core/cell";
import { explain } from "../../../src/core/diagnosis/why";
import { judgeReading } from "../../../src/core/limits/judge-reading";
import { jobOf, MACHINE_IN_ORDER } from "./jobs";

const REST = { "rested-voltage": 12.6 };
const answer = (values: Readonly<Record<string, Cell>>) => explain(jobOf({ ...REST, ...values }))!;
const healthy = (values: Readonly<Record<string, Cell>>) =>
  answer(values).diagnosis.faults.find((f) => f.fault === "healthy")!.chance;
/** The same machine with and without its plate. */
const MACHINES: readonly (readonly [string, Readonly<Record<string, Cell>>])[] = [
  ["rated at 5000 rpm", MACHINE_IN_ORDER],
  ["of which nothing is known", {}],
];

// Common practice: running voltage is read from about 2000 rpm up; at idle it depends on the load.
describe.each(MACHINES)("a running voltage read near idle, on a machine %s", (_name, machine) => {
  const slow = { ...machine, "test-rpm": 1500, "test-voltage": 12.9 };

  it("speaks against the charging parts no more than one at idle does", () => {
    const fast = healthy({ ...slow, "test-rpm": 5000 });
    expect(healthy(slow)).toBeGreaterThan(2.5 * fast);
    const idle = { ...machine, "idle-rpm": 1500, "idle-voltage": 12.9 };
    expect(healthy(slow)).toBeCloseTo(healthy(idle), 9);
  });

  it("is named with the speed from which on it is judged, and asked for again", () => {
    const { diagnosis, nextChecks } = answer(slow);
    expect(diagnosis.contradictions.map((c) => [c.kind, c.readings])).toEqual([
      ["taken too early", ["test-voltage", "test-rpm"]],
    ]);
    expect(diagnosis.contradictions[0]!.words).toContain("raise the speed and read again");
    expect(nextChecks.map((c) => c.check)).toContain("running-test");
  });

  it("fails no limit for being low, and does so for being high", () => {
    const judged = (values: Readonly<Record<string, Cell>>) =>
      judgeReading("test-voltage", jobOf({ ...REST, ...slow, ...values }));
    expect(judged({})).toMatchObject({ state: "unsure", reason: expect.stringContaining("raise the speed") });
    expect(judged({ "test-rpm": 5000 }).state).toBe("fail");
    expect(judged({ "test-voltage": 16.2 }).state).toBe("fail");
    const amps = { ...REST, ...slow, "battery-current": -3 };
    expect(judgeReading("battery-current", jobOf(amps)).state).not.toBe("fail");
  });

  it("above the limit is an overcharge at any speed", () => {
    const { verdict, findings, contradictions } = answer({ ...slow, "test-voltage": 16.2 }).diagnosis;
    expect(verdict.part).toBe("regulator-rectifier");
    expect([...findings]).toContain("over-voltage");
    expect(contradictions).toEqual([]);
  });
});

it("the speed of a slow or fast machine is its own", () => {
  const tooSlow = (rated: number, rpm: number) =>
    answer({ "rated-output-rpm": rated, "test-rpm": rpm, "test-voltage": 12.4 }).diagnosis.contradictions.length > 0;
  expect([1700, 1900].map((rpm) => tooSlow(3600, rpm))).toEqual([true, false]);
  expect([1900, 2100].map((rpm) => tooSlow(5000, rpm))).toEqual([true, false]);
  expect([2900, 3300].map((rpm) => tooSlow(8000, rpm))).toEqual([true, false]);
});

it("an idle voltage that was read as well stays what it is", () => {
  const both = { "idle-rpm": 1300, "idle-voltage": 12.5, "test-rpm": 1600, "test-voltage": 12.9 };
  expect(healthy(both)).toBeCloseTo(healthy({ "idle-rpm": 1300, "idle-voltage": 12.5 }), 9);
});
