import type { Block } from "../../../src/core/cell";
import { jobFromCells, jobsFromTable, mergeJobs } from "../../../src/core/readings/from-cells";
import { faultMessage } from "../../../src/core/result";

const HEADER = ["Machine", "Key-off draw (A)", "Battery temperature (°F)"];
const number = (cells: readonly (string | number)[], id: string) => {
  const measured = jobsFromTable([HEADER, cells])[0]!.job.get(id);
  return measured?.kind === "number" ? measured.value : undefined;
};

describe("a unit in the header", () => {
  it.each([
    ["a number cell", 0.35, 70],
    ["text, as a text table has it", "0.35", "70"],
    ["text with a decimal comma", "0,35", "70,0"],
  ])("goes with a bare number: %s", (_, amps, warmth) => {
    expect(number(["Quad 1", amps, warmth], "key-off-draw")).toBe(350);
    // 70 °F is 21.1 °C by the definition of the degree Fahrenheit.
    expect(number(["Quad 1", amps, warmth], "battery-temperature")).toBeCloseTo(21.11, 2);
  });
  it("gives way to a unit in the cell", () => {
    expect(number(["Quad 1", "350 mA", "21 °C"], "key-off-draw")).toBe(350);
    expect(number(["Quad 1", "350 mA", "21 °C"], "battery-temperature")).toBe(21);
  });
  it("leaves 15 % as a spreadsheet keeps it, under a percent sign of the column's own", () => {
    const [{ job } = { job: undefined }] = jobsFromTable([
      ["Machine", "No-load AC, tolerance [%]"],
      ["Quad 1", 0.15],
    ]);
    expect(job?.get("no-load-tolerance")).toMatchObject({ kind: "number", value: 15 });
  });
  it("goes with bare text in a list as well", () => {
    const read = jobFromCells([["Key-off draw (A)", "0.35"]]);
    expect(read.ok && read.value.job.get("key-off-draw")).toMatchObject({ kind: "number", value: 350 });
  });
});

