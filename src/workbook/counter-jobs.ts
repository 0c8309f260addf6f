import { plain } from "../core/quote/price-list";
import type { JobSummary } from "./job-sheet";
import { plainName, type ListRow, type ListSheet } from "./list-sheet";
import { quotesOf, type QuoteRow } from "./quote-record";
import { dayOf } from "./visits-sheet";

/** One job as the counter looks for it: on a sheet of its own, closed into the list of visits, or only quoted. */
export interface CounterJob {
  /** Tells jobs apart; stays the same while the job stays where it is. */
  readonly key: string;
  readonly sheet: string | undefined;
  readonly visit: ListRow | undefined;
  readonly jobNumber: string;
  readonly machine: string;
  readonly customer: string;
  readonly phone: string;
  readonly complaint: string;
  /** Day as `2026-11-25`. */
  readonly date: string;
  /** Latest first. */
  readonly quotes: readonly QuoteRow[];
}

/**
 * Every job that the workbook knows of, latest first: job sheets, closed visits whose sheet is gone,
 * and quotes whose job is neither.
 */
export function counterJobs(
  sheets: readonly JobSummary[],
  visits: ListSheet | undefined,
  quotes: readonly QuoteRow[],
): readonly CounterJob[] {
  const open = sheets.map((summary): CounterJob => {
    const { sheet, machine, jobNumber, phone, complaint } = summary;
    const own = quotesOf(quotes, { sheet, jobNumber, machine });
    return {
      key: `sheet ${sheet}`,
      sheet,
      visit: undefined,
      jobNumber,
      machine,
      phone,
      complaint,
      customer: summary.customer || customerOf(own),
      date: dayOf(summary.date),
      quotes: own,
    };
  });
  const closed = (visits?.rows ?? [])
    .map(closedJob)
    .filter((job) => job.machine !== "" && !open.some((other) => sameVisit(job, other)));
  const quoted = new Set(open.flatMap((job) => job.quotes.map(({ row }) => row)));
  const others = jobsOfQuotes(quotes.filter(({ row }) => !quoted.has(row)));
  return [...open, ...closed, ...others].sort((a, b) => b.date.localeCompare(a.date));
}

function closedJob(visit: ListRow): CounterJob {
  const text = (id: string) => String(visit.typed.get(id) ?? "").trim();
  return {
    key: `visit ${visit.row}`,
    sheet: undefined,
    visit,
    jobNumber: text("job-number"),
    machine: text("machine-name"),
    complaint: text("complaint"),
    customer: text("customer"),
    phone: text("customer-phone"),
    date: dayOf(visit.typed.get("visit-date")),
    quotes: [],
  };
}

function sameVisit(a: CounterJob, b: CounterJob): boolean {
  return plainName(a.machine) === plainName(b.machine) && a.date === b.date;
}

/** Jobs of which nothing but quotes is left, the quotes of one job together. */
function jobsOfQuotes(rows: readonly QuoteRow[]): readonly CounterJob[] {
  const jobs = new Map<string, QuoteRow[]>();
  for (const row of rows) {
    const name = plainName(row.jobNumber) || `${plainName(row.sheet)} ${plainName(row.machine)}`;
    jobs.set(name, [row, ...(jobs.get(name) ?? [])]);
  }
  return [...jobs].map(([name, quotes]): CounterJob => {
    const { jobNumber, machine, date } = quotes[0]!;
    return {
      key: `quoted ${name}`,
      sheet: undefined,
      visit: undefined,
      jobNumber,
      machine,
      customer: customerOf(quotes),
      phone: "",
      complaint: "",
      date,
      quotes,
    };
  });
}

function customerOf(quotes: readonly QuoteRow[]): string {
  return quotes.find(({ customer }) => customer !== "")?.customer ?? "";
}

/** So many digits are taken for a phone number, however it is written. */
const ENOUGH_DIGITS = 4;

/** Jobs in whose words every word that was typed is found, in any order; or whose phone number was typed. */
export function matchingJobs(jobs: readonly CounterJob[], typed: string): readonly CounterJob[] {
  const wanted = plain(typed).split(" ").filter(Boolean);
  const digits = /^[+\d\s()./-]+$/u.test(typed) ? digitsOf(typed) : "";
  return jobs.filter((job) => {
    const { sheet, jobNumber, machine, customer, phone, complaint, date } = job;
    if (digits.length >= ENOUGH_DIGITS && digitsOf(phone).includes(digits)) return true;
    const text = plain([sheet, jobNumber, machine, customer, phone, complaint, date].join(" "));
    return wanted.every((word) => text.includes(word));
  });
}

function digitsOf(text: string): string {
  return text.replaceAll(/\D/gu, "");
}
