import type { Cell } from "../../../src/core/cell";
import { explain } from "../../../src/core/diagnosis/why";
import { jobOf, MACHINE_IN_ORDER } from "./jobs";

const answer = (values: Readonly<Record<string, Cell>>) => explain(jobOf(values))!;
const chanceOf = (values: Readonly<Record<string, Cell>>, fault: string) =>
  answer(values).diagnosis.faults.find((f) => f.fault === fault)!.chance;
const AT_SPEED = { "battery-type": "agm", "rested-voltage": 12.5, "test-rpm": 5000 };

// Common practice: a battery that takes no charge lifts the voltage by some tenths, a regulator that has let go without end.
it.each([16.8, 18.5])(
  "%p V at the posts is a regulator that has let go, not a battery that takes no charge",
  (volts) => {
    const { verdict } = answer({ ...AT_SPEED, "test-voltage": volts }).diagnosis;
    expect(verdict.part).toBe("regulator-rectifier");
    const sulfated = chanceOf({ ...AT_SPEED, "test-voltage": volts }, "battery-sulfated");
    expect(chanceOf({ ...AT_SPEED, "test-voltage": volts }, "regulator-overcharge")).toBeGreaterThan(3 * sulfated);
  },
);

it("a machine without a regulator has none that overcharges, named so or not", () => {
  const coil = { "battery-type": "flooded", "rested-voltage": 12.5, "test-rpm": 3600, "test-voltage": 13.4 };
  for (const more of [{ "regulator-kind": "none" }, { "alternator-kind": "half-wave" }])
    expect(chanceOf({ ...coil, ...more }, "regulator-overcharge")).toBeLessThan(0.001);
});

// 330 W at 14 V are 23.6 A; 11 A of lights and 200 W more are 25.8 A.
it("what is known to be fitted speaks for too much load where the rating does not carry it", () => {
  const quad = { ...MACHINE_IN_ORDER, ...AT_SPEED, "rated-output": 330, "lights-load": 11, "test-voltage": 12.7 };
  const more = { ...quad, "added-load": 200 };
  expect(answer(more).diagnosis.verdict.part).toBe("load");
  expect(
    answer(more)
      .nextChecks.slice(0, 2)
      .map((c) => c.check),
  ).toContain("key-on-load");
  expect(chanceOf(more, "excessive-load")).toBeGreaterThan(
    2 * chanceOf({ ...quad, "added-load": 90 }, "excessive-load"),
  );
});

it("a running voltage 4 V below the rest is no reading of that battery", () => {
  const { contradictions } = answer({ ...AT_SPEED, "test-voltage": 8 }).diagnosis;
  expect(contradictions).toMatchObject([{ kind: "wrong range", setAside: ["test-voltage"] }]);
  expect(answer({ ...AT_SPEED, "test-voltage": 9.5 }).diagnosis.contradictions).toEqual([]);
});

it("a load test is not done with its rested voltage alone", () => {
  const rested = { ...AT_SPEED, "load-test-recharged": "yes", "load-test-rested": 12.8, "test-voltage": 14.3 };
  expect(answer(rested).nextChecks.map((c) => c.check)).toContain("load-test");
});

// Common practice: unplugged, uneven AC is the stator's, whichever pairs it is that are low.
it.each([
  [60, 35, 35],
  [60, 60, 22],
  [58, 20, 41],
])("AC of %p, %p and %p V from an unplugged stator that does not charge names the stator", (ab, bc, ca) => {
  const read = { "no-load-rpm": 4000, "no-load-ab": ab, "no-load-bc": bc, "no-load-ca": ca };
  const { parts, verdict } = answer({ ...AT_SPEED, "rested-voltage": 12.3, "test-voltage": 12.4, ...read }).diagnosis;
  expect(verdict.part).toBe("stator");
  expect(parts.find((p) => p.part === "stator")!.chance).toBeGreaterThan(0.5);
});
