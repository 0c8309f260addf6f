import path from "node:path";
import { diagnose } from "../../../src/core/diagnosis/diagnose";
import { knownJobs } from "../../../src/tools/score-diagnoses";
import { diodeCheck, jobOf, MACHINE_IN_ORDER, READINGS_IN_ORDER } from "./jobs";

const SOUND = { ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER };
const of = (changes: Parameters<typeof jobOf>[0]) => diagnose(jobOf({ ...SOUND, ...changes }))!;

/** One slip of the hand each, on a machine in order: what is flagged, and which reading it names. */
const SLIPS: readonly (readonly [string, Parameters<typeof jobOf>[0], string, string])[] = [
  ["ripple read on the DC range", { "battery-ripple": 14.4 }, "wrong range", "battery-ripple"],
  ["rested voltage read in millivolts' range", { "rested-voltage": 0.013 }, "wrong range", "rested-voltage"],
  ["ohms below the meter's own leads", { "winding-ab": 0.02, "meter-leads": 0.2 }, "wrong range", "winding-ab"],
  ["no-load speed short of a nought", { "no-load-rpm": 400 }, "speed mistyped", "no-load-rpm"],
  ["idle and test speed exchanged", { "idle-rpm": 5000, "test-rpm": 1300 }, "speed mistyped", "idle-rpm"],
  ["clamp on backwards", { "battery-current": -9 }, "leads swapped", "battery-current"],
  ["drop leads exchanged", { "bplus-drop": -0.18 }, "leads swapped", "bplus-drop"],
  [
    "diode leads exchanged",
    diodeCheck([
      ["OL", "OL", "OL"],
      ["OL", "OL", "OL"],
      [0.51, 0.515, 0.508],
      [0.512, 0.515, 0.51],
    ]),
    "leads swapped",
    "upper-forward-a",
  ],
  [
    "charging current below the rested voltage",
    { "battery-current": 9, "test-voltage": 12.2 },
    "cannot both be true",
    "battery-current",
  ],
  ["cranking above rest", { "cranking-voltage": 13.1 }, "cannot both be true", "cranking-voltage"],
  ["more into the battery than leaves the regulator", { "battery-current": 25 }, "cannot both be true", "drop-current"],
  ["load test that rises", { "load-test-voltage": 13.2 }, "cannot both be true", "load-test-voltage"],
  ["volts of a 12 V system on a 6 V machine", { "battery-nominal": 6 }, "machine data", "battery-nominal"],
  [
    "volts of a 6 V system on a 12 V machine",
    {
      "rested-voltage": 6.3,
      "idle-voltage": 6.6,
      "test-voltage": 7.1,
      "cranking-voltage": 5.2,
      "load-test-rested": null,
    },
    "machine data",
    "battery-nominal",
  ],
  [
    "a battery that was charged and is not full",
    { "load-test-recharged": "yes", "load-test-rested": 12.1, "load-test-voltage": 8.2 },
    "cannot both be true",
    "load-test-rested",
  ],
  ["limits the wrong way round", { "regulated-min": 15, "regulated-max": 13.8 }, "machine data", "regulated-min"],
];

describe("readings that cannot be true", () => {
  it.each(SLIPS)("%s is flagged by name, and condemns no part", (_slip, changes, kind, reading) => {
    const { contradictions, parts } = of(changes);
    const flagged = contradictions.find((c) => c.kind === kind && c.readings.includes(reading));
    expect(flagged?.words.length).toBeGreaterThan(40);
    expect(parts.filter((p) => p.state === "faulty")).toEqual([]);
  });

  it("says the same verdict as without the reading that is set aside", () => {
    const { "battery-ripple": _none, ...rest } = { ...SOUND, "battery-ripple": 14.4 };
    expect(of({ "battery-ripple": 14.4 }).faults).toEqual(diagnose(jobOf(rest))!.faults);
  });

  it("a machine in order raises no flag", () => {
    expect(of({}).contradictions).toEqual([]);
  });

  it("of the 120 simulated jobs only the one with 0 Ω to ground, below its own leads, sets a reading aside", () => {
    const jobs = knownJobs(path.join(__dirname, "../../jobs/simulated-jobs.json"));
    expect(jobs).toHaveLength(120);
    const flagged = jobs.flatMap(({ id, job }) => diagnose(job)!.contradictions.map((c) => [id, ...c.setAside]));
    expect(flagged.filter((f) => f.length > 1)).toEqual([["dev-045", "ground-a"]]);
  });
});
