import { StrictBook } from "./strict-book";
import { StrictExcel } from "./strict-office";

/** The stand-in for Excel must itself be as strict as Excel is, or it proves nothing. */
describe("the strict stand-in for Excel", () => {
  const run = <T>(work: (context: Excel.RequestContext, book: StrictBook) => Promise<T>) => {
    const book = new StrictBook("Job");
    return new StrictExcel(book).run({}, (context) => work(context, book));
  };
  const cells = (context: Excel.RequestContext, rows = 1, columns = 1) =>
    context.workbook.worksheets.getItem("Job").getRangeByIndexes(0, 0, rows, columns);

  it("refuses a read before the load", () =>
    expect(run(async (context) => cells(context).values)).rejects.toThrow(/values .* before it was loaded/u));

  it("refuses a read between load and sync", () =>
    expect(
      run(async (context) => {
        const range = cells(context);
        range.load("values");
        return range.values;
      }),
    ).rejects.toThrow(/before it was loaded and synced/u));

  it("refuses a read of what was not asked for", () =>
    expect(
      run(async (context) => {
        const range = cells(context);
        range.load("values");
        await context.sync();
        return range.formulas;
      }),
    ).rejects.toThrow(/formulas .* before it was loaded/u));

  it("refuses to say before the sync whether something is missing", () =>
    expect(run(async (context) => context.workbook.worksheets.getItemOrNullObject("X").isNullObject)).rejects.toThrow(
      /before the sync/u,
    ));

  it("refuses a ragged write, at the sync and not before", () =>
    run(async (context) => {
      cells(context, 2, 2).formulas = [[1, 2], [3]];
      await expect(context.sync()).rejects.toThrow(/number of rows or columns/u);
    }));

  it("refuses a sheet that is not there, at the sync", () =>
    run(async (context) => {
      context.workbook.worksheets.getItem("Gone");
      await expect(context.sync()).rejects.toMatchObject({ code: "ItemNotFound" });
    }));

  it("knows no members that Excel does not have", () =>
    run(async (context) => {
      const range = cells(context) as unknown as Record<string, unknown>;
      expect(() => range.value).toThrow(/has no value/u);
      expect(() => (range.values = [[1]])).toThrow(/does not let values be set/u);
      expect(() => (range.load as (names: string) => void)("colour")).toThrow(/has no colour/u);
    }));

  it("leaves earlier requests of a failed batch done, drops the later ones and brings no answers", () =>
    run(async (context, book) => {
      const range = cells(context);
      range.load("values");
      range.formulas = [["first"]];
      cells(context, 2, 2).formulas = [[1]];
      cells(context).formulas = [["third"]];
      await expect(context.sync()).rejects.toThrow();
      expect(book.sheet("Job").cells.get("0,0")!.value).toBe("first");
      expect(() => range.values).toThrow(/before it was loaded and synced/u);
      await context.sync();
      expect(book.sheet("Job").cells.get("0,0")!.value).toBe("first");
    }));

  it("turns what is entered into what Excel makes of it", () => {
    const book = new StrictBook("Job");
    const sheet = book.sheet("Job");
    const made = (entered: string) => {
      book.enter(sheet, 0, 0, entered);
      return sheet.cells.get("0,0")!.value;
    };
    expect(["12.6", "50%", "May 5", "'12.6", "007", "text"].map(made)).toEqual([12.6, 0.5, 45000, "12.6", 7, "text"]);
  });
});
