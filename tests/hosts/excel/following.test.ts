import { ExcelWorkbook } from "../../../src/hosts/excel/workbook";
import type { Area } from "../../../src/workbook/port";
import { area, open } from "./open-excel";
import { StrictBook } from "./strict-book";
import { StrictExcel } from "./strict-office";

describe("Excel behind the port: following", () => {
  const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

  it("tells edits by hand with the sheet's name, and none of its own", async () => {
    const { workbook, excel } = open("Job", "Fleet");
    const seen: Area[] = [];
    const stop = workbook.onEdit((change) => seen.push(change));
    await settle();
    await excel.fire("onChanged", "Fleet", "B2:C3,E5");
    await excel.fire("onChanged", "Job", "A1", "ThisLocalAddin");
    await excel.fire("onChanged", "Job", "C:D");
    await excel.fire("onChanged", "Job", "4:4");
    expect(seen).toEqual([
      area("Fleet", 1, 1, 2, 2),
      area("Fleet", 4, 4),
      area("Job", 0, 2, 1_048_576, 2),
      area("Job", 3, 0, 1, 16_384),
    ]);
    stop();
    stop();
    await settle();
    expect(excel.handlers.onChanged.size).toBe(0);
  });

  it("tells the first of several selected areas", async () => {
    const { workbook, excel } = open();
    const seen: Area[] = [];
    workbook.onSelection((at) => seen.push(at));
    await settle();
    await excel.fire("onSelectionChanged", "Job", "B2,D4:D6");
    expect(seen).toEqual([area("Job", 1, 1)]);
  });

  it("tells a burst of recalculations once", async () => {
    const { workbook, excel } = open();
    let told = 0;
    const stop = workbook.onCalculated(() => told++);
    await settle();
    for (let i = 0; i < 5; i++) await excel.fire("onCalculated", "Job", "");
    await new Promise((resolve) => setTimeout(resolve, 120));
    expect(told).toBe(1);
    stop();
  });

  it("reports when edits cannot be followed, and stays quiet about a sheet that is gone", async () => {
    const book = new StrictBook("Job");
    const excel = new StrictExcel(book);
    const reports: string[] = [];
    const workbook = new ExcelWorkbook(excel, (fault) => reports.push(fault.message));
    workbook.onEdit(() => undefined);
    await settle();
    const [handler] = excel.handlers.onChanged;
    await handler!({ worksheetId: "{9999}", address: "A1", triggerSource: "Unknown" });
    expect(reports).toEqual([]);
    excel.failure = { at: 1 };
    workbook.onEdit(() => undefined);
    await settle();
    expect(reports).toEqual([expect.stringMatching(/^Following the sheet: Excel refused/u)]);
  });
});
