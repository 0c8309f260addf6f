import type { Cell } from "../../../src/core/cell";
import { DIRECT_PROOF, SOUND_CHECKS } from "../../../src/core/diagnosis/direct-checks";
import { diagnose, weighAll } from "../../../src/core/diagnosis/diagnose";
import { FAULT_IDS } from "../../../src/core/diagnosis/faults";
import { nextChecks } from "../../../src/core/diagnosis/next-check";
import { PARTS } from "../../../src/core/readings/types";
import { diodeCheck, jobOf, MACHINE_IN_ORDER, READINGS_IN_ORDER } from "./jobs";

const PLAIN = diodeCheck([
  [0.51, 0.515, 0.508],
  [0.512, 0.515, 0.51],
  ["OL", "OL", "OL"],
  ["OL", "OL", "OL"],
]);
const SOUND = { ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER, ...PLAIN, "bridge-kind": "plain diodes" };
const of = (values: Parameters<typeof jobOf>[0]) => diagnose(jobOf(values))!;
const stateOf = (values: Parameters<typeof jobOf>[0], part: string) => of(values).parts.find((p) => p.part === part)!;

describe("a machine of which little is read", () => {
  it("has no suspect before the first reading", () => {
    expect(weighAll(jobOf(MACHINE_IN_ORDER), {}).parts.map((p) => p.state)).toEqual(PARTS.map(() => "unproven"));
  });

  it.each(["rested-voltage", "cranking-voltage", "key-off-draw", "test-voltage", "winding-ab"])(
    "one good reading (%s) makes no part suspect and names none",
    (id) => {
      const { parts, verdict } = of({ ...MACHINE_IN_ORDER, [id]: READINGS_IN_ORDER[id] });
      expect(parts.filter((p) => p.state === "suspect" || p.state === "faulty")).toEqual([]);
      expect(verdict).toMatchObject({ part: "none", state: "unproven" });
      expect(verdict.sentence).toMatch(/^No fault found so far \(.*not fully checked yet: /u);
    },
  );

  it("is offered a next check as long as nothing is settled", () => {
    for (const ids of [[], ["rested-voltage"], ["rested-voltage", "test-voltage", "cranking-voltage"]]) {
      const values = Object.fromEntries(ids.map((id) => [id, READINGS_IN_ORDER[id]]));
      expect(nextChecks(jobOf({ ...MACHINE_IN_ORDER, ...values })).length).toBeGreaterThan(0);
    }
  });

  it("becomes suspect by a reading that raises it", () => {
    expect(stateOf({ ...MACHINE_IN_ORDER, "rested-voltage": 10.6 }, "battery").state).not.toBe("unproven");
    expect(stateOf({ ...MACHINE_IN_ORDER, "key-off-draw": 90 }, "load").state).toBe("faulty");
    // A maker who allows no draw at all, and a battery that is disconnected at night.
    const noDraw = { ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER, "key-off-limit": 0, "key-off-draw": 0 };
    expect(stateOf(noDraw, "load").state).toBe("serviceable");
    expect(stateOf({ ...MACHINE_IN_ORDER, "key-off-limit": 0, "key-off-draw": 90 }, "load").state).toBe("faulty");
  });

  it("names the checks that are open", () => {
    expect(stateOf({ ...MACHINE_IN_ORDER, "rested-voltage": 12.78 }, "battery").sentence).toBe(
      "Battery: unproven; not shown in order yet: load test.",
    );
  });
});

describe("no fault found", () => {
  it("is a verdict when the checks are done", () => {
    const drops = Object.fromEntries(["a", "b", "c"].map((p) => [`phase-drop-${p}`, 0.06]));
    const { verdict } = of({ ...SOUND, ...drops });
    expect(verdict).toMatchObject({ part: "none", state: "serviceable" });
    expect(verdict.sentence).toMatch(/every part is checked\.$/u);
  });

  it("is never settled while a check of a part fails", () => {
    for (const failing of [{ "key-off-draw": 60 }, { "bplus-drop": 1.6 }, { "ground-a": 40 }, { "test-voltage": 15.4 }])
      expect(of({ ...SOUND, ...failing }).verdict).not.toMatchObject({ part: "none", state: "serviceable" });
  });
});

describe("what counts as a check of the part itself", () => {
  it("is stated for every fault and every part", () => {
    for (const fault of FAULT_IDS) if (fault !== "healthy") expect(DIRECT_PROOF[fault].length).toBeGreaterThan(0);
    for (const part of PARTS) expect(SOUND_CHECKS[part].length).toBeGreaterThan(0);
  });

  it("exclusion is allowed for the rectifier only, whose faults may show while it works and not on the bench", () => {
    for (const fault of FAULT_IDS)
      if (DIRECT_PROOF[fault].some((proof) => proof.kind === "exclusion"))
        expect(fault).toMatch(/^(?:regulator-s|diode-)/u);
  });

  it("one pair low beside two alike shows no stator where neither the figure nor the connection is known", () => {
    const { "stator-ohms-min": _min, "stator-ohms-max": _max, ...machine } = MACHINE_IN_ORDER;
    const one = { "meter-leads": 0.27, "winding-ab": 2.09, "winding-bc": 2.77, "winding-ca": 2.79 };
    expect(of({ ...machine, ...one }).findings).not.toContain("winding-low-pair");
    expect([...of({ ...machine, ...one }).findings]).not.toContain("winding-high-lead");
    // In wye a short takes from two pairs: one low can only be a lead that adds to the other two.
    expect([...of({ ...machine, ...one, "stator-connection": "wye" }).findings]).toContain("winding-high-lead");
  });

  it("a meter too coarse for the winding shows nothing even", () => {
    const fine = { "winding-ab": 0.32, "winding-bc": 0.33, "winding-ca": 0.32, "stator-ohms-min": 0.08 };
    const known = { ...SOUND, ...fine, "stator-ohms-max": 0.14, "meter-leads": 0.2 };
    expect([...of({ ...known, "meter-ohm-step": 0.01 }).findings]).toContain("winding-even");
    expect([...of({ ...known, "meter-ohm-step": 0.1 }).findings]).not.toContain("winding-even");
  });

  it("a cell missing from a lithium battery is 3 V, from a lead battery 2 V", () => {
    const rest = (type: string, volts: number) => {
      const cranked = { "battery-type": type, "rested-voltage": volts, "cranking-voltage": 8.6 };
      return [...of({ ...MACHINE_IN_ORDER, ...cranked }).findings].includes("cell-missing");
    };
    expect([rest("lithium", 10), rest("lithium", 12.6), rest("agm", 10.7), rest("agm", 12.0)]).toEqual([
      true,
      false,
      true,
      false,
    ]);
  });

  // Common practice: a lead battery of 10.4 V is charged and rested before it is condemned; left alone it may be flat.
  it.each([
    ["agm", { "rested-voltage": 10.4 }],
    ["agm", { "rested-voltage": 10.4, "key-off-draw": 200 }],
    ["lithium", { "rested-voltage": 9.1, "battery-temperature": -5 }],
  ])("a battery (%s) that was only read at rest may be flat and is not condemned: %j", (type, readings) => {
    const job = { ...MACHINE_IN_ORDER, "battery-type": type, ...readings };
    expect(stateOf(job, "battery").state).toBe("suspect");
    expect(stateOf({ ...job, "cranking-voltage": 2.1 }, "battery").state).not.toBe("faulty");
    const charged = { "load-test-recharged": "yes", "load-test-rested": type === "agm" ? 10.6 : 10 };
    expect(stateOf({ ...job, ...charged }, "battery").state).toBe("faulty");
  });

  it("a unit that conducts from B+ to ground both ways is what drains the battery, and is named before the load", () => {
    const drained = { ...MACHINE_IN_ORDER, "rested-voltage": 11.9, "key-off-draw": 60 };
    expect(of(drained).verdict.part).toBe("load");
    const shorted = { ...drained, "output-to-ground": 0.002, "output-to-ground-swapped": 0.001 };
    expect(of(shorted).verdict).toMatchObject({ part: "regulator-rectifier", state: "faulty" });
  });

  it("a winding hard on the iron is faulty whatever else the machine shows", () => {
    const hard = { "ground-a": 0.4, "ground-b": 0.5, "ground-c": 0.4, "meter-leads": 0.1 };
    const running = { "rested-voltage": 12.2, "test-rpm": 5000, "test-voltage": 12.6 };
    expect(of({ ...MACHINE_IN_ORDER, ...running, ...hard }).verdict).toMatchObject({ part: "stator", state: "faulty" });
  });

  it("a cell whose acid stays behind the others speaks against the battery, acid that is low alike does not", () => {
    const cells = (...gravities: number[]) =>
      Object.fromEntries(gravities.map((g, i) => [`gravity-${i + 1}`, g])) as Record<string, number>;
    const flooded = { ...MACHINE_IN_ORDER, "battery-type": "flooded", "rested-voltage": 12.3 };
    const behind = { ...flooded, ...cells(1.245, 1.24, 1.245, 1.1, 1.25, 1.245) };
    expect(of(behind).verdict).toMatchObject({ part: "battery", state: "suspect" });
    const load = { "load-test-recharged": "yes", "load-test-rested": 12.5, "load-test-current": 88 };
    expect(of({ ...behind, ...load, "load-test-voltage": 7.6 }).verdict).toMatchObject({
      part: "battery",
      state: "faulty",
      sentence: expect.stringContaining("a cell's acid stays far behind the others"),
    });
    const alike = { ...flooded, ...cells(1.16, 1.155, 1.16, 1.16, 1.165, 1.16) };
    expect(stateOf(alike, "battery").chance).toBeLessThan(stateOf(flooded, "battery").chance);
  });

  it.each([2, 8, 10.4])(
    "with a battery found at %p V nothing is asked for that needs the engine before it is charged",
    (volts) => {
      const checks = nextChecks(jobOf({ ...MACHINE_IN_ORDER, "rested-voltage": volts })).map((c) => c.check);
      expect(checks).toContain("load-test");
      expect(checks.filter((id) => /running|cranking|loaded-ac|no-load-ac|drops/u.test(id))).toEqual([]);
      const charged = { "load-test-recharged": "yes", "load-test-rested": 12.75 };
      const then = nextChecks(jobOf({ ...MACHINE_IN_ORDER, "rested-voltage": volts, ...charged })).map((c) => c.check);
      expect(then).toContain("running-test");
    },
  );

  // 330 W at 14 V are 23.6 A; 11 A of lights and 180 W more are 24.3 A.
  it("accessories that take all that the alternator gives are too much load, a small one is not", () => {
    const quad = {
      ...MACHINE_IN_ORDER,
      "rated-output": 330,
      "lights-load": 11,
      "rested-voltage": 12.2,
      "test-rpm": 5000,
    };
    const added = { "added-load": 180, "key-on-load": 24, "test-voltage": 13.2 };
    expect(of({ ...quad, ...added }).verdict).toMatchObject({
      part: "load",
      sentence: expect.stringContaining("too much load"),
    });
    const lamp = { "added-load": 40, "key-on-load": 13.6, "test-voltage": 14.3 };
    expect(stateOf({ ...quad, ...lamp }, "load").state).toBe("unproven");
  });

  it("nothing leaves the regulator: by exclusion, and the drop that would show a blown fuse is still asked for", () => {
    const dead = { "test-voltage": 12.2, "idle-voltage": 12.2, "battery-current": -11, "drop-current": 0 };
    const machine = { ...MACHINE_IN_ORDER, ...READINGS_IN_ORDER, "regulator-kind": "series" };
    const rest: Record<string, Cell> = { ...machine, ...dead, "ground-drop": 0.001, "bplus-drop": null };
    const { parts, verdict } = of(rest);
    const unit = parts.find((p) => p.part === "regulator-rectifier")!;
    expect(verdict.part).toBe("regulator-rectifier");
    expect(unit.proof?.kind).toBe("exclusion");
    expect(nextChecks(jobOf(rest)).map((c) => c.check)).toContain("voltage-drops");
  });
});
