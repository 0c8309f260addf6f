import type { Cell } from "../../../src/core/cell";
import { explain, whyLines } from "../../../src/core/diagnosis/why";
import { judgeReading } from "../../../src/core/limits/judge-reading";
import { jobOf, MACHINE_IN_ORDER } from "./jobs";

const answer = (values: Readonly<Record<string, Cell>>) => explain(jobOf({ ...MACHINE_IN_ORDER, ...values }))!;
const chanceOf = (values: Readonly<Record<string, Cell>>, fault: string) =>
  answer(values).diagnosis.faults.find((f) => f.fault === fault)!.chance;
const checksOf = (values: Readonly<Record<string, Cell>>) => answer(values).nextChecks.map((c) => c.check);

// Common practice: five good cells of a lead battery make 10.5 to 10.7 V; what reads far less stood until it was flat.
describe("a battery that is found flat", () => {
  it.each([0.3, 4.2, 6, 8])("at %p V is not taken for a shorted cell: that takes 2 V", (volts) => {
    const { diagnosis } = answer({ "rested-voltage": volts });
    expect(diagnosis.parts.find((p) => p.part === "battery")!.state).toBe("unproven");
    expect(chanceOf({ "rested-voltage": volts }, "battery-shorted-cell")).toBeLessThan(0.2);
    expect(chanceOf({ "rested-voltage": 10.6 }, "battery-shorted-cell")).toBeGreaterThan(0.6);
  });

  it("speaks neither against the starter's voltage nor against what charges it", () => {
    const flat = { "rested-voltage": 7.5, "test-rpm": 5000, "test-voltage": 12.3, "cranking-voltage": 2.2 };
    const { parts } = answer(flat).diagnosis;
    expect(parts.filter((p) => p.state === "suspect" || p.state === "faulty")).toEqual([]);
    // At 10.5 V one that cranks the engine is no flat one.
    expect(chanceOf({ "rested-voltage": 10.5, "cranking-voltage": 9 }, "battery-shorted-cell")).toBeGreaterThan(0.9);
  });

  it.each([0.3, 4.2, 8, 10.4])("at %p V is charged and tested before anything that needs the engine", (volts) => {
    // Less than 1.5 V beside 12 V is no reading of a battery.
    const running = volts < 1.5 ? {} : { "test-rpm": 5000, "test-voltage": 12.1 };
    for (const more of [{}, running, { "key-off-draw": 120 }])
      expect(checksOf({ "rested-voltage": volts, ...more })[0]).toBe("load-test");
  });

  it("with a drain has two things in question: the draw is proven, and the battery still wants its check", () => {
    const both = { "rested-voltage": 10.4, "key-off-draw": 120 };
    const { verdict, parts } = answer(both).diagnosis;
    expect(verdict).toMatchObject({ part: "load", state: "faulty" });
    expect(parts.find((p) => p.part === "battery")!.state).toBe("suspect");
    expect(chanceOf(both, "parasitic-drain")).toBeGreaterThan(chanceOf(both, "parasitic-drain+battery-shorted-cell"));
    const charged = { ...both, "load-test-recharged": "yes", "load-test-current": 88, "load-test-rested": 12.8 };
    const { diagnosis, nextChecks } = answer({ ...charged, "load-test-voltage": 10.6 });
    expect(diagnosis.parts.find((p) => p.part === "battery")!.chance).toBeLessThan(0.05);
    expect(nextChecks.map((c) => c.check)).not.toContain("load-test");
  });

  it("is said to be flat, and what to do first", () => {
    const said = (values: Readonly<Record<string, Cell>>) =>
      whyLines(answer(values)).find((line) => line.about === "read again")?.words;
    expect(said({ "rested-voltage": 10.4 })).toContain("Charge it fully, let it rest and read again");
    expect(said({ "rested-voltage": 0.3 })).toContain("on the posts");
    expect(said({ "rested-voltage": 4.2, "battery-type": "lithium" })).toContain("only as its maker says");
    expect(
      said({ "rested-voltage": 5.2, "battery-nominal": 6, "regulated-min": null, "regulated-max": null }),
    ).toContain("the battery is flat");
    // A 6 V battery reads 6.0 to 6.4 V at rest (common practice), and a 12 V charger would harm it.
    const unknown = { "rested-voltage": 6.3, "regulated-min": null, "regulated-max": null };
    expect(said(unknown)).toContain("Enter the nominal voltage from its label before it is charged");
    expect(said({ ...unknown, "battery-nominal": 12 })).toContain("the battery is flat");
    for (const inOrder of [12, 12.7]) expect(said({ "rested-voltage": inOrder })).toBeUndefined();
  });

  it("of lithium lacks 3 V with a cell lost, not two", () => {
    const lithium = { "battery-type": "lithium" };
    expect(chanceOf({ ...lithium, "rested-voltage": 10 }, "battery-shorted-cell")).toBeGreaterThan(0.6);
    expect(chanceOf({ ...lithium, "rested-voltage": 11.3 }, "battery-shorted-cell")).toBeLessThan(0.3);
  });
});

