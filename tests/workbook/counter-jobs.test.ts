import { counterJobs, matchingJobs } from "../../src/workbook/counter-jobs";
import type { JobSummary } from "../../src/workbook/job-sheet";
import { locateList } from "../../src/workbook/list-sheet";
import { dayAfter, expiredOn, locateQuoteRecord, nextNumber, quotesOf } from "../../src/workbook/quote-record";
import { isVisitList } from "../../src/workbook/visits-sheet";

const SHEETS: readonly JobSummary[] = [
  {
    sheet: "Job",
    machine: "Quad 7",
    date: "2026-11-18",
    jobNumber: "J-118",
    customer: "",
    phone: "(05) 70-11 48",
    complaint: "Flat after weekends",
  },
  {
    sheet: "Job 2",
    machine: "Trail 2",
    date: "2026-11-20",
    jobNumber: "",
    customer: "Hill orchard",
    phone: "",
    complaint: "",
  },
];
const VISITS = locateList(
  "Fleet",
  [
    ["Machine", "Date", "Rested voltage", "Key-off draw", "Cranking voltage", "Client", "Telephone", "Ticket"],
    ["Quad 7", "2026-11-18", 12.41, 1.1, 10.7, "", "", ""],
    ["Quad 7", "2026-08-03", 12.79, 0.9, 10.9, "", "", ""],
    ["Mower 1", 46000, 12.6, 1, 10.5, "Parish green", 5570231, "T-9"],
  ],
  isVisitList,
);
const RECORD = locateQuoteRecord("Quotes", [
  ["What we quoted"],
  [
    "Quote number",
    "Quoted on",
    "Job sheet",
    "Job number",
    "Machine",
    "Customer",
    "Part",
    "State",
    "Total",
    "Our note",
    "Decision",
  ],
  ["Q-1", "2026-11-02", "Job", "J-101", "Cart 4", "Ángel", "stator", "faulty", 310.2, "call back", "Accepted"],
  ["", "", "", "", "", "", "", "", "", "", ""],
  ["Q-4", "2026-11-18", "Job of Quad 7", "J 118", "Quad 7", "Lower yard", "wiring", "suspect", 60, "", ""],
  ["Q-3", "2026-11-20", "Job 2", "", "Trail 2", "", "battery", "faulty", 99, "", "declined"],
])!;

describe("jobs at the counter", () => {
  const jobs = counterJobs(SHEETS, VISITS, RECORD.rows);

  it("come from sheets, closed visits and quotes, each once, latest first", () => {
    expect(jobs.map(({ key, date }) => [key, date])).toEqual([
      ["sheet Job 2", "2026-11-20"],
      ["sheet Job", "2026-11-18"],
      ["quoted j101", "2026-11-02"],
      ["visit 2", "2026-08-03"],
      ["visit 3", "2025-12-09"],
    ]);
  });

  it("have their quotes by job number though the sheet was renamed, else by sheet", () => {
    const job = (key: string) => jobs.find((other) => other.key === key)!;
    expect(job("sheet Job").quotes.map(({ number }) => number)).toEqual(["Q-4"]);
    expect(job("sheet Job").customer).toBe("Lower yard");
    expect(job("sheet Job 2").customer).toBe("Hill orchard");
    expect(job("sheet Job 2").quotes.map(({ number }) => number)).toEqual(["Q-3"]);
    expect(job("quoted j101").quotes.map(({ number }) => number)).toEqual(["Q-1"]);
  });

  it.each([
    ["", 5],
    ["118", 1],
    ["quad", 2],
    ["QUAD 2026-08", 1],
    ["lower yard", 1],
    ["angel", 1],
    ["weekends flat", 1],
    // Neither of these jobs was ever quoted.
    ["hill orchard", 1],
    ["parish", 1],
    ["t-9", 1],
    ["57-02 31", 1],
    ["0570 1148", 1],
    ["701149", 0],
    ["nobody", 0],
  ])("%p finds %i", (typed, count) => {
    expect(matchingJobs(jobs, typed)).toHaveLength(count);
  });
});

describe("a quote's days", () => {
  const quote = { decision: "open", date: "2026-11-25", valid: "" } as const;
  it.each([
    // Over the ends of a month, a year and a February that has 29 days.
    ["2026-11-25", 30, "2026-12-25"],
    ["2026-12-15", 30, "2027-01-14"],
    ["2028-02-15", 14, "2028-02-29"],
    ["next week", 14, ""],
  ])("%s and %i days is %p", (day, days, last) => expect(dayAfter(day, days)).toBe(last));

  it("are over the day after the last one, and that is told of no quote that was decided on", () => {
    expect(expiredOn(quote, "2026-12-25", 30)).toBeUndefined();
    expect(expiredOn(quote, "2026-12-26", 30)).toBe("2026-12-25");
    expect(expiredOn({ ...quote, decision: "accepted" }, "2027-01-01", 30)).toBeUndefined();
  });

  it("are those that the record holds, whatever the terms say now; without both nothing is told", () => {
    expect(expiredOn({ ...quote, valid: "2026-12-09" }, "2026-12-10", 30)).toBe("2026-12-09");
    expect(expiredOn(quote, "2030-01-01", undefined)).toBeUndefined();
    expect(expiredOn({ ...quote, date: "" }, "2030-01-01", 30)).toBeUndefined();
  });
});

describe("the record of quotes", () => {
  it("keeps columns of the shop's own and goes on below its last row, over a gap", () => {
    expect(RECORD.rows.map(({ row, decision }) => [row, decision])).toEqual([
      [2, "accepted"],
      [4, "open"],
      [5, "declined"],
    ]);
    expect(RECORD.freeRow).toBe(6);
  });

  it("counts on from the highest number, whatever the order", () => {
    expect(nextNumber(RECORD.rows)).toBe("Q-5");
    expect(nextNumber([])).toBe("Q-1");
    expect(nextNumber([{ ...RECORD.rows[0]!, number: "2026/14" }])).toBe("Q-1");
  });

  it("a sheet's name that is used again does not bring another job's quotes with it", () => {
    expect(quotesOf(RECORD.rows, { sheet: "Job", jobNumber: "J-118", machine: "Quad 7" })).toHaveLength(1);
    expect(quotesOf(RECORD.rows, { sheet: "Job 2", jobNumber: "", machine: "Cart 4" })).toHaveLength(0);
  });

  it("is not found where a needed header is missing", () => {
    expect(
      locateQuoteRecord("Quotes", [
        ["Job sheet", "Part", "State", "Total"],
        ["Job", "stator", "faulty", 1],
      ]),
    ).toBeUndefined();
  });
});
