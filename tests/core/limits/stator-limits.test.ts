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
const three = (prefix: string, [ab, bc, ca]: readonly (string | number)[]): Values => ({
  [`${prefix}-ab`]: ab!,
  [`${prefix}-bc`]: bc!,
  [`${prefix}-ca`]: ca!,
});
const states = (prefix: string, values: Values, options = {}) =>
  ["ab", "bc", "ca"].map((pair) => judgeReading(`${prefix}-${pair}`, job(values), options).state);

describe("winding resistance, pair by pair", () => {
  const fine = { "meter-ohm-step": 0.01, "meter-leads": 0.1, "stator-temperature": 20 };
  const machine = { "stator-ohms-min": 0.2, "stator-ohms-max": 0.4 };
  it("within the machine's figure with the leads taken off; outside it fails; open fails", () => {
    expect(states("winding", { ...fine, ...machine, ...three("winding", [0.4, 0.4, 0.4]) })).toEqual([
      "pass",
      "pass",
      "pass",
    ]);
    expect(states("winding", { ...fine, ...machine, ...three("winding", [0.9, 0.9, 0.9]) })).toEqual([
      "fail",
      "fail",
      "fail",
    ]);
    expect(states("winding", { ...fine, ...three("winding", ["OL", 0.4, "OL"]) })).toEqual(["fail", "unsure", "fail"]);
  });
  it("three readings of 0.3 Ω on a 0.1 Ω meter are unsure, not pass", () => {
    expect(
      states("winding", {
        "meter-ohm-step": 0.1,
        "meter-leads": 0.1,
        ...machine,
        ...three("winding", [0.3, 0.3, 0.3]),
      }),
    ).toEqual(["unsure", "unsure", "unsure"]);
  });
  it("without a figure the level is unsure, and the one that falls out of three still fails", () => {
    expect(states("winding", { ...fine, ...three("winding", [1.1, 1.1, 1.1]) })).toEqual([
      "unsure",
      "unsure",
      "unsure",
    ]);
    expect(states("winding", { ...fine, ...three("winding", [1.1, 1.1, 0.8]) })).toEqual(["unsure", "unsure", "fail"]);
  });
  it("good stators of the same number stand in for the figure, at their temperature and with their leads", () => {
    const good = (ohms: number, temperature: number) =>
      job({
        ...three("winding", [ohms, ohms, ohms]),
        "meter-leads": 0.2,
        "meter-ohm-step": 0.01,
        "stator-temperature": temperature,
      });
    // 1.00 Ω at 20 °C, with 0.2 Ω of leads; at 80 °C copper has 24 % more.
    const knownGood = [good(1.2, 20), good(1.21, 20), good(1.19, 20), good(1.2 + 0.236, 80)];
    const judged = judgeReading("winding-ab", job({ ...fine, ...three("winding", [1.1, 1.1, 1.1]) }), { knownGood });
    expect(judged).toMatchObject({ state: "pass", limit: { origin: { from: "known-good parts", count: 4 } } });
    expect(states("winding", { ...fine, ...three("winding", [0.8, 0.8, 0.8]) }, { knownGood })).toEqual([
      "fail",
      "fail",
      "fail",
    ]);
    expect(
      states("winding", { ...fine, "stator-temperature": 100, ...three("winding", [1.41, 1.41, 1.41]) }, { knownGood }),
    ).toEqual(["pass", "pass", "pass"]);
  });
});

describe("no-load AC, pair by pair", () => {
  const machine = { "no-load-nominal": 100, "no-load-nominal-rpm": 5000, "no-load-tolerance": 15 };
  it("against the machine's figure in proportion to speed", () => {
    expect(states("no-load", { ...machine, "no-load-rpm": 2500, ...three("no-load", [50, 50.2, 49.8]) })).toEqual([
      "pass",
      "pass",
      "pass",
    ]);
    expect(states("no-load", { ...machine, "no-load-rpm": 5000, ...three("no-load", [50, 50.2, 49.8]) })).toEqual([
      "fail",
      "fail",
      "fail",
    ]);
    expect(judgeReading("no-load-2-ab", job({ ...machine, "no-load-rpm-2": 5000, "no-load-2-ab": 101 })).state).toBe(
      "pass",
    );
  });
  it("the one that falls out of three fails without any figure; its band stands beside it", () => {
    const values = { "no-load-rpm": 5000, ...three("no-load", [90, 70, 90]) };
    expect(states("no-load", values)).toEqual(["unsure", "fail", "unsure"]);
    expect(judgeReading("no-load-ab", job(values)).customary).toMatchObject({ low: 60, high: 125 });
  });
  it("good stators stand in for the figure, whatever speed they were read at", () => {
    const knownGood = [3000, 4000, 5000].map((rpm, i) =>
      job({
        "no-load-rpm": rpm,
        ...three(
          "no-load",
          [1, 1, 1].map(() => (rpm / 1000) * (20 + 0.1 * i)),
        ),
      }),
    );
    const at = (volts: number) =>
      judgeReading("no-load-ab", job({ "no-load-rpm": 4500, ...three("no-load", [volts, volts, volts]) }), {
        knownGood,
      });
    expect(at(90.5)).toMatchObject({ state: "pass", limit: { origin: { from: "known-good parts", count: 3 } } });
    expect(at(60).state).toBe("fail");
  });
});

describe("ground and insulation", () => {
  it.each<[string, Values, string]>([
    ["ground-a", { "ground-a": "OL" }, "pass"],
    ["ground-b", { "ground-b": 200 }, "fail"],
    ["insulation", { insulation: 100, "insulation-temperature": 40 }, "pass"],
    ["insulation", { insulation: 1, "insulation-temperature": 40 }, "fail"],
  ])("%s of %j is %s", (id, values, state) => expect(judgeReading(id, job(values)).state).toBe(state));
});
