import { quantityById, entryOf } from "../../src/core/readings/catalogue";
import { openJob, readTyped, sameJob, selectedText, shownCell, writeReading } from "../../src/pane/open-job";
import { WorkbookFault } from "../../src/workbook/port";
import { MemoryWorkbook } from "./memory-workbook";

const volts = quantityById("rested-voltage");
const celsius = quantityById("battery-temperature");

const PAGE = [
  ["Job sheet"],
  ["Job number", "J-1", ""],
  ["Battery type", "agm", ""],
  ["Battery capacity", 14, "Ah"],
  ["Rested voltage", 12.62, "V"],
  ["Battery temperature", 20, "°C"],
  ["Hours rested", "", "h"],
  ["Running voltage at idle", "13.9 V (lights on)", "V"],
  ["Running voltage at test speed", "abc", "V"],
  ["Key-off draw", "350 mA", "mA"],
  ["Proof after repair"],
  ["Rested voltage", "", "V"],
  ["Running voltage at test speed", 14.2, "V"],
];

function workbook(): MemoryWorkbook {
  const book = new MemoryWorkbook();
  book.addSheet("Job", PAGE);
  return book;
}

describe("what is typed into a field", () => {
  const WRITTEN = [
    ["12.6", 12.6],
    ["12,6", 12.6],
    [".35", 0.35],
    ["12.6 V", "12.6 V"],
    ["14.4V DC (hot)", "14.4V DC (hot)"],
    ["", ""],
  ] as const;
  for (const [typed, written] of WRITTEN) {
    it(`${JSON.stringify(typed)} goes into the cell as ${JSON.stringify(written)}: a bare number as a number, a note is kept`, () => {
      const read = readTyped(typed, volts, "°C");
      expect(read.ok && read.value.write).toBe(written);
    });
  }

  it("a bare number is in the unit the field shows: 68 in a °F field is 20 °C", () => {
    const read = readTyped("68", celsius, "°F");
    expect(read).toMatchObject({ ok: true, value: { write: "68 °F" } });
    expect(read.ok && read.value.measured?.kind === "number" && read.value.measured.value).toBeCloseTo(20, 9);
  });

  it("text that says its unit is left alone whatever the field shows", () => {
    expect(readTyped("20 °C", celsius, "°F")).toMatchObject({ ok: true, value: { write: "20 °C" } });
  });

  it("[fault] abc is refused and says what is expected", () => {
    const read = readTyped("abc", volts, "°C");
    expect(read.ok).toBe(false);
  });

  it("a choice is written as its word in the list", () => {
    expect(readTyped("vrla", entryOf("battery-type")!, "°C")).toMatchObject({ ok: true, value: { write: "agm" } });
  });

  it("a cell is shown with its entry's decimals, and with more where more were read", () => {
    expect(shownCell(12.6, volts, "°C")).toBe("12.60");
    expect(shownCell(12.625, volts, "°C")).toBe("12.625");
    expect(shownCell(20, celsius, "°F")).toBe("68");
    expect(shownCell("OL", volts, "°C")).toBe("OL");
    expect(shownCell("", volts, "°C")).toBe("");
  });
});

describe("a job sheet in the pane", () => {
  it("reads values, faults and the readings after the repair apart", async () => {
    const open = (await openJob(workbook(), "Job"))!;
    expect(open.before.job.get("rested-voltage")).toEqual({ kind: "number", value: 12.62 });
    expect(open.before.job.get("idle-voltage")).toMatchObject({ kind: "number", value: 13.9, note: "lights on" });
    expect(open.before.job.has("hours-rested")).toBe(false);
    expect(open.before.faults.get("test-voltage")).toMatchObject({ code: "not-understood", came: "abc" });
    expect(open.after.job.get("test-voltage")).toEqual({ kind: "number", value: 14.2 });
    expect(open.after.job.has("rested-voltage")).toBe(false);
  });

  it("a sheet that is no machine's page is not opened", async () => {
    const book = workbook();
    book.addSheet("Notes", [
      ["Rested voltage", 12.6],
      ["Shopping", "milk"],
    ]);
    expect(await openJob(book, "Notes")).toBeUndefined();
  });

  it("writes one cell and nothing else", async () => {
    const book = workbook();
    const open = (await openJob(book, "Job"))!;
    await writeReading(book, open, "before", "rested-voltage", 12.4);
    await writeReading(book, open, "after", "rested-voltage", 12.8);
    expect(book.valueAt("Job", 4, 1)).toBe(12.4);
    expect(book.valueAt("Job", 11, 1)).toBe(12.8);
    const now = (await openJob(book, "Job"))!;
    expect([...now.before.typed].filter(([id, cell]) => open.before.typed.get(id) !== cell)).toEqual([
      ["rested-voltage", 12.4],
    ]);
  });

  it("a failed write leaves the sheet as it was and says why", async () => {
    const book = workbook();
    const open = (await openJob(book, "Job"))!;
    book.failNext = "The sheet is protected.";
    await expect(writeReading(book, open, "before", "rested-voltage", 12.4)).rejects.toThrow(WorkbookFault);
    expect(book.valueAt("Job", 4, 1)).toBe(12.62);
  });

  it("tells an unchanged sheet from a changed one", async () => {
    const book = workbook();
    const [a, b] = [(await openJob(book, "Job"))!, (await openJob(book, "Job"))!];
    expect(sameJob(a, b)).toBe(true);
    book.edit({ sheet: "Job", row: 6, column: 1, rows: 1, columns: 1 }, [[12]]);
    expect(sameJob(a, (await openJob(book, "Job"))!)).toBe(false);
  });

  it("takes the selected cell, and says so where it is blank", async () => {
    const book = workbook();
    await book.select({ sheet: "Job", row: 9, column: 1, rows: 3, columns: 2 });
    expect(await selectedText(book)).toEqual({ ok: true, value: { text: "350 mA", from: "Job!B10" } });
    await book.select({ sheet: "Job", row: 6, column: 1, rows: 1, columns: 1 });
    expect(await selectedText(book)).toMatchObject({ ok: false, fault: { code: "missing", what: "Job!B7" } });
  });
});
