import type { Bench } from "./bench";

/** Formulas, their results and spills. */
export function formulasContract(bench: Bench): void {
  const { area, itCalculates, values, write } = bench;
  describe("formulas", () => {
    it("keeps a formula with its equals sign", async () => {
      await bench.workbook.apply([write(0, 0, [[3, { formula: "=A1*2" }]])]);
      expect((await bench.workbook.read(area(0, 0, 1, 2))).formulas).toEqual([["", "=A1*2"]]);
    });

    itCalculates("has its value once the batch is applied", async () => {
      await bench.workbook.apply([write(0, 0, [[3, { formula: "=A1*2" }, { formula: '=IF(A9="","blank",A9)' }]])]);
      expect(await values(area(0, 0, 1, 3))).toEqual([[3, 6, "blank"]]);
      await bench.workbook.apply([write(0, 0, [[4]])]);
      expect(await values(area(0, 1))).toEqual([[8]]);
    });

    itCalculates("spills, and holds the formula in its first cell alone", async () => {
      await bench.workbook.apply([write(1, 1, [[{ formula: '={1,2;3,"x"}', spills: { rows: 2, columns: 2 } }]])]);
      expect(await bench.workbook.read(area(1, 1, 2, 2))).toEqual({
        values: [
          [1, 2],
          [3, "x"],
        ],
        formulas: [
          ['={1,2;3,"x"}', ""],
          ["", ""],
        ],
      });
      expect(await bench.workbook.usedArea(bench.sheet)).toEqual(area(0, 0, 3, 3));
    });

    itCalculates("gives an error as an error, not as text", async () => {
      await bench.workbook.apply([write(0, 0, [[{ formula: "=1/0" }, { formula: "=NA()" }]])]);
      expect(await values(area(0, 0, 1, 2))).toEqual([
        [expect.objectContaining({ error: "#DIV/0!" }), expect.objectContaining({ error: "#N/A" })],
      ]);
    });

    itCalculates("may use names", async () => {
      await bench.workbook.apply([
        write(0, 0, [[2], [3]]),
        { do: "name", name: "CellVolts", at: area(0, 0, 2, 1) },
        write(0, 2, [[{ formula: "=SUM(CellVolts)" }]]),
      ]);
      expect(await values(area(0, 2))).toEqual([[5]]);
    });

    itCalculates("calls back after values changed by calculation", async () => {
      await bench.workbook.apply([write(0, 0, [[1, { formula: "=A1+1" }]])]);
      await values(area(0, 1));
      let calls = 0;
      const stop = bench.workbook.onCalculated(() => calls++);
      await bench.workbook.apply([write(0, 0, [[5]])]);
      expect(await values(area(0, 1))).toEqual([[6]]);
      expect(calls).toBeGreaterThan(0);
      stop();
      const before = calls;
      await bench.workbook.apply([write(0, 0, [[6]])]);
      await values(area(0, 1));
      expect(calls).toBe(before);
    });
  });
}
