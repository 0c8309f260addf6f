import { judgementFunctions as chg } from "../../src/functions/judgement";
import { isCellError, type Cell } from "../../src/core/cell";
import { CONDITIONS } from "../../src/core/limits/conditions";
import { CATALOGUE, entryOf, isReading } from "../../src/core/readings/catalogue";
import type { Entry, QuantityEntry } from "../../src/core/readings/types";

const MACHINE: Cell[][] = [
  ["Battery type", "agm"],
  ["Battery nominal voltage", 12],
  ["Battery capacity", 14],
  ["Regulated voltage, lowest", 13.7],
  ["Regulated voltage, highest", 14.9],
  ["Rated output", 380],
  ["Rated output at", 5000],
  ["No-load AC, nominal", 72],
  ["No-load AC, nominal at", 5000],
  ["No-load AC, tolerance", 15],
  ["Winding resistance, lowest", 0.15],
  ["Winding resistance, highest", 0.35],
  ["Winding resistance, stated at", 20],
  ["Key-off draw, allowed", 3],
  ["Load with lights on, nominal", 11],
];
/** Readings near what a machine of these data shows, of our own; the others are anything that is possible. */
const USUAL: Readonly<Record<string, Cell>> = {
  "Rested voltage": 12.7,
  "Running voltage at idle": 13.9,
  "Running voltage at test speed": 14.2,
  "Key-off draw": 1.2,
  "Winding resistance, A–B": 0.25,
  "Winding resistance, B–C": 0.25,
  "Winding resistance, C–A": 0.25,
};

const text = (cell: Cell | undefined) => (typeof cell === "object" && cell !== null ? cell.message : cell);
const row = (...args: Parameters<typeof chg.CHECK>) => chg.CHECK(...args)[0]!;

describe("CONFORM", () => {
  it("two sides, one side, none; blank and text", () => {
    expect(chg.CONFORM([[10]], [[9]], [[11]], [[0.4]])[0]![0]).toBeCloseTo(0.98758, 5);
    expect(chg.CONFORM([[10]], [[""]], [[11]], [[0.4]])[0]![0]).toBeCloseTo(0.99379, 5);
    expect(text(chg.CONFORM([[10]], [[""]], [[""]], [[0.4]])[0]![0])).toBe(
      "low and high is missing; enter at least one limit.",
    );
    expect(text(chg.CONFORM([[10]], [[11]], [[9]], [[0.4]])[0]![0])).toMatch(
      /the lower one, 11, is above the higher one, 9; exchange them/,
    );
    expect(text(chg.CONFORM([["12.6 V"]], [[9]], [[11]], [[0.4]])[0]![0])).toMatch(
      /value: "12.6 V" cannot be read; enter a number without a unit/,
    );
    expect(text(chg.CONFORM([[10]], [[9]], [[11]], [[-0.4]])[0]![0])).toMatch(/u: −0.4 is not possible/);
    expect(chg.CONFORM([[10], [""]], [[9]], [[11]], [[0]])).toEqual([[1], [""]]);
  });
});

