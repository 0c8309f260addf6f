import type { Block } from "../../../src/core/cell";
import { readTerms } from "../../../src/core/quote/terms";
import { faultMessage } from "../../../src/core/result";
import { faulty, made, PRICES, TERMS } from "./shop";

describe("a quote from a verdict", () => {
  it("sells a proven part, follows superseded-by, and puts new and rebuilt side by side", () => {
    const { kind, alternatives } = made(faulty);
    expect(kind).toBe("repair");
    expect(alternatives.map((a) => a.name)).toEqual([
      "Replace regulator-rectifier, new",
      "Replace regulator-rectifier, rebuilt",
    ]);
    expect(alternatives[0]!.lines.map((l) => [l.kind, l.partNumber, l.net.toFixed(2), l.note])).toEqual([
      ["part", "RR-110", "124.90", "in stock"],
      ["core charge", "RR-110", "15.00", ""],
      ["material", "CN-3", "8.35", "in stock"],
      ["labour", "", "76.00", "hours by common practice"],
      ["testing", "", "47.50", "30 min"],
      ["supplies", "", "3.80", ""],
    ]);
    // 124.90 + 15.00 + 8.35 + 76.00 + 47.50 + 3.80, worked by hand; tax 7 % line by line, none on the core charge.
    expect(alternatives[0]!.net.toFixed(2)).toBe("275.55");
    expect(alternatives[0]!.tax.toFixed(2)).toBe("18.24");
    expect(alternatives[0]!.total.toFixed(2)).toBe("293.79");
  });
  it.each(["suspect", "unproven"] as const)(
    "does not sell a part that is only %s: the further check is quoted",
    (state) => {
      const { kind, reason, alternatives } = made({
        ...faulty,
        state,
        nextCheck: { label: "Diode check", minutes: 12 },
      });
      expect(kind).toBe("further check");
      expect(reason).toMatch(/not proven, so it is not sold/);
      expect(alternatives).toHaveLength(1);
      expect(alternatives[0]!.lines.map((l) => [l.kind, l.net.toFixed(2)])).toEqual([
        ["testing", "47.50"],
        ["further check", "19.00"],
      ]);
    },
  );
  it("quotes no part where no fault was found", () => {
    const result = made({ state: "serviceable", sentence: "No fault found." });
    expect(result.kind).toBe("none");
    expect(result.alternatives[0]!.lines.map((l) => l.kind)).toEqual(["testing"]);
  });
  it("prices a joint as labour and material, repair beside replacement, and names what has no price", () => {
    const { alternatives } = made({ part: "wiring", state: "faulty", sentence: "Joint." });
    expect(alternatives.map((a) => [a.name, a.missing])).toEqual([
      ["Renew the joint", []],
      ["Replace the cable run", ["cable: no row in the price list"]],
      ["Replace the main fuse and find why it blew", ["fuse: no row in the price list"]],
      ["Renew the phase connector", []],
    ]);
  });
  it.each([
    [["high-resistance-ground"], ["Renew the joint", "Replace the cable run"]],
    [["high-resistance-bplus"], ["Renew the joint", "Replace the cable run"]],
    [["main-fuse-blown"], ["Replace the main fuse and find why it blew", "Replace the cable run"]],
    [["high-resistance-phase"], ["Renew the phase connector"]],
    [["joint-fails-hot"], ["Renew the joint", "Replace the cable run", "Renew the phase connector"]],
    [
      ["high-resistance-phase", "high-resistance-ground"],
      ["Renew the phase connector", "Renew the joint", "Replace the cable run"],
    ],
  ] as const)("calls for the ways that put %j right, the one made for it first", (faults, ways) => {
    const { alternatives, reason } = made({ part: "wiring", state: "faulty", faults, sentence: "Wiring." });
    expect(alternatives.map(({ name }) => name)).toEqual(ways);
    expect(reason).toBe("Wiring.");
  });
  it.each([
    ["parasitic-drain", "Trace the drain and stop it"],
    ["excessive-load", "Take off the added load"],
  ] as const)("does not offer what belongs to another fault of the part: %s", (fault, way) => {
    const { alternatives } = made({ part: "load", state: "faulty", faults: [fault], sentence: "" });
    expect(alternatives.map(({ name }) => name)).toEqual([way]);
  });
  it("says on the line of labour what is put right, and takes a fuse along only where the run holds one", () => {
    const more: Block = [
      ...PRICES,
      ["F-30", "Fuse 30 A", "fuse", "", "", "", 1.2, "", "", "", 9, "", ""],
      ["C-10", "Cable", "cable", "", "", "", 12, "", "", "", 9, "", ""],
    ];
    const run = (fault: "high-resistance-bplus" | "high-resistance-ground") =>
      made({ part: "wiring", state: "faulty", faults: [fault], sentence: "" }, more).alternatives[1]!.lines;
    const fuses = (lines: ReturnType<typeof run>) => lines.filter(({ partNumber }) => partNumber === "F-30").length;
    expect([fuses(run("high-resistance-bplus")), fuses(run("high-resistance-ground"))]).toEqual([1, 0]);
    expect(run("high-resistance-bplus").find(({ kind }) => kind === "labour")!.note).toBe(
      "resistance in the B+ run; hours by common practice",
    );
  });
  it("lists every way where only the part is known, and says why", () => {
    expect(made({ part: "load", state: "faulty", sentence: "Load: faulty." }).reason).toBe(
      "Load: faulty. What is wrong with it is not given, so every way is listed.",
    );
    // A part that is changed whole needs no reason: the way is the same whatever is wrong with it.
    expect(made(faulty).reason).toBe(faulty.sentence);
  });
  it("works out a price from cost and margin of the selling price, and asks the deposit", () => {
    const { alternatives } = made({ part: "battery", state: "faulty", sentence: "" });
    expect(alternatives[0]!.lines.slice(0, 2).map((l) => [l.kind, l.net.toFixed(2)])).toEqual([
      ["part", "80.00"],
      ["deposit", "5.00"],
    ]);
  });
  it("never chooses between two prices", () => {
    const twice = [...PRICES, ["B-14", "Battery 14 Ah", "battery", "new", "", "", 99, "", "", "", "", "", ""]];
    const { alternatives, issues } = made({ part: "battery", state: "faulty", sentence: "" }, twice);
    expect(issues).toEqual(["Lines 4 and 7 below the header: B-14 (new) has two prices; keep one."]);
    expect(alternatives[0]!.missing).toContain("B-14: two prices in the list");
    expect(alternatives[0]!.lines.some((l) => l.kind === "part")).toBe(false);
  });
  it("prices warranty work at zero with its reason", () => {
    const { alternatives } = made(faulty, PRICES, [...TERMS, ["Warranty", "part failed within 12 months"]]);
    const { lines, total, missing } = alternatives[0]!;
    expect(lines.map((l) => l.kind)).toContain("part");
    expect(total.toFixed(2)).toBe("0.00");
    expect([...new Set(lines.map((l) => l.note))]).toEqual(["Warranty: part failed within 12 months"]);
    expect(missing).toEqual([]);
  });
  it("prices warranty work at zero even where the list has no price and the terms no rate", () => {
    const { alternatives } = made(
      { part: "battery", state: "faulty", sentence: "" },
      [PRICES[0]!, ["B-14", "Battery 14 Ah", "battery", "", "any", "", "", "", "", 5, "", "", ""]],
      [["Warranty", "failed in use"]],
    );
    expect([alternatives[0]!.total.toFixed(2), alternatives[0]!.missing]).toEqual(["0.00", []]);
  });
  it("never takes a rate that is not set for a free hour", () => {
    const { alternatives } = made(faulty, PRICES, [
      ["Diagnosis minutes", 30],
      ["Machine", "Ridge 450"],
    ]);
    expect(alternatives[0]!.lines.some((l) => l.kind === "labour" || l.kind === "testing")).toBe(false);
    expect(alternatives[0]!.missing).toEqual([
      "labour rate: not set in the terms",
      "labour or diagnosis rate: not set in the terms",
    ]);
    const check = made({ ...faulty, state: "suspect", nextCheck: { label: "Diode check", minutes: 12 } }, PRICES, []);
    expect(check.alternatives[0]!.missing).toEqual(["labour or diagnosis rate: not set in the terms"]);
  });
  it("a shop that asks nothing for an hour may say so", () => {
    const { alternatives } = made(faulty, PRICES, [
      ["Labour rate", 0],
      ["Machine", "Ridge 450"],
    ]);
    expect(alternatives[0]!.missing).toEqual([]);
    expect(alternatives[0]!.lines.find((l) => l.kind === "labour")!.net.toFixed(2)).toBe("0.00");
  });
  it("does not invent the time of a check that is not known", () => {
    const { alternatives } = made({ ...faulty, state: "suspect" });
    expect(alternatives[0]!.lines.map((l) => l.kind)).toEqual(["testing"]);
    expect(alternatives[0]!.missing[0]).toMatch(/time is not known/);
  });
  it("quotes a drain and an added load as labour and material, without a part", () => {
    const { alternatives } = made({ part: "load", state: "faulty", sentence: "Drain." });
    expect(alternatives.map((a) => a.name)).toEqual(["Trace the drain and stop it", "Take off the added load"]);
    for (const { lines } of alternatives) {
      expect(lines.map((l) => l.kind)).toEqual(expect.arrayContaining(["material", "labour"]));
      expect(lines.some((l) => l.kind === "part")).toBe(false);
    }
  });
  it("takes a fuse, hardware and the connector along where the shop lists them", () => {
    const more: Block = [
      ...PRICES,
      ["F-30", "Fuse 30 A", "fuse", "", "", "", 1.2, "", "", "", 9, "", ""],
      ["H-6", "Bolts, set", "hardware", "", "", "", 2.4, "", "", "", 9, "", ""],
    ];
    const { alternatives } = made(faulty, more);
    const along = alternatives[0]!.lines.filter((l) => l.kind === "material").map((l) => l.partNumber);
    expect(along).toEqual(["CN-3", "F-30", "H-6"]);
  });
  it("goes by the part number of the part at fault, not by that of another", () => {
    const stators: Block = [
      PRICES[0]!,
      ["S-1", "Stator", "stator", "", "Elsewhere", "", 210, "", "", "", 1, "", ""],
      ["S-2", "Stator", "stator", "", "Elsewhere", "", 220, "", "", "", 1, "", ""],
      ["G-1", "Gasket", "gasket", "", "", "", 6, "", "", "", 1, "", ""],
    ];
    const terms: Block = [
      ["Labour rate", 90],
      ["Machine", "Ridge 450"],
      ["Regulator part number", "S-1"],
      ["Stator part number", "s-2"],
    ];
    const { alternatives } = made({ part: "stator", state: "faulty", sentence: "" }, stators, terms);
    expect(alternatives[0]!.lines[0]).toMatchObject({ partNumber: "S-2" });
    expect(alternatives[0]!.lines[0]!.note).toBe("in stock; listed for Elsewhere: check the fit");
  });
  it("does not sell a part whose successor is not in the list", () => {
    const gone: Block = [
      PRICES[0]!,
      ["B-1", "", "battery", "", "", "", 10, "", "", "", "", "", "B-2"],
      ["B-1", "", "battery", "used", "", "", 4, "", "", "", "", "", ""],
    ];
    const { alternatives } = made({ part: "battery", state: "faulty", sentence: "" }, gone);
    expect(alternatives.map((a) => [a.name, a.missing])).toEqual([
      ["Replace battery, new", ["B-1: superseded by B-2, which the list does not sell"]],
      ["Replace battery, used", []],
    ]);
  });
  it("names amounts below zero and takes none", () => {
    const { issues, alternatives } = made({ part: "battery", state: "faulty", sentence: "" }, [
      PRICES[0]!,
      ["B-1", "", "battery", "", "", "", 10, "", "", -5, "", "", ""],
    ]);
    expect(issues).toEqual(["Line 1 below the header, deposit: -5 is below zero."]);
    expect(alternatives[0]!.lines.some((l) => l.kind === "deposit")).toBe(false);
  });
  it("a superseded loop ends", () => {
    const loop = [
      PRICES[0]!,
      ["A", "", "battery", "", "", "", 10, "", "", "", "", "", "B"],
      ["B", "", "battery", "", "", "", 11, "", "", "", "", "", "A"],
    ];
    expect(made({ part: "battery", state: "faulty", sentence: "" }, loop).alternatives.length).toBeGreaterThan(0);
  });

  it("refuses a rate that stands twice, and says which hours it does not know", () => {
    const faultOf = (...rows: Block) => {
      const terms = readTerms(rows);
      return terms.ok ? "" : faultMessage(terms.fault);
    };
    expect(faultOf(["Labour rate", 80], ["Shop rate", 95])).toBe(
      'terms, labour rate: "95" cannot be read; enter one value only.',
    );
    expect(faultOf(["Hours, replace stator", 2], ["Hours, replace stator", 3])).toMatch(/one value only/u);
    expect(faultOf(["Labour rate", 80], ["Shop rate", 80], ["Machine", "A"], ["Machine", "B"])).toBe("");
    // What is known of one job goes over the shop's terms.
    const job = readTerms([["Labour rate", 80]], [["Labour rate", 95]]);
    expect(job.ok && job.value.labourRate?.toFixed()).toBe("95");
    expect(readTerms([["Hours, replace statr", 4]])).toMatchObject({ value: { unknown: ["hours, replace statr"] } });
  });

  // ISO 4217 gives the yen no minor unit and the Kuwaiti dinar three decimals.
  it.each([
    ["JPY", 0],
    ["KWD", 3],
    ["EUR", 2],
  ])("rounds %s to its own decimals where the terms give none", (currency, decimals) => {
    expect(readTerms([["Currency", currency]])).toMatchObject({ value: { money: { decimals } } });
    expect(
      readTerms([
        ["Decimals", 2],
        ["Currency", currency],
      ]),
    ).toMatchObject({ value: { money: { decimals: 2 } } });
  });

  it("knows the terms by what shops call them, and says which rate or tax it does not know", () => {
    const own: Block = [
      ["Shop rate", 95],
      ["Parts tax", "7 %"],
      ["Labor tax", "7 %"],
      ["Sales tax", "7 %"],
      ["Opening hours", "8 to 5"],
      ["Tax figured on", "line"],
      ...TERMS.filter(([label]) => label !== "Labour rate" && !String(label).startsWith("Tax on")),
    ];
    const { total, missing } = made(faulty, PRICES, own).alternatives[0]!;
    expect([total.toFixed(2), missing]).toEqual([
      made(faulty).alternatives[0]!.total.toFixed(2),
      ["sales tax: no term of this name is known, so it was not used"],
    ]);
  });
});