// Common practice: a rested voltage above that of a full battery is surface charge.
describe("a battery fresh from the charger or a ride", () => {
  const fresh = { "test-rpm": 5000, "test-voltage": 14.4, "rested-voltage": 13.4 };

  it("is asked to rest, and its voltage speaks against nothing meanwhile", () => {
    const { diagnosis } = answer(fresh);
    expect(diagnosis.contradictions).toMatchObject([{ kind: "taken too early", setAside: ["rested-voltage"] }]);
    expect(diagnosis.faults).toEqual(answer({ ...fresh, "rested-voltage": null }).diagnosis.faults);
    expect(diagnosis.parts.filter((p) => p.state === "suspect")).toEqual([]);
  });

  it("of lithium rests at 13.3 V; of a type that is not known may be one", () => {
    expect(answer({ ...fresh, "battery-type": "lithium" }).diagnosis.contradictions).toEqual([]);
    const unknown = answer({ ...fresh, "battery-type": null }).diagnosis.contradictions;
    expect(unknown.map((c) => c.words).join()).toContain("or correct its type");
    expect(answer({ ...fresh, "battery-type": null, "rested-voltage": 12.9 }).diagnosis.contradictions).toEqual([]);
  });
});

describe("a battery whose type nobody said", () => {
  // Manufacturers' tables as the battery room has them: full, flooded 12.65 V, AGM 12.9 V.
  it("that rests above a full flooded one is taken for AGM, and speaks for no hidden fault", () => {
    const good = {
      "battery-type": null,
      "idle-rpm": 1300,
      "idle-voltage": 13.6,
      "test-rpm": 5000,
      "test-voltage": 14.4,
    };
    const { diagnosis } = answer({ ...good, "rested-voltage": 12.9 });
    expect(diagnosis.frame.batteryType).toBe("agm");
    expect(diagnosis.parts.filter((p) => p.state === "suspect")).toEqual([]);
    expect(answer({ ...good, "rested-voltage": 12.6 }).diagnosis.frame.batteryType).toBe("flooded");
  });

  it("is flat where its table ends", () => {
    const flat = (type: string, volts: number) =>
      answer({ "battery-type": type, "rested-voltage": volts }).diagnosis.contradictions.length > 0;
    expect([11.85, 11.95].map((v) => flat("flooded", v))).toEqual([true, false]);
    expect([11.75, 11.85].map((v) => flat("agm", v))).toEqual([true, false]);
    expect([12.2, 12.5].map((v) => flat("lithium", v))).toEqual([true, false]);
  });
});

// Common practice, and US Army TM 9-6140-200-14 in the load-limit ladder: 9.6 V at the end, at 21 °C and above.
describe("a load test of half the cold cranking amps on a charged battery", () => {
  const tested = { "load-test-recharged": "yes", "load-test-rested": 12.75, "load-test-current": 88 };
  const battery = (end: number, more: Readonly<Record<string, Cell>> = {}) =>
    answer({ "rested-voltage": 12.3, ...tested, ...more, "load-test-voltage": end }).diagnosis.parts[0]!;

  it("that ends well below the least condemns the battery", () => {
    for (const end of [8.6, 7.4, 5.5]) expect(battery(end)).toMatchObject({ part: "battery", state: "faulty" });
    expect(battery(9.55).state).not.toBe("faulty");
  });

  it("does not where the rating is not known, or the battery was not charged", () => {
    expect(battery(8.6, { "battery-cca": null }).state).not.toBe("faulty");
    expect(battery(8.9, { "load-test-recharged": "no", "load-test-rested": 12.3 }).state).not.toBe("faulty");
  });
});

