import type { Step } from "../../../src/workbook/port";
import type { Bench } from "./bench";

/** What one batch may do, and that a batch is done whole or not at all. */
export function batchContract(bench: Bench): void {
  const { area, itUndoes, refusal, values, write } = bench;
  describe("a batch", () => {
    const everyKind = (): Step[] => [
      { do: "add sheet", sheet: "Plan" },
      write(
        0,
        0,
        [
          ["Reading", "State"],
          ["12.6", "pass"],
        ],
        "Plan",
      ),
      {
        do: "format",
        at: area(0, 0, 1, 2, "Plan"),
        format: {
          bold: true,
          italic: false,
          size: 9,
          colour: "FFFFFF",
          fill: "1F4E5F",
          align: "center",
          vertical: "middle",
          wrap: true,
          number: "0.00",
          border: "bottom",
        },
      },
      {
        do: "validate",
        at: area(1, 1, 1, 1, "Plan"),
        rule: { kind: "list", choices: ["pass", "fail, twice"], message: "Choose one." },
      },
      {
        do: "validate",
        at: area(1, 0, 1, 1, "Plan"),
        rule: { kind: "hint", title: "Rested voltage", message: "At the posts." },
      },
      {
        do: "colour rule",
        at: area(1, 0, 1, 1, "Plan"),
        rule: { words: [{ equals: "pass", fill: "DDF0E0", colour: "14532D" }], decidedBy: { rows: 0, columns: 1 } },
      },
      { do: "column width", sheet: "Plan", column: 0, characters: 30 },
      { do: "row height", sheet: "Plan", row: 0, points: 24 },
      { do: "freeze", sheet: "Plan", rows: 1, columns: 0 },
      { do: "print", at: area(0, 0, 2, 2, "Plan"), setup: { orientation: "portrait", fitWidthPages: 1, titleRows: 1 } },
      { do: "table", at: area(0, 0, 2, 2, "Plan"), name: "Readings" },
      { do: "merge", at: area(4, 0, 1, 2, "Plan") },
      { do: "name", name: "FirstReading", at: area(1, 0, 1, 1, "Plan") },
    ];

    it("carries out every kind of step", async () => {
      await bench.workbook.apply(everyKind());
      expect(await values(area(0, 0, 2, 2, "Plan"))).toEqual([
        ["Reading", "State"],
        ["12.6", "pass"],
      ]);
      expect(await bench.workbook.mergedIn(area(0, 0, 10, 10, "Plan"))).toEqual([area(4, 0, 1, 2, "Plan")]);
      expect(await bench.workbook.mergedIn(area(0, 0, 2, 2, "Plan"))).toEqual([]);
    });

    it("tells of tables and takes columns into one", async () => {
      await bench.workbook.apply([
        write(1, 1, [
          ["Machine", "State"],
          ["Quad 1", "pass"],
        ]),
        { do: "table", at: area(1, 1, 2, 2), name: "Quads" },
      ]);
      const narrow = { name: "Quads", at: area(1, 1, 2, 2), totals: false };
      expect(await bench.workbook.tablesIn(area(0, 0, 9, 9))).toEqual([narrow]);
      expect(await bench.workbook.tablesIn(area(0, 3, 9, 9))).toEqual([]);
      await bench.workbook.apply([
        write(1, 3, [["Part"], ["stator"]]),
        { do: "widen table", at: narrow.at, name: "Quads", by: 1 },
      ]);
      expect(await bench.workbook.tablesIn(area(0, 3, 9, 9))).toEqual([{ ...narrow, at: area(1, 1, 2, 3) }]);
      expect(await values(area(1, 1, 2, 3))).toEqual([
        ["Machine", "State", "Part"],
        ["Quad 1", "pass", "stator"],
      ]);
      // A table in the way, and one that is not there, stop it: nothing changes.
      await bench.workbook.apply([
        write(1, 5, [["Notes"], [1]]),
        { do: "table", at: area(1, 5, 2, 1), name: "Beside" },
      ]);
      const wide = area(1, 1, 2, 3);
      const over = await refusal([write(5, 5, [[1]]), { do: "widen table", at: wide, name: "Quads", by: 2 }]);
      expect(over.reason).toBe("occupied");
      expect((await refusal([{ do: "widen table", at: wide, name: "None", by: 1 }])).reason).toBe("missing");
      expect(await values(area(5, 5))).toEqual([[""]]);
      expect(await bench.workbook.tablesIn(area(0, 0, 9, 5))).toEqual([{ ...narrow, at: wide }]);
    });

    it.each([
      ["a missing sheet", () => write(0, 0, [[1]], "Nowhere"), "missing"],
      [
        "values that are not the area's shape",
        () => ({ do: "write", at: area(0, 0, 2, 2), values: [[1, 2], [3]] }) as Step,
        "host",
      ],
      ["a merge across a merge", () => ({ do: "merge", at: area(4, 1, 2, 2, "Plan") }) as Step, "merged"],
      [
        "a table over a table",
        () => ({ do: "table", at: area(1, 1, 3, 3, "Plan"), name: "Other" }) as Step,
        "occupied",
      ],
      [
        "a table's name twice",
        () => ({ do: "table", at: area(20, 0, 2, 2, "Plan"), name: "READINGS" }) as Step,
        "occupied",
      ],
    ])("does nothing at all where it meets %s", async (_, bad, reason) => {
      await bench.workbook.apply([write(0, 0, [["kept", { formula: "=1+1" }]])]);
      const before = await bench.workbook.read(area(0, 0, 6, 6));
      const fault = await refusal([write(0, 0, [["lost", "lost"]]), ...everyKind(), bad()]);
      expect(fault.reason).toBe(reason);
      expect(await bench.workbook.sheetNames()).toEqual([bench.sheet]);
      expect(await bench.workbook.read(area(0, 0, 6, 6))).toEqual(before);
      // Nothing of the failed batch may stand in the way of the next.
      await bench.workbook.apply(everyKind());
      expect(await bench.workbook.sheetNames()).toEqual([bench.sheet, "Plan"]);
    });

    it("takes charts, to draw them or to keep them for files", async () => {
      const chart: Step = {
        do: "chart",
        sheet: bench.sheet,
        chart: {
          title: "Running voltage",
          kind: "line",
          series: [{ name: "volts", y: area(1, 1, 3, 1) }],
          xTitle: "rpm",
          yTitle: "V",
          anchor: { row: 5, column: 0, rows: 10, columns: 5 },
        },
      };
      await bench.workbook.apply([write(0, 0, [["rpm", "volts"]]), chart]);
      expect(await values(area(0, 0, 1, 2))).toEqual([["rpm", "volts"]]);
      expect((await refusal([{ ...chart, sheet: "Nowhere" }])).reason).toBe("missing");
    });

    itUndoes("is one step for the undo key", async () => {
      await bench.workbook.apply([write(0, 0, [["before"]])]);
      await bench.workbook.apply([write(0, 0, [["after"], [2]]), ...everyKind(), write(1, 0, [[3]])]);
      await bench.host.undo!();
      expect(await bench.workbook.sheetNames()).toEqual([bench.sheet]);
      expect(await values(area(0, 0, 2, 1))).toEqual([["before"], [""]]);
    });
  });
}