describe("CHECK", () => {
  it("state, low, high, chance, reason: by id, by label, by a label with a unit", () => {
    const machine: Cell[][] = [["Key-off draw, allowed", "5 mA"]];
    for (const [id, value] of [
      ["key-off-draw", 8],
      ["Parasitic draw", "8 mA"],
      ["Key-off draw (A)", 0.008],
    ] as const) {
      const [state, low, high, chance, reason] = row([[id]], [[value]], machine);
      expect([state, low, high]).toEqual(["fail", "", 5]);
      expect(chance).toBeCloseTo(0, 6);
      expect(reason).toMatch(
        /^Key-off draw 8\.0 mA misses the limit of at most 5\.0 mA \(key-off draw allowed for this machine\)\./,
      );
    }
  });
  it("conditions and machine in either form; what the conditions say wins", () => {
    const across: Cell[][] = [
      ["Battery type", "Hours rested"],
      ["flooded", 12],
    ];
    expect(row([["Rested voltage"]], [[12.7]], across)[0]).toBe("pass");
    expect(row([["Rested voltage"]], [[12.62]], across)[0]).toBe("pass");
    expect(row([["Rested voltage"]], [[12.62]], across, [["hours rested", "10 min"]])[0]).toBe("unsure");
  });
  it("the shop's meter, rule and known-good parts are arguments", () => {
    const machine: Cell[][] = [
      ["regulated-min", 13.5],
      ["regulated-max", 14.8],
    ];
    expect(row([["test-voltage"]], [[14.85]], machine)[0]).toBe("unsure");
    expect(row([["test-voltage"]], [[14.85]], machine, [[""]], [["DC volts", 20, 0.05, 1, 0.001]])[0]).toBe("fail");
    expect(row([["test-voltage"]], [[14.85]], machine, [[""]], [[""]], [["75 %"]])[0]).toBe("fail");
    const parts: Cell[][] = [
      ["AC ripple at the battery", "Test speed", "Machine"],
      [0.2, 5000, "one"],
      [0.21, 5000, "two"],
      [0.19, 5000, "three"],
      [0.2, 5000, "four"],
    ];
    const known = row([["ripple"]], [[0.2]], [[""]], [["test speed", 5000]], [[""]], [[""]], parts);
    expect(known[0]).toBe("pass");
    expect(known[4]).toMatch(/4 known-good parts/);
  });
  it("says a negative number with a minus sign, and reads it with that or a hyphen", () => {
    const of = (typed: Cell) => row([["battery-current"]], [[typed]], [[""]], [["Test speed", "5000"]]);
    expect(of(-0.4)[4]).toMatch(/^Battery current at test speed −0\.4 A misses the limit/u);
    for (const typed of ["-0.4", "−0.4", "−0,4 A", "-0,4 A"]) expect(of(typed)).toEqual(of(-0.4));
    const mA = (typed: Cell) =>
      chg.CHECK([["rested-voltage"]], [[12.7]], [["Battery type", "agm"]], [["Hours rested", typed]]);
    expect(text(mA("−3")[0]![0])).toBe(text(mA(-3)[0]![0]));
    expect(text(mA(-3)[0]![0])).toMatch(/^Hours rested: −3 h is not possible; enter 0 to /u);
  });
  it("a column of readings in one call; blank is not read, a wrong word is named in its own row", () => {
    const out = chg.CHECK(
      [["Rested voltage"], ["Key-off draw"], ["Ripple"], ["colour"], ["Battery type"]],
      [[12.7], [""], [0.08], [1], ["agm"]],
      [["Battery type", "flooded"]],
    );
    expect(out.map((cells) => (typeof cells[0] === "object" ? "error" : cells[0]))).toEqual([
      "pass",
      "not read",
      "unsure",
      "error",
      "error",
    ]);
    expect(text(out[3]![0])).toMatch(/readingId: "colour" cannot be read; enter a reading of the catalogue/);
  });
  it("a faulty cell of machine or conditions that it depends on, of meter or rule is the answer", () => {
    const at = (...more: Cell[][][]) => text(chg.CHECK([["rested voltage"]], [[12.6]], ...more)[0]![0]);
    expect(at([["Battery type", "nickel"]])).toMatch(/Battery type: "nickel" cannot be read; enter /);
    expect(at([["Battery nominal voltage", "abc"]])).toMatch(/Battery nominal voltage: "abc" cannot be read; enter /);
    expect(at([[""]], [["Hours rested", "long"]])).toMatch(/Hours rested: "long" cannot be read; enter /);
    expect(at([[""]], [[""]], [["DC volts", 20]])).toMatch(/meter: a range of 2 columns does not fit/);
    expect(at([[""]], [[""]], [[""]], [[0.2]])).toMatch(/rule: 0.2 is not possible; enter 0.5 to 0.9999/);
    expect(at([["colour", "red"]])).toMatch(/readings: "colour" cannot be read/);
  });
  it("another reading that cannot be read does not keep this one from being judged", () => {
    const others: Cell[][] = [
      ["Cranking voltage", "abc"],
      ["Test speed", 5000],
    ];
    expect(chg.CHECK([["ripple"]], [[0.08]], [[""]], others)).toEqual(
      chg.CHECK([["ripple"]], [[0.08]], [[""]], [["Test speed", 5000]]),
    );
  });
  describe("of a machine with one value that cannot be read", () => {
    const readings = CATALOGUE.filter(
      (entry): entry is QuantityEntry => entry.kind === "quantity" && isReading(entry) && !CONDITIONS.has(entry.id),
    );
    const usual = readings.map(({ label, min, max, decimals }): [string, Cell] => [
      label,
      USUAL[label] ?? Number((min + (Math.min(max, 100) - min) / 10).toFixed(decimals)),
    ]);
    const surroundings: Cell[][] = [...usual, ["Test speed", 5000], ["Idle speed", 1400], ["No-load test speed", 5000]];
    const judged = (machine: Cell[][]) =>
      chg.CHECK(
        usual.map(([label]) => [label]),
        usual.map(([, value]) => [value]),
        machine,
        surroundings,
      );
    const valuesOf = (entry: Entry): Cell[] =>
      entry.kind === "choice"
        ? entry.choices.map(({ value }) => value)
        : entry.kind === "quantity"
          ? [entry.min, (entry.min + entry.max) / 2, entry.max]
          : [];
    const facts = CATALOGUE.filter((entry) => entry.stage === "machine" && entry.kind !== "text");
    const others = (but: Entry) => MACHINE.filter(([label]) => label !== but.label);

    it.each(facts.map((entry) => [entry.label, entry] as const))(
      "%s: judges what that value does not matter to, and refuses the rest by name",
      (label, entry) => {
        const out = judged([...others(entry), [label, "abc"]]);
        const refused = out.map(([state]) => isCellError(state!));
        for (const [i, [state]] of out.entries())
          if (refused[i]) expect(text(state)).toMatch(new RegExp(`^${label.replace(/[+()]/gu, "\\$&")}: "abc" `, "u"));
        expect(refused).toContain(false);
        for (const value of ["", ...valuesOf(entry)]) {
          judged([...others(entry), [label, value]]).forEach((row, i) => {
            if (!refused[i] && !isCellError(row[0]!)) expect(out[i]).toEqual(row);
          });
        }
      },
    );

    it("leaves the others of a job sheet alone", () => {
      const states = new Map(
        judged([...others(entryOf("battery-nominal")!), ["Battery nominal voltage", "abc"]]).map(([state], i) => [
          usual[i]![0],
          text(state),
        ]),
      );
      expect(states.get("Rested voltage")).toMatch(/^Battery nominal voltage: "abc" /u);
      expect(states.get("Key-off draw")).toBe("pass");
      expect(states.get("Upper, forward, phase A")).not.toMatch(/abc/u);
      expect(states.get("Winding resistance, A–B")).not.toMatch(/abc/u);
    });
  });
  it("50,000 readings in one call, blanks and text among them", () => {
    const ids: Cell[][] = Array.from({ length: 50_000 }, (_, i) => [
      ["Rested voltage", "key-off-draw", "test-voltage"][i % 3]!,
    ]);
    const values: Cell[][] = Array.from({ length: 50_000 }, (_, i) => [
      i % 10 === 3 ? (i % 20 === 3 ? "" : "n/a") : i % 10 === 7 ? "low" : 12 + (i % 7) / 10,
    ]);
    const out = chg.CHECK(ids, values, [
      ["Battery type", "agm"],
      ["regulated-min", 13.5],
      ["regulated-max", 14.8],
    ]);
    expect(out).toHaveLength(50_000);
    expect(out.filter(([state]) => state === "not read")).toHaveLength(5000);
    expect(out.filter(([state]) => typeof state === "object")).toHaveLength(5000);
  });
});
