import { expectedRunning } from "../../../src/core/circuit/expected-running";
import { expectationOf } from "../../../src/core/limits/expectation";
import { judgeReading } from "../../../src/core/limits/judge-reading";
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
/** A small machine with a large load: at idle it cannot hold its regulated voltage. */
const machine: Values = {
  "rated-output": 240,
  "rated-output-rpm": 5000,
  "no-load-nominal": 90,
  "no-load-nominal-rpm": 5000,
  "stator-ohms-min": 0.4,
  "stator-ohms-max": 0.6,
  "regulated-min": 13.5,
  "regulated-max": 14.8,
  "lights-load": 14,
  "battery-type": "agm",
  "battery-capacity": 14,
  "rested-voltage": 12.8,
};
const idle = { ...machine, "idle-rpm": 1200 };
const at = (values: Values, id: string, value: number) => judgeReading(id, job({ ...values, [id]: value }));

describe("what physics expects of the running machine", () => {
  const expected = expectedRunning(job(idle), 1200);
  if (!expected.ok) throw new Error("the machine cannot be solved");
  const { volts } = expected.value;

  it("a low idle voltage that physics foretells passes; below what a healthy machine makes it fails", () => {
    expect(volts.low).toBeLessThan(13.3);
    const passes = at(idle, "idle-voltage", Math.max(volts.likely, volts.low + 0.2));
    expect(passes).toMatchObject({ state: "pass", limit: { low: volts.low, origin: { from: "computed" } } });
    expect(passes.reason).toMatch(/what a healthy machine of these data makes at 1200 rpm/);
    expect(at(idle, "idle-voltage", volts.low - 0.4).state).toBe("fail");
    expect(at(idle, "idle-voltage", 15.4).state).toBe("fail");
  });
  it("without rating and output, or without the speed, a low idle voltage is left open", () => {
    const without = (...ids: string[]): Values =>
      Object.fromEntries(Object.entries(idle).filter(([id]) => !ids.includes(id)));
    for (const values of [without("rated-output", "no-load-nominal"), without("idle-rpm")])
      expect(at(values, "idle-voltage", 12.4).state).toBe("unsure");
  });
  it("the machine's own band holds at test speed where the machine can reach it", () => {
    const values = { ...machine, "lights-load": 4, "test-rpm": 5000 };
    expect(at(values, "test-voltage", 13.2)).toMatchObject({
      state: "fail",
      limit: { low: 13.5, origin: { from: "machine data" } },
    });
  });
  it("at test speed a machine that by its own data cannot reach its band is held to what it can", () => {
    const overloaded = { ...machine, "lights-load": 30, "test-rpm": 4000 };
    const limit = at(overloaded, "test-voltage", 12.6).limit!;
    expect(limit.origin.from).toBe("computed");
    expect(limit.low!).toBeLessThan(13.5);
    expect(at(overloaded, "battery-current", -1).limit!.low!).toBeLessThan(0);
  });
  it("solves each speed once, and gives nothing where the data contradict each other", () => {
    const expectation = expectationOf(job(idle));
    expect(expectation(1200)).toBe(expectation(1200));
    expect(expectation(1200)!.volts).toEqual(volts);
    expect(expectationOf(job({ ...idle, "rated-output": 5000 }))(1200)).toBeUndefined();
  });
});
