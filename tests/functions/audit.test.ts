import { audit } from "../../src/functions/fleet";
import { verdict } from "../../src/functions/verdict";

const HEADER = [
  "Machine",
  "Battery type",
  "Capacity (Ah)",
  "Rested voltage",
  "Key-off draw (mA)",
  "Cranking voltage",
  "Running voltage at test speed",
  "Test speed",
];
const ROWS = [
  ["Quad 1", "agm", 14, 12.8, 1, 10.9, 14.3, 5000],
  ["Quad 2", "agm", 14, 12.3, 350, 10.1, 14.2, 5000],
  ["", "", "", "", "", "", "", ""],
  ["Quad 3", "flooded", 12, "12,1 V", 2, 9.2, 12.0, 5000],
  ["Quad 4", "agm", 14, "", "", "", "", ""],
  ["Quad 5", "agm", 14, "abc", 1, 10.9, 14.3, 5000],
];

describe("CHG.AUDIT", () => {
  const out = audit([HEADER, ...ROWS]);
  it("spills one row beside each row of the table, blank beside a blank one", () => {
    expect(out).toHaveLength(7);
    expect(out[0]).toEqual(["Part", "State", "Chance", "Next check", "Days until flat", "Order", "Verdict"]);
    expect(out[3]).toEqual(["", "", "", "", "", "", ""]);
  });
  it("says of each row what VERDICT says of it", () => {
    for (const i of [0, 1, 3, 4]) {
      const [[part, state, chance, sentence] = []] = verdict([HEADER, ROWS[i]!]);
      const row = out[i + 1]!;
      if (part === "not read") expect(row[1]).toBe("not read");
      else expect([row[0], row[1], row[2], row[6]]).toEqual([part, state, chance, sentence]);
    }
  });
  it("names what it cannot read instead of dropping it", () => {
    expect(out[6]![1]).toBe("not understood");
    expect(out[6]![6]).toBe('Rested voltage: "abc" cannot be read; enter a number in V.');
  });
  it.each([
    ["rows without headers", [ROWS, undefined], /^A known header in the first row is missing/u],
    [
      "a title over the headers",
      [[HEADER.map((_, i) => (i ? "" : "Spring")), HEADER, ...ROWS], undefined],
      /first row/u,
    ],
    ["names that say nothing", [ROWS, [HEADER.map((_, i) => `c${i}`)]], /^A known name among the names is missing/u],
  ])("takes no row for headers and no reading for nothing: %s", (_, [table, names], sentence) => {
    expect(audit(table!, undefined, undefined, undefined, names)).toEqual([
      [{ error: "#VALUE!", message: expect.stringMatching(sentence) }],
    ]);
  });
  it("stays blank beside a table that is", () =>
    expect(
      audit([
        ["", ""],
        ["", ""],
      ]).slice(1),
    ).toEqual([["", "", "", "", "", "", ""]]));
  it("puts the machine with the drain before the sound one, and orders every row once", () => {
    const order = [1, 2, 4, 5, 6].map((r) => out[r]![5] as number);
    expect([...order].sort()).toEqual([1, 2, 3, 4, 5]);
    expect(out[2]![5] as number).toBeLessThan(out[1]![5] as number);
  });
  it("dates the flat battery: a 350 mA draw empties 14 Ah in about a day", () => {
    // 0.35 A · 24 h = 8.4 Ah a day; from half charge and a little, some hours are left (arithmetic).
    expect(out[2]![4] as number).toBeLessThan(1);
    expect(out[1]![4] as number).toBeGreaterThan(60);
  });
  it("takes machine data from a table of its own", () => {
    const bare = [
      ["Machine", "Rested voltage", "Key-off draw (mA)"],
      ["Quad 1", 12.8, 1],
    ];
    expect(audit(bare)[1]![4]).toBe("");
    expect(
      audit(bare, [
        ["Machine", "Battery type", "Capacity (Ah)"],
        ["quad 1", "agm", 14],
      ])[1]![4] as number,
    ).toBeGreaterThan(60);
  });
  it("takes names for the columns where the headers do not say, and is then rows alone", () => {
    const rows = [
      ["x", "Quad 2", 12.3, 0.35],
      ["", "", "", ""],
    ];
    const named = audit(rows, [], [], [], [["", "Machine", "Rested voltage", "Key-off draw [A]"]]);
    const headed = audit([["", "Machine", "Rested voltage", "Key-off draw [A]"], ...rows]);
    expect(named).toEqual(headed.slice(1));
    expect(named[0]![1]).toBe("faulty");
    expect(named[1]!.every((cell) => cell === "")).toBe(true);
    const [[fault] = []] = audit(rows, [], [], [], [["Machine"]]);
    expect(fault).toMatchObject({ error: "#VALUE!", message: expect.stringContaining("1 names for 4 columns") });
  });
  it.each([
    ...["Total", "Subtotal", "Average:", "Promedio", "Total général", "Gesamt", "Total: 3 machines", "Sum (3)"],
    ...["Subtotal south", "Sub-totals: yard 2", "Sous-total Lyon", "Zwischensumme Halle 3"],
  ])("leaves a row of totals blank: %s", (word) => {
    const out = audit([HEADER, ROWS[0]!, [word, "", 14, 12.8, 1, "", "", ""]]);
    expect(out[1]![1]).not.toBe("");
    expect(out[2]!.every((cell) => cell === "")).toBe(true);
  });
  it.each(["Total Lift 4", "Sum-1", "Gesamtschule Nord", "Subtotaler 2"])(
    "audits a machine that is called nearly so: %s",
    (word) => {
      const out = audit([HEADER, ROWS[0]!, [word, "", 14, 12.8, 1, "", "", ""]]);
      expect(out[2]![1]).not.toBe("");
    },
  );
});