describe("a load test on a battery that was not charged", () => {
  const low = { "rested-voltage": 12.0, "load-test-current": 88, "load-test-voltage": 9 };

  it("has shown nothing and is asked for again, charged", () => {
    expect(checksOf(low)).toContain("load-test");
    const charged = { "load-test-recharged": "yes", "load-test-rested": 12.8, "load-test-voltage": 10.6 };
    expect(checksOf({ ...low, ...charged })).not.toContain("load-test");
  });

  it("is rested voltage enough where it was charged: nothing at rest is read twice", () => {
    expect(checksOf({ "load-test-recharged": "yes", "load-test-rested": 12.8 })).not.toContain("battery-at-rest");
  });
});

// Common practice: lithium warms up as it is cranked; lead is weighed with its temperature as it was fitted.
it("a lithium battery that sags while cranked below freezing is not suspect for it", () => {
  const cold = { "battery-type": "lithium", "rested-voltage": 13.1, "cranking-voltage": 8.5 };
  expect(answer({ ...cold, "battery-temperature": -10 }).diagnosis.parts[0]!.chance).toBeLessThan(0.15);
  expect(answer({ ...cold, "battery-temperature": 20 }).diagnosis.parts[0]!.chance).toBeGreaterThan(0.3);
});

it("a weak battery beside a bad ground does not hide it: each is known by its own check", () => {
  const weak = {
    "rested-voltage": 12.2,
    "load-test-recharged": "yes",
    "load-test-rested": 12.8,
    "load-test-current": 88,
  };
  const run = { "test-rpm": 5000, "test-voltage": 13, "ground-drop": 1.2, "bplus-drop": 0.1, "drop-current": 12 };
  const { parts } = answer({ ...weak, "load-test-voltage": 7.8, ...run }).diagnosis;
  expect(parts.find((p) => p.part === "wiring")).toMatchObject({ state: "faulty", fault: "high-resistance-ground" });
  expect(["suspect", "faulty"]).toContain(parts[0]!.state);
});

// Ohm's law: what conducts drops next to nothing at next to no current.
describe("volts across the B+ run with nothing flowing", () => {
  it.each([4, 9.8, 12.2, 14])("(%p V) mean that the fuse or the run is open", (volts) => {
    const dead = { "rested-voltage": 12.3, "test-rpm": 5000, "test-voltage": 12 };
    const run = { ...dead, "bplus-drop": volts, "ground-drop": 0.01, "drop-current": 0.1 };
    expect(answer(run).diagnosis.verdict).toMatchObject({ part: "wiring", state: "faulty" });
    expect(answer(run).diagnosis.faults[0]!.fault).toBe("main-fuse-blown");
    expect(judgeReading("bplus-drop", jobOf(run))).toMatchObject({ state: "fail" });
    expect(judgeReading("ground-drop", jobOf(run))).toMatchObject({ state: "unsure" });
  });
});

describe("evidence for a cause", () => {
  it("never quotes a range that the reading lies outside of", () => {
    for (const volts of [0.3, 6, 9.6, 10.4, 11.4, 11.9, 12.2, 12.5, 12.8])
      for (const test of [null, 11.4, 12.4, 13.1, 13.9, 14.6, 15.6])
        for (const item of answer({ "rested-voltage": volts, "test-voltage": test, "test-rpm": 5000 }).evidence.flatMap(
          (e) => e.for,
        )) {
          const [, read, low, high] =
            / (\d+\.\d+) V \(expected with this cause: (\S+) to (\S+) V/u.exec(item.words) ?? [];
          if (read === undefined) continue;
          expect(Number(read)).toBeGreaterThanOrEqual(Number(low) - 0.051);
          expect(Number(read)).toBeLessThanOrEqual(Number(high) + 0.051);
        }
  });
});