describe("the shape of a job's cells", () => {
  const values = (block: Block) => {
    const read = jobFromCells(block);
    return read.ok
      ? Object.fromEntries([...read.value.job].map(([id, m]) => [id, "value" in m ? m.value : m.kind]))
      : faultMessage(read.fault);
  };
  const VOLTS = { "rested-voltage": 11.9 };
  const BOTH = { "rested-voltage": 11.9, "key-off-draw": 60 };
  it.each<[shape: string, block: Block, read: object]>([
    ["1 × 2, label and value", [["Rested voltage", 11.9]], VOLTS],
    ["1 × 3, label, value and unit", [["Rested voltage", 11900, "mV"]], VOLTS],
    ["1 × 3 with a unit that is a label too", [["Battery capacity", 14, "Ah"]], { "battery-capacity": 14 }],
    ["1 × 4 with such a unit and a note", [["Battery capacity", 14, "Ah", "plate"]], { "battery-capacity": 14 }],
    ["1 × 2 with the value not read", [["Rested voltage", ""]], {}],
    ["1 × 3 with a number before the label", [["6.1", "Rested voltage", 11.9]], VOLTS],
    ["2 × 1, label over value", [["Rested voltage"], [11.9]], VOLTS],
    ["2 × 1, label over a blank", [["Rested voltage"], [""]], {}],
    ["3 × 1 with a blank between", [["Rested voltage"], [null], [11.9]], VOLTS],
    ["3 × 1 with a title", [["This morning"], ["Rested voltage"], [11.9]], VOLTS],
    [
      "2 × 2, a label over its value beside a blank column",
      [
        ["Rested voltage", ""],
        [11.9, ""],
      ],
      VOLTS,
    ],
    [
      "2 × 2, a label in each row",
      [
        ["Rested voltage", 11.9],
        ["Key-off draw", 60],
      ],
      BOTH,
    ],
    [
      "2 × 2, a label over each column",
      [
        ["Rested voltage", "Key-off draw"],
        [11.9, 60],
      ],
      BOTH,
    ],
    [
      "2 × 2, one label known, in a row",
      [
        ["Rested voltage", 11.9],
        ["Colour", "red"],
      ],
      VOLTS,
    ],
    [
      "2 × 2, one label known, over a column",
      [
        ["Rested voltage", "Colour"],
        [11.9, "red"],
      ],
      VOLTS,
    ],
    [
      "2 × 2, labels over blanks",
      [
        ["Machine", "Rested voltage"],
        ["", ""],
      ],
      {},
    ],
    [
      "2 × 3, numbered rows",
      [
        ["1", "Rested voltage", 11.9],
        ["2", "Key-off draw", 60],
      ],
      BOTH,
    ],
    [
      "3 × 2 below a title",
      [
        ["This morning", ""],
        ["Rested voltage", "Key-off draw"],
        [11.9, 60],
      ],
      BOTH,
    ],
  ])("%s", (_, block, read) => {
    expect(values(block)).toEqual(read);
  });

  it.each<[shape: string, block: Block, sentence: string]>([
    ["1 × 1, a label", [["Rested voltage"]], "a row of labels without a row of readings below"],
    ["1 × 1, a value", [[11.9]], '"11.9" cannot be read'],
    ["1 × 2, labels", [["Rested voltage", "Key-off draw"]], "a row of labels without a row of readings below"],
    ["1 × 2, labels of words", [["Machine", "Customer"]], "a row of labels without a row of readings below"],
    ["1 × 4, pairs", [["Rested voltage", 11.9, "Key-off draw", 60]], "a row of labels without a row of readings below"],
    ["2 × 1, labels", [["Rested voltage"], ["Key-off draw"]], "more than one label in a single column"],
    ["2 × 1, labels of words", [["Machine"], ["Customer"]], "more than one label in a single column"],
    ["3 × 1, a label over two values", [["Rested voltage"], [11.9], [12.1]], "2 rows of readings"],
    ["4 × 1, labels and values in turn", [["Rested voltage"], [11.9], ["Key-off draw"], [60]], "more than one label"],
    [
      "3 × 2, labels over two rows",
      [
        ["Rested voltage", "Key-off draw"],
        [11.9, 60],
        [12, 50],
      ],
      "2 rows of readings",
    ],
    [
      "2 × 2, a value beside the label and one below",
      [
        ["Rested voltage", 11.9],
        [12.1, ""],
      ],
      "both across and down",
    ],
    [
      "2 × 2, labels of words alone",
      [
        ["Machine", "Customer"],
        ["Serial number", "Phone"],
      ],
      "both across and down",
    ],
    [
      "2 × 2, names that are labels",
      [
        ["Machine", "Rested voltage"],
        ["Customer", 11.9],
      ],
      "both across and down",
    ],
    [
      "2 × 4, two pairs a row",
      [
        ["Rested voltage", 11.9, "Key-off draw", 60],
        ["Idle voltage", 13, "", ""],
      ],
      '"Key-off draw"',
    ],
    [
      "2 × 4, pairs over a blank row",
      [
        ["Rested voltage", 11.9, "Key-off draw", 60],
        ["", "", "", ""],
      ],
      "a row of labels",
    ],
  ])("says what to give instead of guessing: %s", (_, block, sentence) => {
    expect(values(block)).toMatch(/^readings: .*(?:give|enter) .*\.$/u);
    expect(values(block)).toContain(sentence);
  });

  it("names the label that stands where a number belongs", () => {
    const read = jobFromCells([
      ["Rested voltage", "Key-off draw"],
      ["Idle speed", "Test speed"],
    ]);
    const faults = read.ok ? read.value.issues.flatMap(({ fault }) => (fault ? [faultMessage(fault)] : [])) : [];
    expect(faults[0]).toMatch(/^Rested voltage: "Key-off draw" cannot be read; enter a number in V/u);
  });

  it("places what cannot be read in the range as it was given", () => {
    const read = jobFromCells([
      ["Monday", "", ""],
      ["6.1", "Rested voltage", "abc"],
      ["6.2", "Key-off draw", 60],
    ]);
    expect(read.ok && read.value.issues).toMatchObject([{ row: 1, column: 2, label: "Rested voltage" }]);
    const below = jobFromCells([
      ["Monday", ""],
      ["Rested voltage", "Key-off draw"],
      [11.9, "abc"],
    ]);
    expect(below.ok && below.value.issues).toMatchObject([{ row: 2, column: 1, label: "Key-off draw" }]);
  });
});

