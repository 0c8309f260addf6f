import * as z from "zod/mini";
import { entryId, head, some, whole, words } from "./schema-words";

/** The counter's sheets: they hold the shop's own business, so their words are theirs and not the catalogue's. */

const cell = {
  label: words,
  /** Number format of the host. */
  format: z.optional(words),
  choices: z.optional(some(words)),
  hint: z.optional(words),
};

/** A header row, and rows to fill in below it. */
export const tableTemplate = z.strictObject({
  ...head,
  kind: z.literal("table"),
  columns: some(
    z.strictObject({
      id: z.string().check(z.regex(/^[a-z][a-z-]*$/u)),
      width: whole(5, 60),
      size: z.optional(whole(7, 12)),
      ...cell,
    }),
  ),
  rows: whole(5, 2000),
  frozenColumns: whole(0, 3),
});

/** Label, value, and what the value does. */
export const termsTemplate = z.strictObject({
  ...head,
  kind: z.literal("terms"),
  columns: z.strictObject({ term: words, value: words, about: words }),
  terms: some(
    z.strictObject({
      label: words,
      about: words,
      format: z.optional(words),
      choices: z.optional(some(words)),
      /** Stands there until it is typed over. */
      value: z.optional(z.union([z.string(), z.number()])),
    }),
  ),
});

/** What the customer gets: one printed page. */
export const quoteTemplate = z.strictObject({
  ...head,
  kind: z.literal("quote"),
  /** Sheets it is worked out from, by template id. */
  job: words,
  prices: words,
  terms: words,
  facts: z.strictObject({
    title: words,
    rows: some(
      z.strictObject({
        ...cell,
        /** Fetched from the job until it is typed over. */
        from: z.optional(entryId),
        /** What the sheet itself does with the cell. */
        role: z.optional(z.enum(["valid", "way", "verdict", "total", "decision"])),
      }),
    ),
  }),
  shown: z.strictObject({
    title: words,
    nothing: words,
    cannot: words,
    /** Where the lines are those that the customer answered to, and other ones would be quoted now. */
    held: words,
    /** Before and between the verdicts then and now. */
    outdated: z.string(),
    nowIs: z.string(),
    /** Before the day until which the quote was valid. */
    expired: z.string(),
    repriced: z.string(),
    more: words,
  }),
  columns: z.array(words).check(z.length(8)),
  /** Rows that lines, totals and ways take on paper. */
  lines: whole(12, 60),
  workings: words,
  signature: some(words),
});

export type TableTemplate = z.infer<typeof tableTemplate>;
export type TermsTemplate = z.infer<typeof termsTemplate>;
export type QuoteTemplate = z.infer<typeof quoteTemplate>;
