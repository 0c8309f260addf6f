import { startJob, startKnownGood, startVisits } from "../../src/pane/start-job";
import { openJob } from "../../src/pane/open-job";
import { ENGLISH } from "../../src/pane/words/english";
import { SPANISH } from "../../src/pane/words/spanish";
import { jobSheets } from "../../src/workbook/job-sheet";
import { MemoryWorkbook } from "./memory-workbook";

describe("starting a job from the template", () => {
  it("lays out the page and the lists it looks values up in, and shows it", async () => {
    const book = new MemoryWorkbook();
    book.addSheet("My sheet", [["mine"]]);
    expect(await startJob(book, ENGLISH)).toBe("Job");
    expect(await book.sheetNames()).toEqual(["My sheet", "Job", "Machines", "Reference"]);
    expect(await book.activeSheet()).toBe("Job");
    expect(await jobSheets(book)).toEqual(["Job"]);
    expect((await openJob(book, "Job"))!.place.cells.has("rested-voltage")).toBe(true);
    expect(book.valueAt("My sheet", 0, 0)).toBe("mine");
  });

  it("a second job gets a sheet of its own and leaves the first as it is", async () => {
    const book = new MemoryWorkbook();
    await startJob(book, ENGLISH);
    const { row, column } = (await openJob(book, "Job"))!.place.cells.get("rested-voltage")!;
    book.edit({ sheet: "Job", row, column, rows: 1, columns: 1 }, [[12.4]]);
    expect(await startJob(book, ENGLISH)).toBe("Job 2");
    expect(book.valueAt("Job", row, column)).toBe(12.4);
    expect(await jobSheets(book)).toEqual(["Job", "Job 2"]);
    expect((await book.sheetNames()).filter((name) => name.startsWith("Machines"))).toEqual(["Machines"]);
  });

  it("a user's own sheet called Machines is left alone, and no formula looks into it", async () => {
    const book = new MemoryWorkbook();
    book.addSheet("machines", [["Lathe", 1998]]);
    await startJob(book, ENGLISH);
    expect(await book.sheetNames()).toEqual(["machines", "Job", "Reference"]);
    const used = await book.usedArea("Job");
    const { formulas } = await book.read(used);
    expect(formulas.flat().filter((formula) => /machines/iu.test(formula))).toEqual([]);
    expect(book.valueAt("machines", 0, 0)).toBe("Lathe");
  });

  it("writes the sheets in the language of the pane", async () => {
    const book = new MemoryWorkbook();
    expect(await startJob(book, SPANISH)).toBe("Trabajo");
    await startVisits(book, SPANISH);
    expect(await book.sheetNames()).toEqual(["Trabajo", "Máquinas", "Referencia", "Flota"]);
    expect(await jobSheets(book)).toEqual(["Trabajo"]);
    expect((await openJob(book, "Trabajo"))!.place.cells.get("rested-voltage")!.label).toBe("Tensión en reposo");
  });

  it.each([
    ["Spanish", ENGLISH, SPANISH, ["Job", "Machines", "Reference", "Trabajo"]],
    ["English", SPANISH, ENGLISH, ["Trabajo", "Máquinas", "Referencia", "Job"]],
  ] as const)("a job in %s looks up the lists that are there in another language", async (_, first, second, sheets) => {
    const book = new MemoryWorkbook();
    await startJob(book, first);
    await startJob(book, second);
    expect(await book.sheetNames()).toEqual(sheets);
    const { formulas } = await book.read(await book.usedArea(sheets[3]));
    const lookedUp = formulas
      .flat()
      .filter((formula) => formula.includes(`${sheets[1]}!`) || formula.includes(`'${sheets[1]}'!`));
    expect(lookedUp.length).toBeGreaterThan(20);
  });

  it("lays the list of known-good parts out in Spanish", async () => {
    const book = new MemoryWorkbook();
    await startKnownGood(book, SPANISH);
    expect(await book.sheetNames()).toEqual(["Referencia"]);
    expect(book.valueAt("Referencia", 2, 0)).toBe("Número de pieza del regulador");
  });
});