describe("a speed in the label of a reading", () => {
  const speeds = (header: readonly string[], ...rows: (readonly (string | number)[])[]) =>
    jobsFromTable([header, ...rows]).map(({ job }) =>
      ["idle-rpm", "test-rpm", "no-load-rpm", "no-load-rpm-2"].map((id) => {
        const measured = job.get(id);
        return measured?.kind === "number" ? measured.value : undefined;
      }),
    );

  it("is the speed of the rows that have the reading, and of no other", () => {
    expect(
      speeds(
        ["Machine", "V @ 1200 rpm", "V @ 5000 rpm", "AC 1-2 @ 3000 rpm"],
        ["M 1", 13.4, 14.3, ""],
        ["M 2", "", "", 49],
      ),
    ).toEqual([
      [1200, 5000, undefined, undefined],
      [undefined, undefined, 3000, undefined],
    ]);
  });
  it("gives way to the speed of a cell, also where the column stands behind it", () => {
    expect(speeds(["V @ 5000 rpm", "Test rpm"], [14.3, 4600], [14.3, ""])).toEqual([
      [undefined, 4600, undefined, undefined],
      [undefined, 5000, undefined, undefined],
    ]);
  });
  it("gives way to the machine's own data, as no reading does", () => {
    const machine = jobsFromTable([
      ["Test speed", "Rested voltage"],
      [4000, 12.6],
    ])[0]!.job;
    const row = (...cells: string[]) => jobsFromTable([cells.slice(0, 2), cells.slice(2)])[0]!.job;
    const merged = mergeJobs(machine, row("V @ 5000 rpm", "Rested voltage", "14.3", "12.1"));
    expect([merged.get("test-rpm"), merged.get("rested-voltage")]).toMatchObject([{ value: 4000 }, { value: 12.1 }]);
    expect(mergeJobs(machine, row("Test speed", "V", "5000", "")).get("test-rpm")).toMatchObject({ value: 5000 });
    expect(mergeJobs(new Map(), row("V @ 5000 rpm", "", "14.3", "")).get("test-rpm")).toMatchObject({ value: 5000 });
  });
  it("is not that of a column that was not used, and unknown where the labels of two readings disagree", () => {
    expect(speeds(["V @ 5000 rpm", "V @ 3000 rpm"], [14.3, 14.1])[0]![1]).toBe(5000);
    expect(speeds(["V @ 5000 rpm", "Charging amps @ 4000 rpm"], [14.3, 2], ["", 2])).toMatchObject([
      [undefined, undefined],
      [undefined, 4000],
    ]);
  });
  it("tells the second speed of a no-load check from the first", () => {
    const header = [2000, 5000, 8000].flatMap((rpm) => [`AC 1-2 @ ${rpm} rpm`, `AC 2-3 @ ${rpm} rpm`]);
    const read = jobsFromTable([header, [41, 42, 102, 103, 160, 161]])[0]!;
    const value = (id: string) => (read.job.get(id) as { value?: number } | undefined)?.value;
    expect(["no-load-ab", "no-load-bc", "no-load-2-ab", "no-load-2-bc"].map(value)).toEqual([41, 42, 102, 103]);
    expect([value("no-load-rpm"), value("no-load-rpm-2")]).toEqual([2000, 5000]);
    expect(read.issues.map(({ kind, label }) => [kind, label])).toEqual([
      ["doubled label", "AC 1-2 @ 8000 rpm"],
      ["doubled label", "AC 2-3 @ 8000 rpm"],
    ]);
  });
  it("counts in a list of labels and values too", () => {
    const read = jobFromCells([
      ["Rested voltage", 12.7],
      ["Voltage @ 5000 rpm", 14.3],
    ]);
    expect(read.ok && read.value.job.get("test-rpm")).toMatchObject({ value: 5000 });
  });
});
