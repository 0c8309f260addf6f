import { CATALOGUE } from "../../src/core/readings/catalogue";
import { stepsOf } from "../../src/core/readings/check-steps";
import { CHECKS } from "../../src/core/readings/checks";
import { diodePlacement, drawnReading, PLACEMENTS, type Place } from "../../src/pane/drawings/placements";

/**
 * Potentials of a healthy machine while it charges, highest first. Current leaves the unit at B+,
 * runs along the B+ lead into the battery's positive post, leaves at the negative post and returns
 * along the ground run: each of these places lies above the next (Kirchhoff, resistances positive).
 */
const CHARGING: readonly Place[] = ["B+", "battery +", "battery -", "unit ground"];

describe("where the leads go", () => {
  it("[catalogue] every reading of an electrical meter has a placement that names both leads or a clamp", () => {
    const electrical = CATALOGUE.filter(
      (entry) =>
        entry.kind === "quantity" &&
        entry.check !== undefined &&
        entry.meter !== undefined &&
        !["temperature", "hydrometer", "tachometer", "clock"].includes(entry.meter),
    );
    expect(electrical.length).toBeGreaterThan(40);
    for (const entry of electrical) {
      const placement = PLACEMENTS.get(entry.id);
      expect([entry.id, placement !== undefined]).toEqual([entry.id, true]);
      expect([
        entry.id,
        (placement!.red !== undefined && placement!.black !== undefined) || placement!.clamp !== undefined,
      ]).toEqual([entry.id, true]);
    }
  });

  it("[catalogue] no placement is left over for a reading that does not exist", () => {
    const known = new Set(CATALOGUE.map((entry) => entry.id));
    expect([...PLACEMENTS.keys()].filter((id) => !known.has(id))).toEqual([]);
  });

  it("[catalogue] every check has a drawing, for each of its readings and without one", () => {
    for (const check of CHECKS) {
      const entries = CATALOGUE.filter((entry) => entry.check === check.id);
      for (const id of [undefined, ...entries.map((entry) => entry.id)]) {
        const drawn = drawnReading(check.id, id ?? entries[0]?.id);
        expect([check.id, id, drawn !== undefined]).toEqual([check.id, id, true]);
      }
    }
  });

  for (const id of [
    "rested-voltage",
    "cranking-voltage",
    "idle-voltage",
    "test-voltage",
    "load-test-voltage",
    "bplus-drop",
    "ground-drop",
  ]) {
    it(`[Kirchhoff] ${id}: red lies on the higher potential, so that a charging machine reads positive`, () => {
      const { red, black } = PLACEMENTS.get(id)!;
      expect(CHARGING.indexOf(red!)).toBeGreaterThanOrEqual(0);
      expect(CHARGING.indexOf(red!)).toBeLessThan(CHARGING.indexOf(black!));
    });
  }

  it("[Kirchhoff] key-off draw: current comes in at red, from the cable, and goes on into the negative post", () => {
    expect(PLACEMENTS.get("key-off-draw")).toMatchObject({
      meter: "milliamps",
      red: "negative cable",
      black: "battery -",
    });
  });

  it("[Kirchhoff] battery current is positive into the battery, the key-on load positive out of it", () => {
    expect(PLACEMENTS.get("battery-current")!.clamp).toEqual({ round: "positive post leads", arrow: "to battery" });
    expect(PLACEMENTS.get("key-on-load")!.clamp).toEqual({ round: "positive post leads", arrow: "from battery" });
    expect(PLACEMENTS.get("drop-current")!.clamp).toEqual({ round: "B+ lead", arrow: "to battery" });
  });

  // The bridge as drawn in any text: upper devices conduct from phase to B+, lower ones from ground to phase;
  // a meter in diode check drives current out of its red lead.
  const PRINTED = [
    ["upper", true, "phase b", "B+"],
    ["upper", false, "B+", "phase b"],
    ["lower", true, "unit ground", "phase b"],
    ["lower", false, "phase b", "unit ground"],
  ] as const;
  for (const [bank, forward, red, black] of PRINTED) {
    it(`[three-phase bridge] ${bank}, ${forward ? "forward" : "reverse"}: red on ${red}, black on ${black}`, () => {
      expect(diodePlacement({ bank, phase: "b" }, forward)).toMatchObject({ red, black });
      expect(PLACEMENTS.get(`${bank}-${forward ? "forward" : "reverse"}-b`)).toMatchObject({ red, black });
    });
  }

  it("the check's own steps say the same as its drawing", () => {
    const steps = stepsOf("diode-check").join(" ");
    expect(steps).toContain("Upper, forward: red on the phase, black on B+");
    expect(steps).toContain("Lower, forward: red on ground, black on the phase");
    const drops = stepsOf("voltage-drops").join(" ");
    expect(drops).toContain("red on the regulator's B+ terminal, black on the battery's positive post");
    expect(drops).toContain("red on the battery's negative post, black on the regulator's ground");
  });
});
