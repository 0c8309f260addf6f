import { startJob } from "../../src/pane/start-job";
import { openJob } from "../../src/pane/open-job";
import { jobSheets } from "../../src/workbook/job-sheet";
import { MemoryWorkbook } from "./memory-workbook";

describe("starting a job from the template", () => {
  it("lays out the page and the lists it looks values up in, and shows it", async () => {
    const book = new MemoryWorkbook();
    book.addSheet("My sheet", [["mine"]]);
    expect(await startJob(book)).toBe("Job");
    expect(await book.sheetNames()).toEqual(["My sheet", "Job", "Machines", "Reference"]);
    expect(await book.activeSheet()).toBe("Job");
    expect(await jobSheets(book)).toEqual(["Job"]);
    expect((await openJob(book, "Job"))!.place.cells.has("rested-voltage")).toBe(true);
    expect(book.valueAt("My sheet", 0, 0)).toBe("mine");
  });

  it("a second job gets a sheet of its own and leaves the first as it is", async () => {
    const book = new MemoryWorkbook();
    await startJob(book);
    const { row, column } = (await openJob(book, "Job"))!.place.cells.get("rested-voltage")!;
    book.edit({ sheet: "Job", row, column, rows: 1, columns: 1 }, [[12.4]]);
    expect(await startJob(book)).toBe("Job 2");
    expect(book.valueAt("Job", row, column)).toBe(12.4);
    expect(await jobSheets(book)).toEqual(["Job", "Job 2"]);
    expect((await book.sheetNames()).filter((name) => name.startsWith("Machines"))).toEqual(["Machines"]);
  });

  it("a user's own sheet called Machines is left alone, and no formula looks into it", async () => {
    const book = new MemoryWorkbook();
    book.addSheet("machines", [["Lathe", 1998]]);
    await startJob(book);
    expect(await book.sheetNames()).toEqual(["machines", "Job", "Reference"]);
    const used = await book.usedArea("Job");
    const { formulas } = await book.read(used);
    expect(formulas.flat().filter((formula) => /machines/iu.test(formula))).toEqual([]);
    expect(book.valueAt("machines", 0, 0)).toBe("Lathe");
  });
});
