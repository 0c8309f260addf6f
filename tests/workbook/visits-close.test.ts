import { jobFromCells } from "../../src/core/readings/from-cells";
import { addRowStep, locateList } from "../../src/workbook/list-sheet";
import { cellsOfVisit, visitAgain, visitCells } from "../../src/workbook/visits-close";
import { isVisitList } from "../../src/workbook/visits-sheet";

const HEADER = [
  "Machine",
  "Date",
  "Rested voltage",
  "Key-off draw [A]",
  "Winding resistance A-B",
  "Charging voltage (V)",
];
const JOB = [
  ["Machine", "Quad 7"],
  ["Rested voltage", "12,61 V"],
  ["Key-off draw", 350],
  ["Winding resistance, A–B", "OL"],
  ["Running voltage at test speed", 14.2],
  ["Cranking voltage", 9.8],
];
const read = jobFromCells(JOB);
const job = read.ok ? read.value.job : new Map<string, never>();
const typed = new Map<string, string | number>([
  ["machine-name", "Quad 7"],
  ["rested-voltage", "12,61 V"],
  ["key-off-draw", 350],
  ["winding-ab", "OL"],
  ["test-voltage", 14.2],
  ["cranking-voltage", 9.8],
]);

describe("closing a job into the list of visits", () => {
  const list = locateList("Fleet", [HEADER], isVisitList)!;
  const { cells, left } = visitCells(list, job, typed, "2026-11-25");

  it("writes what was typed; a number under a header of another unit says its own", () => {
    expect(Object.fromEntries(cells)).toEqual({
      "visit-date": "2026-11-25",
      "machine-name": "Quad 7",
      "rested-voltage": "12,61 V",
      // 350 mA under a header in amperes would else be read as 350 A.
      "key-off-draw": "350 mA",
      "winding-ab": "OL",
      "test-voltage": 14.2,
    });
  });

  it("tells how many readings the list has no column for", () => expect(left).toBe(1));

  it("gives the same readings back when the visit is opened again", () => {
    const step = addRowStep(list, cells);
    const row = step.do === "write" ? step.values[0]!.map((cell) => (cell ?? "") as string | number) : [];
    const again = locateList("Fleet", [HEADER, row], isVisitList)!;
    expect(Object.fromEntries(cellsOfVisit(again.rows[0]!))).toEqual({
      "machine-name": "Quad 7",
      "visit-date": "2026-11-25",
      "rested-voltage": 12.61,
      "key-off-draw": 350,
      "winding-ab": "OL",
      "test-voltage": 14.2,
    });
  });
});

describe("closing a job that stands in the list already", () => {
  const there = (...line: (string | number)[]) => locateList("Fleet", [HEADER, line], isVisitList)!;
  const again = (...line: (string | number)[]) => {
    const list = there(...line);
    const { cells } = visitCells(list, job, typed, "2026-11-25");
    const { lacking, otherwise } = visitAgain(list.rows[0]!, job, cells);
    return { lacking: Object.fromEntries(lacking), otherwise };
  };

  it("fills what the row lacks", () => {
    expect(again("Quad 7", "2026-11-25", "", "", "OL")).toEqual({
      lacking: { "rested-voltage": "12,61 V", "key-off-draw": "350 mA", "test-voltage": 14.2 },
      otherwise: [],
    });
  });

  it("takes the same reading in another unit or spelling, and another name of the machine, for the same", () => {
    expect(again("quad-7", "2026-11-25", 12.61, 0.35, "o.l.", "14,2")).toEqual({ lacking: {}, otherwise: [] });
  });

  it("leaves and names what the row says otherwise, also what cannot be read there", () => {
    expect(again("Quad 7", "2026-11-25", 12.4, "n.a.?", "OL", 14.2)).toEqual({
      lacking: {},
      otherwise: ["rested-voltage", "key-off-draw"],
    });
  });
});

it.each([
  ["Days until flat", "Order", "Verdict"],
  ["Días hasta vacía", "Orden", "Dictamen"],
])("takes no result of an audit beside the list for a number of a job: %s, %s, %s", (...results) => {
  const list = locateList(
    "Fleet",
    [
      [...HEADER, "", ...results],
      ["Quad 7", "", 12.6, "", "", "", "", 174, 6, "…"],
    ],
    isVisitList,
  )!;
  expect(list.columns.has("job-number")).toBe(false);
  expect(list.rows[0]!.job.has("job-number")).toBe(false);
  // A shop's own column of that name is one.
  expect(locateList("Fleet", [["Order", ...HEADER]], isVisitList)!.columns.get("job-number")).toBe(0);
});
