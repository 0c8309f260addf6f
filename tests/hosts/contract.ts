import { WorkbookFault, type Area, type CellWrite, type Step, type Workbook } from "../../src/workbook/port";

/** A fresh workbook of one host, with one empty sheet, and what a person can do to it. */
export interface HostUnderTest {
  readonly workbook: Workbook;
  /** Types into one cell the way a person does. */
  readonly type?: (sheet: string, row: number, column: number, text: string) => Promise<void>;
  /** The undo key. */
  readonly undo?: () => Promise<void>;
  readonly close?: () => Promise<void> | void;
}

/** What a host can do besides; what it cannot is skipped, and the test run says so. */
export interface Abilities {
  /** Formulas have values at once, not only after a file was recalculated. */
  readonly calculates: boolean;
  /** A person can type into it: `type` is given. */
  readonly typedInto: boolean;
  /** It has an undo key: `undo` is given. */
  readonly undoes: boolean;
}

/** What every host must do alike; each host's tests call it with its own workbooks. */
export function workbookContract(makeWorkbook: () => Promise<HostUnderTest>, abilities: Abilities): void {
  const itCalculates = abilities.calculates ? it : it.skip;
  const itIsTypedInto = abilities.typedInto ? it : it.skip;
  const itUndoes = abilities.undoes ? it : it.skip;
  let host: HostUnderTest;
  let workbook: Workbook;
  let sheet: string;

  beforeEach(async () => {
    host = await makeWorkbook();
    workbook = host.workbook;
    sheet = (await workbook.sheetNames())[0]!;
  });
  afterEach(async () => host.close?.());

  const area = (row: number, column: number, rows = 1, columns = 1, on = sheet): Area => ({
    sheet: on,
    row,
    column,
    rows,
    columns,
  });
  const write = (row: number, column: number, values: CellWrite[][], on = sheet): Step => ({
    do: "write",
    at: area(row, column, values.length, values[0]!.length, on),
    values,
  });
  const values = async (at: Area) => (await workbook.read(at)).values;
  const refusal = async (batch: readonly Step[]): Promise<WorkbookFault> => {
    const fault = await workbook.apply(batch).then(
      () => undefined,
      (error: unknown) => error,
    );
    expect(fault).toBeInstanceOf(WorkbookFault);
    expect((fault as WorkbookFault).message).toMatch(/^[A-Z].*[.]$/su);
    return fault as WorkbookFault;
  };
  describe("sheets", () => {
    it("starts with an empty sheet", async () => {
      expect(await workbook.sheetNames()).toHaveLength(1);
      expect(await workbook.activeSheet()).toBe(sheet);
      expect(await workbook.usedArea(sheet)).toEqual(area(0, 0, 0, 0));
    });

    it("adds sheets behind the others and moves between them", async () => {
      await workbook.apply([{ do: "add sheet", sheet: "Job 1" }, write(0, 0, [["here"]], "Job 1")]);
      expect(await workbook.sheetNames()).toEqual([sheet, "Job 1"]);
      expect(await workbook.activeSheet()).toBe(sheet);
      await workbook.activateSheet("Job 1");
      expect(await workbook.activeSheet()).toBe("Job 1");
      expect(await values(area(0, 0, 1, 1, "Job 1"))).toEqual([["here"]]);
      expect(await values(area(0, 0))).toEqual([[""]]);
    });

    it("refuses a sheet name that is taken, in any case of letters", async () => {
      expect((await refusal([{ do: "add sheet", sheet: sheet.toUpperCase() }])).reason).toBe("occupied");
    });

    it("says which sheet is missing", async () => {
      await expect(workbook.read(area(0, 0, 1, 1, "Nowhere"))).rejects.toMatchObject({
        reason: "missing",
        message: expect.stringContaining("Nowhere"),
      });
      await expect(workbook.activateSheet("Nowhere")).rejects.toMatchObject({ reason: "missing" });
      expect((await refusal([write(0, 0, [[1]], "Nowhere")])).reason).toBe("missing");
    });
  });

  describe("cells", () => {
    it("gives back what was written, blank as an empty text", async () => {
      await workbook.apply([
        write(1, 1, [
          [12.45, "14.4 V DC"],
          [true, -0.5],
        ]),
      ]);
      expect(await workbook.read(area(0, 0, 3, 3))).toEqual({
        values: [
          ["", "", ""],
          ["", 12.45, "14.4 V DC"],
          ["", true, -0.5],
        ],
        formulas: [
          ["", "", ""],
          ["", "", ""],
          ["", "", ""],
        ],
      });
    });

    it.each(["0012", "=1+1", "TRUE", "1-2", "May 5", "50%", "+12.6", "'quoted", "#N/A", " spaced ", "OL"])(
      "keeps the text %p text",
      async (text) => {
        await workbook.apply([write(0, 0, [[text]])]);
        expect(await workbook.read(area(0, 0))).toEqual({ values: [[text]], formulas: [[""]] });
      },
    );

    it("leaves a cell alone where nothing is given, and clears it where nothing is to be", async () => {
      await workbook.apply([write(0, 0, [["a", "b", { formula: "=1+1" }]])]);
      await workbook.apply([write(0, 0, [[undefined, "", 5]])]);
      expect(await workbook.read(area(0, 0, 1, 3))).toEqual({ values: [["a", "", 5]], formulas: [["", "", ""]] });
    });

    it("reads beyond what is filled as blank", async () => {
      await workbook.apply([write(0, 0, [[1]])]);
      expect(await values(area(300, 40, 2, 2))).toEqual([
        ["", ""],
        ["", ""],
      ]);
    });

    it("writes beyond the edge of a small sheet", async () => {
      await workbook.apply([write(1500, 60, [["far"]])]);
      expect(await values(area(1500, 60))).toEqual([["far"]]);
    });

    it("counts as used what holds something, not what only looks like it", async () => {
      await workbook.apply([
        write(2, 1, [["x"]]),
        { do: "format", at: area(9, 9), format: { fill: "FFFBE8", border: "all" } },
      ]);
      expect(await workbook.usedArea(sheet)).toEqual(area(0, 0, 3, 2));
    });

    it("lets the later of two writes to one cell stand", async () => {
      await workbook.apply([write(0, 0, [["first"]]), write(0, 0, [["second"]])]);
      expect(await values(area(0, 0))).toEqual([["second"]]);
    });
  });

  describe("formulas", () => {
    it("keeps a formula with its equals sign", async () => {
      await workbook.apply([write(0, 0, [[3, { formula: "=A1*2" }]])]);
      expect((await workbook.read(area(0, 0, 1, 2))).formulas).toEqual([["", "=A1*2"]]);
    });

    itCalculates("has its value once the batch is applied", async () => {
      await workbook.apply([write(0, 0, [[3, { formula: "=A1*2" }, { formula: '=IF(A9="","blank",A9)' }]])]);
      expect(await values(area(0, 0, 1, 3))).toEqual([[3, 6, "blank"]]);
      await workbook.apply([write(0, 0, [[4]])]);
      expect(await values(area(0, 1))).toEqual([[8]]);
    });

    itCalculates("spills, and holds the formula in its first cell alone", async () => {
      await workbook.apply([write(1, 1, [[{ formula: '={1,2;3,"x"}', spills: { rows: 2, columns: 2 } }]])]);
      expect(await workbook.read(area(1, 1, 2, 2))).toEqual({
        values: [
          [1, 2],
          [3, "x"],
        ],
        formulas: [
          ['={1,2;3,"x"}', ""],
          ["", ""],
        ],
      });
      expect(await workbook.usedArea(sheet)).toEqual(area(0, 0, 3, 3));
    });

    itCalculates("gives an error as an error, not as text", async () => {
      await workbook.apply([write(0, 0, [[{ formula: "=1/0" }, { formula: "=NA()" }]])]);
      expect(await values(area(0, 0, 1, 2))).toEqual([
        [expect.objectContaining({ error: "#DIV/0!" }), expect.objectContaining({ error: "#N/A" })],
      ]);
    });

    itCalculates("may use names", async () => {
      await workbook.apply([
        write(0, 0, [[2], [3]]),
        { do: "name", name: "CellVolts", at: area(0, 0, 2, 1) },
        write(0, 2, [[{ formula: "=SUM(CellVolts)" }]]),
      ]);
      expect(await values(area(0, 2))).toEqual([[5]]);
    });

    itCalculates("calls back after values changed by calculation", async () => {
      await workbook.apply([write(0, 0, [[1, { formula: "=A1+1" }]])]);
      await values(area(0, 1));
      let calls = 0;
      const stop = workbook.onCalculated(() => calls++);
      await workbook.apply([write(0, 0, [[5]])]);
      expect(await values(area(0, 1))).toEqual([[6]]);
      expect(calls).toBeGreaterThan(0);
      stop();
      const before = calls;
      await workbook.apply([write(0, 0, [[6]])]);
      await values(area(0, 1));
      expect(calls).toBe(before);
    });
  });

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
      await workbook.apply(everyKind());
      expect(await values(area(0, 0, 2, 2, "Plan"))).toEqual([
        ["Reading", "State"],
        ["12.6", "pass"],
      ]);
      expect(await workbook.mergedIn(area(0, 0, 10, 10, "Plan"))).toEqual([area(4, 0, 1, 2, "Plan")]);
      expect(await workbook.mergedIn(area(0, 0, 2, 2, "Plan"))).toEqual([]);
    });

    it("tells of tables and takes columns into one", async () => {
      await workbook.apply([
        write(1, 1, [
          ["Machine", "State"],
          ["Quad 1", "pass"],
        ]),
        { do: "table", at: area(1, 1, 2, 2), name: "Quads" },
      ]);
      const narrow = { name: "Quads", at: area(1, 1, 2, 2), totals: false };
      expect(await workbook.tablesIn(area(0, 0, 9, 9))).toEqual([narrow]);
      expect(await workbook.tablesIn(area(0, 3, 9, 9))).toEqual([]);
      await workbook.apply([
        write(1, 3, [["Part"], ["stator"]]),
        { do: "widen table", at: narrow.at, name: "Quads", by: 1 },
      ]);
      expect(await workbook.tablesIn(area(0, 3, 9, 9))).toEqual([{ ...narrow, at: area(1, 1, 2, 3) }]);
      expect(await values(area(1, 1, 2, 3))).toEqual([
        ["Machine", "State", "Part"],
        ["Quad 1", "pass", "stator"],
      ]);
      // A table in the way, and one that is not there, stop it: nothing changes.
      await workbook.apply([write(1, 5, [["Notes"], [1]]), { do: "table", at: area(1, 5, 2, 1), name: "Beside" }]);
      const wide = area(1, 1, 2, 3);
      const over = await refusal([write(5, 5, [[1]]), { do: "widen table", at: wide, name: "Quads", by: 2 }]);
      expect(over.reason).toBe("occupied");
      expect((await refusal([{ do: "widen table", at: wide, name: "None", by: 1 }])).reason).toBe("missing");
      expect(await values(area(5, 5))).toEqual([[""]]);
      expect(await workbook.tablesIn(area(0, 0, 9, 5))).toEqual([{ ...narrow, at: wide }]);
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
      await workbook.apply([write(0, 0, [["kept", { formula: "=1+1" }]])]);
      const before = await workbook.read(area(0, 0, 6, 6));
      const fault = await refusal([write(0, 0, [["lost", "lost"]]), ...everyKind(), bad()]);
      expect(fault.reason).toBe(reason);
      expect(await workbook.sheetNames()).toEqual([sheet]);
      expect(await workbook.read(area(0, 0, 6, 6))).toEqual(before);
      // Nothing of the failed batch may stand in the way of the next.
      await workbook.apply(everyKind());
      expect(await workbook.sheetNames()).toEqual([sheet, "Plan"]);
    });

    it("takes charts, to draw them or to keep them for files", async () => {
      const chart: Step = {
        do: "chart",
        sheet,
        chart: {
          title: "Running voltage",
          kind: "line",
          series: [{ name: "volts", y: area(1, 1, 3, 1) }],
          xTitle: "rpm",
          yTitle: "V",
          anchor: { row: 5, column: 0, rows: 10, columns: 5 },
        },
      };
      await workbook.apply([write(0, 0, [["rpm", "volts"]]), chart]);
      expect(await values(area(0, 0, 1, 2))).toEqual([["rpm", "volts"]]);
      expect((await refusal([{ ...chart, sheet: "Nowhere" }])).reason).toBe("missing");
    });

    itUndoes("is one step for the undo key", async () => {
      await workbook.apply([write(0, 0, [["before"]])]);
      await workbook.apply([write(0, 0, [["after"], [2]]), ...everyKind(), write(1, 0, [[3]])]);
      await host.undo!();
      expect(await workbook.sheetNames()).toEqual([sheet]);
      expect(await values(area(0, 0, 2, 1))).toEqual([["before"], [""]]);
    });
  });

  describe("selection and edits", () => {
    it("selects on any sheet, and tells", async () => {
      await workbook.apply([{ do: "add sheet", sheet: "Job 1" }]);
      const seen: Area[] = [];
      const stop = workbook.onSelection((at) => seen.push(at));
      await workbook.select(area(2, 1, 3, 2, "Job 1"));
      expect(await workbook.activeSheet()).toBe("Job 1");
      expect(await workbook.selection()).toEqual(area(2, 1, 3, 2, "Job 1"));
      expect(seen.at(-1)).toEqual(area(2, 1, 3, 2, "Job 1"));
      stop();
      await workbook.select(area(0, 0));
      expect(seen.at(-1)).toEqual(area(2, 1, 3, 2, "Job 1"));
    });

    itIsTypedInto("tells of edits by hand, not of its own writes or of calculation", async () => {
      const seen: Area[] = [];
      const stop = workbook.onEdit((at) => seen.push(at));
      await workbook.apply([write(0, 0, [[1, { formula: "=A1*2" }]])]);
      await values(area(0, 1));
      expect(seen).toEqual([]);
      await host.type!(sheet, 0, 0, "7");
      expect(await values(area(0, 0, 1, 2))).toEqual([[7, 14]]);
      expect(seen).toEqual([area(0, 0)]);
      stop();
      await host.type!(sheet, 0, 0, "8");
      await values(area(0, 0));
      expect(seen).toHaveLength(1);
    });
  });
}
