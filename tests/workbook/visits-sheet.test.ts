import { locateList } from "../../src/workbook/list-sheet";
import { dayOf, isVisitList, sameVisit, visitsOf } from "../../src/workbook/visits-sheet";

const LIST = [
  ["Fleet"],
  ["Machine", "Date", "Rested voltage [V]", "Key-off draw [mA]", "Running voltage at test speed [V]", "State"],
  ["Quad 7", "2026-05-02", 12.6, "", 14.2, "serviceable"],
  ["quad-7", 46300, 12.3, 2.1, "", "suspect"],
  ["Mower 2", "2026-06-01", 12.1, "", 13.9, ""],
  ["Quad 7", "", 12.5, "", "", ""],
];

describe("the list of visits", () => {
  const list = locateList("Fleet", LIST, isVisitList)!;

  it("is told from lists of machines and parts by its date and readings", () => {
    expect(isVisitList(new Set(["machine-name", "visit-date", "rested-voltage", "test-voltage", "key-off-draw"]))).toBe(
      true,
    );
    expect(isVisitList(new Set(["machine-name", "battery-type", "poles", "rated-output"]))).toBe(false);
    expect(isVisitList(new Set(["machine-name", "visit-date", "complaint", "technician"]))).toBe(false);
  });

  it("gives the visits of one machine, latest first, whatever the spelling of its name", () => {
    expect(visitsOf(list, "QUAD 7").map((visit) => visit.row)).toEqual([3, 2, 5]);
    expect(visitsOf(list, "")).toEqual([]);
  });

  // Day numbers of a sheet: 1 is 1900-01-01 as the spreadsheet counts, 25569 is 1970-01-01, 45658 is 2025-01-01.
  for (const [cell, day] of [
    [25569, "1970-01-01"],
    [45658, "2025-01-01"],
    ["2026-05-02", "2026-05-02"],
    ["", ""],
    [Number.POSITIVE_INFINITY, "Infinity"],
  ] as const) {
    it(`[spreadsheet day numbers, ${cell}] is ${day || "no day"}`, () => expect(dayOf(cell)).toBe(day));
  }

  it("knows a visit that is written down already", () => {
    expect(sameVisit(list, "Quad 7", "2026-05-02")!.row).toBe(2);
    expect(sameVisit(list, "Quad 7", "2026-05-03")).toBeUndefined();
  });
});
