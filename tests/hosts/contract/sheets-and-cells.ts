import type { Bench } from "./bench";

/** Sheets and their names. */
export function sheetsContract(bench: Bench): void {
  const { area, refusal, values, write } = bench;
  describe("sheets", () => {
    it("starts with an empty sheet", async () => {
      expect(await bench.workbook.sheetNames()).toHaveLength(1);
      expect(await bench.workbook.activeSheet()).toBe(bench.sheet);
      expect(await bench.workbook.usedArea(bench.sheet)).toEqual(area(0, 0, 0, 0));
    });

    it("adds sheets behind the others and moves between them", async () => {
      await bench.workbook.apply([{ do: "add sheet", sheet: "Job 1" }, write(0, 0, [["here"]], "Job 1")]);
      expect(await bench.workbook.sheetNames()).toEqual([bench.sheet, "Job 1"]);
      expect(await bench.workbook.activeSheet()).toBe(bench.sheet);
      await bench.workbook.activateSheet("Job 1");
      expect(await bench.workbook.activeSheet()).toBe("Job 1");
      expect(await values(area(0, 0, 1, 1, "Job 1"))).toEqual([["here"]]);
      expect(await values(area(0, 0))).toEqual([[""]]);
    });

    it("refuses a sheet name that is taken, in any case of letters", async () => {
      expect((await refusal([{ do: "add sheet", sheet: bench.sheet.toUpperCase() }])).reason).toBe("occupied");
    });

    it("says which sheet is missing", async () => {
      await expect(bench.workbook.read(area(0, 0, 1, 1, "Nowhere"))).rejects.toMatchObject({
        reason: "missing",
        message: expect.stringContaining("Nowhere"),
      });
      await expect(bench.workbook.activateSheet("Nowhere")).rejects.toMatchObject({ reason: "missing" });
      expect((await refusal([write(0, 0, [[1]], "Nowhere")])).reason).toBe("missing");
    });
  });
}

/** Values in cells. */
export function cellsContract(bench: Bench): void {
  const { area, values, write } = bench;
  describe("cells", () => {
    it("gives back what was written, blank as an empty text", async () => {
      await bench.workbook.apply([
        write(1, 1, [
          [12.45, "14.4 V DC"],
          [true, -0.5],
        ]),
      ]);
      expect(await bench.workbook.read(area(0, 0, 3, 3))).toEqual({
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
        await bench.workbook.apply([write(0, 0, [[text]])]);
        expect(await bench.workbook.read(area(0, 0))).toEqual({ values: [[text]], formulas: [[""]] });
      },
    );

    it("leaves a cell alone where nothing is given, and clears it where nothing is to be", async () => {
      await bench.workbook.apply([write(0, 0, [["a", "b", { formula: "=1+1" }]])]);
      await bench.workbook.apply([write(0, 0, [[undefined, "", 5]])]);
      expect(await bench.workbook.read(area(0, 0, 1, 3))).toEqual({ values: [["a", "", 5]], formulas: [["", "", ""]] });
    });

    it("reads beyond what is filled as blank", async () => {
      await bench.workbook.apply([write(0, 0, [[1]])]);
      expect(await values(area(300, 40, 2, 2))).toEqual([
        ["", ""],
        ["", ""],
      ]);
    });

    it("writes beyond the edge of a small sheet", async () => {
      await bench.workbook.apply([write(1500, 60, [["far"]])]);
      expect(await values(area(1500, 60))).toEqual([["far"]]);
    });

    it("counts as used what holds something, not what only looks like it", async () => {
      await bench.workbook.apply([
        write(2, 1, [["x"]]),
        { do: "format", at: area(9, 9), format: { fill: "FFFBE8", border: "all" } },
      ]);
      expect(await bench.workbook.usedArea(bench.sheet)).toEqual(area(0, 0, 3, 2));
    });

    it("lets the later of two writes to one cell stand", async () => {
      await bench.workbook.apply([write(0, 0, [["first"]]), write(0, 0, [["second"]])]);
      expect(await values(area(0, 0))).toEqual([["second"]]);
    });
  });
}
