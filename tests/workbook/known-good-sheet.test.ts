import { isKnownGoodList, partNumberOf, partsOfNumber } from "../../src/workbook/known-good-sheet";
import { addRowStep, findList, locateList } from "../../src/workbook/list-sheet";
import { MemoryWorkbook } from "../pane/memory-workbook";

const HEADER = [
  "Regulator part number",
  "Upper, forward, phase A [V]",
  "Upper, forward, phase B [V]",
  "Upper, forward, phase C [V]",
  "Lower, forward, phase A [V]",
  "Note",
];
const LIST = [
  ["Reference"],
  ["Parts known to be good."],
  HEADER,
  ["RR-12 a", 0.112, 0.11, 0.113, 0.5, "new"],
  ["rr12A", 0.11, 0.109, "OL", 0.5, ""],
  ["", "", "", "", "", "a remark"],
  ["RR-99", 0.5, 0.5, 0.5, 0.5, ""],
];

describe("the shop's list of known-good parts", () => {
  const list = locateList("Reference", LIST, isKnownGoodList)!;

  it("is found by its header row, titles above it do no harm", () => {
    expect(list.rows.map((part) => partNumberOf(part.job))).toEqual(["RR-12 a", "rr12A", "RR-99"]);
    expect(list.rows[1]!.job.get("upper-forward-c")).toEqual({ kind: "overload" });
  });

  it("compares part numbers without case, spaces and hyphens, and never takes a blank for a number", () => {
    expect(partsOfNumber(list, "RR12A").map((part) => part.row)).toEqual([3, 4]);
    expect(partsOfNumber(list, " ")).toEqual([]);
    expect(partsOfNumber(undefined, "RR12A")).toEqual([]);
  });

  it("adds into the first free row and touches no column that is not its own", () => {
    expect(list.freeRow).toBe(5);
    const step = addRowStep(
      list,
      new Map<string, string | number>([
        ["regulator-part-number", "RR-7"],
        ["upper-forward-b", 0.2],
        ["poles", 12],
      ]),
    );
    expect(step).toEqual({
      do: "write",
      at: { sheet: "Reference", row: 5, column: 0, rows: 1, columns: 3 },
      values: [["RR-7", undefined, 0.2]],
    });
  });

  it("a list without a free row is continued below its last one", () => {
    expect(
      locateList(
        "Reference",
        LIST.filter((_, row) => row !== 5),
        isKnownGoodList,
      )!.freeRow,
    ).toBe(6);
  });

  it("a workbook without such a list has none", async () => {
    const book = new MemoryWorkbook();
    book.addSheet("Machines", [
      ["Machine", "Battery type", "Battery capacity", "Poles", "Rated output"],
      ["Quad", "agm", 12, 12, 300],
    ]);
    expect(await findList(book, isKnownGoodList)).toBeUndefined();
    book.addSheet("Parts", LIST);
    expect((await findList(book, isKnownGoodList))!.sheet).toBe("Parts");
  });
});
