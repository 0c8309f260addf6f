import type { Area } from "../../../src/workbook/port";
import type { Bench } from "./bench";

/** What a person does in the sheet. */
export function selectionContract(bench: Bench): void {
  const { area, itIsTypedInto, values, write } = bench;
  describe("selection and edits", () => {
    it("selects on any sheet, and tells", async () => {
      await bench.workbook.apply([{ do: "add sheet", sheet: "Job 1" }]);
      const seen: Area[] = [];
      const stop = bench.workbook.onSelection((at) => seen.push(at));
      await bench.workbook.select(area(2, 1, 3, 2, "Job 1"));
      expect(await bench.workbook.activeSheet()).toBe("Job 1");
      expect(await bench.workbook.selection()).toEqual(area(2, 1, 3, 2, "Job 1"));
      expect(seen.at(-1)).toEqual(area(2, 1, 3, 2, "Job 1"));
      stop();
      await bench.workbook.select(area(0, 0));
      expect(seen.at(-1)).toEqual(area(2, 1, 3, 2, "Job 1"));
    });

    itIsTypedInto("tells of edits by hand, not of its own writes or of calculation", async () => {
      const seen: Area[] = [];
      const stop = bench.workbook.onEdit((at) => seen.push(at));
      await bench.workbook.apply([write(0, 0, [[1, { formula: "=A1*2" }]])]);
      await values(area(0, 1));
      expect(seen).toEqual([]);
      await bench.host.type!(bench.sheet, 0, 0, "7");
      expect(await values(area(0, 0, 1, 2))).toEqual([[7, 14]]);
      expect(seen).toEqual([area(0, 0)]);
      stop();
      await bench.host.type!(bench.sheet, 0, 0, "8");
      await values(area(0, 0));
      expect(seen).toHaveLength(1);
    });
  });
}
