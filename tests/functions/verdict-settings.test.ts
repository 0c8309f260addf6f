import { chancesOf, SHIPPED_CHANCES, startingFrom } from "../../src/core/diagnosis/starting-chances";
import { audit } from "../../src/functions/fleet";
import { causes, verdict } from "../../src/functions/verdict";
import { isCellError, type Cell } from "../../src/core/cell";
import "../../src/functions/registry";

/** What the settings of a verdict do, and what is said where they cannot be read. */

const READ: Cell[][] = [
  ["Rested voltage", 12.8],
  ["Key-off draw", "2 mA"],
  ["Cranking voltage", 10.8],
  ["Running voltage at idle", 13.9],
  ["Running voltage at test speed", 14.3],
];
const inOrderBeforehand = (share: number) => startingFrom(new Map(), share);
const inOrder = (share: Cell): Cell[][] => [["In order beforehand", share]];

function messageOf(cells: readonly (readonly Cell[])[]): string {
  const first = cells[0]?.[0];
  return isCellError(first) ? (first.message ?? "") : "";
}

describe("in order beforehand", () => {
  it.each([0.05, 0.5, 0.9, 0.99])("is the chance of a machine in order before anything is read: %d", (share) => {
    const chances = chancesOf(inOrderBeforehand(share));
    // Two faults at once, which the share does not speak of, take a little of it.
    expect(chances.get("healthy")! / share).toBeGreaterThan(0.9);
    expect(chances.get("healthy")).toBeLessThanOrEqual(share);
    expect([...chances.values()].reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 12);
  });

  it("moves the odds by as much as the odds before the readings [Bayes' theorem]", () => {
    const chanceOf = (settings: Cell[][], fault: string) =>
      Number(causes(READ, 30, [], [], settings).find(([name]) => name === fault)![2]);
    const oddsAfter = (settings: Cell[][]) => chanceOf(settings, "No fault found") / chanceOf(settings, "Weak rotor");
    const [routine, complaint] = [inOrderBeforehand(0.9), SHIPPED_CHANCES].map((starting) => {
      const chances = chancesOf(starting);
      return chances.get("healthy")! / chances.get("rotor-demagnetised")!;
    });
    expect(oddsAfter(inOrder(0.9)) / oddsAfter([])).toBeCloseTo(routine! / complaint!, 6);
  });

  it("leaves a machine unproven of which battery or charging were not read, whatever the share", () => {
    for (const some of [READ.slice(0, 1), READ.slice(0, 3), READ.slice(3)]) {
      const [part, state] = verdict(some, [], [], inOrder(0.99))[0]!;
      expect([part, state]).toEqual(["none", "unproven"]);
    }
    const [part, state, chance, sentence] = verdict(READ, [], [], inOrder(0.99))[0]!;
    expect([part, state]).toEqual(["none", "serviceable"]);
    expect(chance).toBeGreaterThan(0.95);
    expect(sentence).toMatch(/^No fault found \(.*; not fully checked: .*stator/u);
  });

  it("leaves what a check shows as it is", () => {
    const drained: Cell[][] = [...READ.filter(([label]) => label !== "Key-off draw"), ["Key-off draw", "350 mA"]];
    expect(verdict(drained, [], [], inOrder(0.9))[0]!.slice(0, 2)).toEqual(["load", "faulty"]);
  });

  it("is read as a share, in percent and with a decimal comma, below a row of headings", () => {
    const expected = verdict(READ, [], [], inOrder(0.9));
    expect(expected).not.toEqual(verdict(READ));
    for (const share of ["90 %", "0,9", "0.9"])
      expect(verdict(READ, [], [], [["Setting", "Value"], ...inOrder(share)])).toEqual(expected);
    expect(verdict(READ, [], [], inOrder(""))).toEqual(verdict(READ));
  });

  it("holds for the rows of an audit as for a verdict", () => {
    const table = [READ.map(([label]) => label!), READ.map(([, value]) => value!)];
    const [, row] = audit(table, [], [], inOrder(0.9));
    const [part, state, chance] = verdict(READ, [], [], inOrder(0.9))[0]!;
    expect(row!.slice(0, 3)).toEqual([part, state, chance]);
  });
});

describe("repairs that the shop has proven", () => {
  const chanceOf = (settings: Cell[][], fault: string) =>
    Number(causes(READ, 30, [], [], settings).find(([name]) => name === fault)![2]);
  const odds = (settings: Cell[][], one: string, other: string) => chanceOf(settings, one) / chanceOf(settings, other);

  // A. Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), section 3.4 (the section from memory): counts add to the Dirichlet's parameters.
  // Every fault starts with one count.
  it("add to the counts that every fault starts with [gelman2013, section 3.4]", () => {
    const proven: Cell[][] = [["Weak rotor", 7]];
    const others = ["Shorted turns in the stator", "Regulator overcharges"] as const;
    for (const other of others)
      expect(odds(proven, "Weak rotor", other) / odds([], "Weak rotor", other)).toBeCloseTo(8, 6);
    expect(odds(proven, ...others) / odds([], ...others)).toBeCloseTo(1, 6);
  });

  it("are told by name in either language, by id, under a former name and in several rows", () => {
    const expected = causes(READ, 30, [], [], [["Worn or sulfated battery", 6]]);
    expect(expected).not.toEqual(causes(READ, 30));
    for (const name of [
      "Batería gastada o sulfatada",
      "bateria gastada o sulfatada",
      "battery-sulfated",
      " sulfated BATTERY",
    ])
      expect(
        causes(
          READ,
          30,
          [],
          [],
          [
            ["Fault", "Proven"],
            [name, 2],
            ["Weak rotor", ""],
            [name, "4"],
          ],
        ),
      ).toEqual(expected);
  });

  it("stand beside the share of machines in order, which holds for all faults together", () => {
    const settings: Cell[][] = [["Weak rotor", 7], ...inOrder(0.9)];
    const others = ["Weak rotor", "Regulator overcharges"] as const;
    expect(odds(settings, ...others) / odds(inOrder(0.9), ...others)).toBeCloseTo(8, 6);
    const table = [READ.map(([label]) => label!), READ.map(([, value]) => value!)];
    expect(audit(table, [], [], settings)[1]!.slice(0, 3)).toEqual(verdict(READ, [], [], settings)[0]!.slice(0, 3));
  });

  it("never make a part faulty that no check shows", () => {
    const [, state] = verdict(READ, [], [], [["Weak rotor", 100_000]])[0]!;
    expect(state).toBe("suspect");
  });

  it.each([-1, "20 %", 1e9])("are a count, not %s", (count) => {
    const message = messageOf(verdict(READ, [], [], [["Weak rotor", count]]));
    expect(message).toContain('setting "Weak rotor"');
    expect(message).toContain("a number of proven repairs, from 0 to 1000000");
    expect(messageOf(verdict(READ, [], [], [["Weak rotor", count]], [["es"]]))).toContain(
      "un número de reparaciones probadas, de 0 a 1000000",
    );
  });
});

it.each([
  ["In order beforehand", 1, "a share from 0.01 to 0.99"],
  ["In order beforehand", "most", "a share from 0.01 to 0.99"],
  ["Faulty form", 0.9, "one of faulty from, serviceable up to, in order beforehand"],
])("says what to enter for a setting that is none: %s, %s", (name, value, expected) => {
  const message = messageOf(verdict(READ, [], [], [[name, value]]));
  expect(message).toContain(expected);
  expect(message).toContain(String(typeof value === "string" || name.startsWith("In") ? value : name));
});

describe("cells that cannot be read", () => {
  const unread: Cell[][] = [["Quad 7", 12, 14]];

  it.each([
    ["readings", "lecturas", [unread]],
    ["machine", "máquina", [READ, unread]],
    ["knownGood", "piezas buenas (knownGood)", [READ, [], unread]],
  ] as const)("are told by the argument that they were given as: %s", (argument, spanish, given) => {
    const [readings, machine = [], knownGood = []] = given as readonly Cell[][][];
    expect(messageOf(verdict(readings!, machine, knownGood))).toMatch(
      new RegExp(`^${argument}: "Quad 7" cannot be read`),
    );
    expect(messageOf(verdict(readings!, machine, knownGood, [], [["es"]]))).toContain(`${spanish}: «Quad 7»`);
  });
});
