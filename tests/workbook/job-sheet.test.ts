import fc from "fast-check";
import { CATALOGUE } from "../../src/core/readings/catalogue";
import type { Cell } from "../../src/core/cell";
import { locateReadings, readJobSheet } from "../../src/workbook/job-sheet";
import { planSheets } from "../../src/workbook/sheet-plan";
import { TEMPLATES } from "../../src/workbook/templates";

/** The label and value columns of the template as a sheet would hold them. */
function templateSheet(): Cell[][] {
  const [plan] = planSheets(TEMPLATES.filter((template) => template.id === "job"));
  const values: Cell[][] = [];
  for (const step of plan!.steps) {
    if (step.do !== "write") continue;
    step.values.forEach((line, r) =>
      line.forEach((content, c) => {
        if (content === undefined) return;
        const row = (values[step.at.row + r] ??= []);
        row[step.at.column + c] = typeof content === "object" ? "" : content;
      }),
    );
  }
  return Array.from({ length: values.length }, (_, r) => Array.from({ length: 12 }, (_, c) => values[r]?.[c] ?? ""));
}

describe("finding the readings of a job sheet", () => {
  const sheet = templateSheet();
  const [plan] = planSheets(TEMPLATES.filter((template) => template.id === "job"));

  it("[job template] finds every input where the template put it", () => {
    const { cells } = locateReadings(sheet)!;
    expect(plan!.inputs.size).toBeGreaterThan(60);
    for (const [id, place] of plan!.inputs) expect([id, cells.get(id)]).toEqual([id, expect.objectContaining(place)]);
  });

  it("[job template] the second place of a reading is the one after the repair", () => {
    const { cells, proof } = locateReadings(sheet)!;
    for (const id of ["rested-voltage", "test-voltage", "key-off-draw"]) {
      expect(proof.get(id)!.row).toBeGreaterThan(cells.get(id)!.row);
    }
  });

  it("[property] rows inserted anywhere move the cells with their labels", () => {
    const before = locateReadings(sheet)!.cells;
    fc.assert(
      fc.property(fc.integer({ min: 0, max: sheet.length }), fc.integer({ min: 1, max: 4 }), (at, count) => {
        const moved = [
          ...sheet.slice(0, at),
          ...Array.from({ length: count }, () => Array.from({ length: 12 }, () => "")),
          ...sheet.slice(at),
        ];
        const after = locateReadings(moved)!.cells;
        for (const [id, { row }] of before) if (after.get(id)!.row !== (row >= at ? row + count : row)) return false;
        return true;
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  it("a page with fewer labels than a job, and a list with headers across, are no job sheets", () => {
    expect(
      locateReadings([
        ["Rested voltage", 12.6],
        ["Key-off draw", 2],
      ]),
    ).toBeUndefined();
    expect(locateReadings([CATALOGUE.slice(0, 30).map((entry) => entry.label), []])).toBeUndefined();
    expect(locateReadings([])).toBeUndefined();
  });

  it("blank stays not read, and a number's unit beside it counts", () => {
    const values = [...sheet.map((row) => [...row])];
    const { cells } = locateReadings(values)!;
    values[cells.get("key-off-draw")!.row]![1] = 0.35;
    values[cells.get("key-off-draw")!.row]![2] = "A";
    const read = readJobSheet(values, cells);
    expect(read.job.get("key-off-draw")).toMatchObject({ value: 350 });
    expect(read.job.has("rested-voltage")).toBe(false);
  });
});
