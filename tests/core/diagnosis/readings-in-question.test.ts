import type { Cell } from "../../../src/core/cell";
import { bestCheckLabel } from "../../../src/core/diagnosis/next-check";
import { weighAll } from "../../../src/core/diagnosis/diagnose";
import { startingFrom } from "../../../src/core/diagnosis/starting-chances";
import { explain } from "../../../src/core/diagnosis/why";
import { judgeReading } from "../../../src/core/limits/judge-reading";
import { entryOf } from "../../../src/core/readings/catalogue";
import { parseEntry } from "../../../src/core/readings/parse";
import { jobOf, MACHINE_IN_ORDER, READINGS_IN_ORDER } from "./jobs";

type Values = Readonly<Record<string, Cell>>;
const SOUND: Values = { ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER };
/** Nine machines in ten are in order before anything is read, as on a fleet's routine visits. */
const ROUTINE = { startingChances: startingFrom(new Map(), 0.9) };
const verdictOf = (values: Values) => explain(jobOf(values), ROUTINE)!.diagnosis.verdict;

it("a machine whose readings are all in order is in order on a routine visit", () => {
  expect(verdictOf(SOUND)).toMatchObject({ part: "none", state: "serviceable" });
});

// Cranking: never below 9.0 V [US Army TM 9-2320-211-20]; the others common practice, as limits of the readings go.
describe.each<[string, Cell, RegExp]>([
  ["cranking-voltage", 8.6, /cranking voltage/u],
  ["test-voltage", 13.3, /voltage at test speed/u],
  ["idle-voltage", 15.6, /voltage at idle/u],
  ["bplus-drop", 0.55, /B\+ drop|drop.*B\+|B\+ run/u],
  ["ground-drop", 0.45, /ground/u],
  ["load-test-rested", 12.2, /before the load/u],
  // Far from what all others say: set aside, and to be taken again.
  ["rested-voltage", 1.28, /rested voltage/u],
])("%s of %s V on a routine visit", (id, value, name) => {
  const values = { ...SOUND, [id]: value };

  it("fails its own check", () => {
    expect(judgeReading(id, jobOf(values)).state).toBe("fail");
  });

  it("keeps the machine from being in order, and is named", () => {
    const { part, state, sentence } = verdictOf(values);
    expect([part, state]).not.toEqual(["none", "serviceable"]);
    expect(sentence).toMatch(name);
    expect(state).not.toBe("faulty");
  });

  it("is taken again, or another check tells more", () => {
    const { nextChecks } = explain(jobOf(values), ROUTINE)!;
    expect(nextChecks.length).toBeGreaterThan(0);
    expect(bestCheckLabel(weighAll(jobOf(values), ROUTINE))).toBe(nextChecks[0]!.label);
  });
});

it("names a reading once that two contradictions set aside", () => {
  const values = { ...SOUND, "test-voltage": 7.2, "battery-current": 24 };
  const { inQuestion, contradictions } = weighAll(jobOf(values), ROUTINE);
  expect(contradictions.flatMap((c) => c.setAside).filter((id) => id === "battery-current")).toHaveLength(2);
  expect(new Set(inQuestion).size).toBe(inQuestion.length);
});

it("puts a battery that cranks low under load before it cranks again", () => {
  const loadTest = ["load-test-rested", "load-test-current", "load-test-seconds", "load-test-voltage"];
  const values = Object.fromEntries(
    Object.entries({ ...SOUND, "cranking-voltage": 8.6 }).filter(([id]) => !loadTest.includes(id)),
  );
  expect(explain(jobOf(values), ROUTINE)!.nextChecks[0]!.check).toBe("load-test");
});

it("[property] no machine is in order while a reading fails its own check", () => {
  // What stood flat is sound when it was charged and carries the load; at idle a small stator may not keep up;
  // consumers are held to their figure with some room for what was added.
  const allowed = new Set(["rested-voltage", "idle-voltage", "key-on-load"]);
  const factors = [0.02, 0.1, 0.3, 0.5, 0.7, 0.8, 0.85, 0.9, 0.94, 0.98, 1.04, 1.1, 1.2, 1.5, 2, 5, 10, 100];
  let failing = 0;
  for (const [id, base] of Object.entries(READINGS_IN_ORDER)) {
    if (typeof base !== "number" || allowed.has(id)) continue;
    for (const factor of factors) {
      const value = Number((base * factor).toPrecision(3));
      if (!parseEntry(value, entryOf(id)!).ok) continue;
      const values = { ...SOUND, [id]: value };
      if (judgeReading(id, jobOf(values)).state !== "fail") continue;
      failing += 1;
      const { part, state } = verdictOf(values);
      expect([id, value, part, state]).not.toEqual([id, value, "none", "serviceable"]);
    }
  }
  expect(failing).toBeGreaterThan(50);
});
