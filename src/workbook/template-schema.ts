import * as z from "zod/mini";
import { AUDIT_COLUMNS } from "../core/fleet/audit-columns";
import { checkOf } from "../core/readings/catalogue";
import { STAGES } from "../core/readings/types";
import { quoteTemplate, tableTemplate, termsTemplate } from "./counter-schema";
import { entryId, head, some, whole, words } from "./schema-words";

// The small form of the library brings no words of its own.
z.config(z.locales.en());

/**
 * What a file in `templates/` may say: which catalogue entries stand on a sheet, in which order and
 * under which words of the sheet's own. Labels, units, hints, steps and cautions come from the
 * catalogue and are never written a second time.
 */

const checkId = z
  .string()
  .check(
    z.refine((id) => checkOf(id) !== undefined, { error: (i) => `no check "${String(i.input)}" in the catalogue` }),
  );
/** One page for one machine: facts beside the verdict, then the checks in working order. */
const pageTemplate = z.strictObject({
  ...head,
  kind: z.literal("page"),
  /** Blocks of label and value at the top left. */
  facts: some(
    z.strictObject({
      title: words,
      entries: some(entryId),
      /** Of these, what takes two lines. */
      tall: z.optional(z.array(entryId)),
      /** Values come from the row of that list whose `by` column names this machine, until they are typed over. */
      lookUp: z.optional(z.strictObject({ list: z.string(), by: entryId })),
    }),
  ),
  verdict: z.strictObject({
    title: words,
    nothingRead: words,
    cannotRead: words,
    /** The headline where no part is named, proven and not. */
    noFault: words,
    noFaultYet: words,
    /** What a chance is called that rounds to all or to nothing. */
    certain: words,
    hardly: words,
    next: words,
    causes: words,
    causeCount: whole(1, 6),
    why: words,
    whyLines: whole(1, 12),
    /** Over the cells at the right that hold what the functions answer. */
    workings: words,
    /** List of known-good parts. */
    knownGood: z.string(),
  }),
  /** Running voltage over speed, as the machine should give it, with what was read. */
  curve: z.strictObject({
    title: words,
    speed: words,
    volts: words,
    low: words,
    likely: words,
    high: words,
    rpms: z.array(whole(100, 20_000)).check(z.minLength(2)),
    load: entryId,
    points: some(z.strictObject({ name: words, speed: entryId, volts: entryId })),
  }),
  columns: z.strictObject({
    reading: words,
    value: words,
    unit: words,
    state: words,
    low: words,
    high: words,
    reason: words,
    /** Stands in place of the reason where the reading cannot be read. */
    unreadable: words,
    /** How the reason of a reading comes to its limit; where that comes from follows in brackets. */
    limit: words,
  }),
  caution: words,
  stages: some(
    z.strictObject({
      stage: z.enum(STAGES),
      checks: some(checkId),
      /** Readings that no check takes. */
      entries: z.optional(z.array(entryId)),
    }),
  ),
  proof: z.strictObject({
    title: words,
    how: words,
    entries: some(entryId),
    /** Must pass, with nothing failing, before the repair counts as proven. */
    must: some(entryId),
    answer: words,
    proven: words,
    notCured: words,
    unproven: words,
    notRead: words,
  }),
  signature: some(words),
});

/** One row for each machine, part or visit. */
const listTemplate = z.strictObject({
  ...head,
  kind: z.literal("list"),
  columns: some(entryId),
  /** Names of the sheet where it was laid out in another language. */
  alsoNamed: z.optional(some(words)),
  /** Rows laid out for filling in. */
  rows: whole(5, 2000),
  frozenColumns: whole(0, 3),
  /** What is worked out beside the rows: each is judged as a job of its own, all in one call of AUDIT. */
  results: z.optional(
    z.strictObject({
      /** Which of its answers stand beside the rows, in which order. */
      show: some(z.enum(AUDIT_COLUMNS)),
      /** Over the cells at the right that hold what the function answers. */
      workings: words,
      /** List of machine data, by machine name. */
      machines: z.string(),
      /** Share of machines that are in order before anything is read, where the visits are routine [1]. */
      inOrder: z.optional(z.number().check(z.minimum(0.5), z.maximum(0.99))),
    }),
  ),
});

const template = z.discriminatedUnion("kind", [
  pageTemplate,
  listTemplate,
  tableTemplate,
  termsTemplate,
  quoteTemplate,
]);

export type PageTemplate = z.infer<typeof pageTemplate>;
export type ListTemplate = z.infer<typeof listTemplate>;
export type { QuoteTemplate, TableTemplate, TermsTemplate } from "./counter-schema";
export type AuditColumn = (typeof AUDIT_COLUMNS)[number];
export type Template = z.infer<typeof template>;

const value = z.union([z.string(), z.number()]);

/** An invented shop to show the sheets with. */
const demo = z.strictObject({
  $schema: z.optional(z.string()),
  about: words,
  /** What the shop typed in its own words, by language, said for the English that stands below. */
  words: z.optional(z.record(z.string(), z.record(words, words))),
  /** Values of one page by catalogue id; of a list by row. */
  pages: z.record(z.string(), z.record(entryId, value)),
  lists: z.record(z.string(), z.array(z.record(entryId, value))),
  /** Of a table by row and column id; of terms and quotes by label. */
  tables: z.optional(z.record(z.string(), z.array(z.record(words, value)))),
  labels: z.optional(z.record(z.string(), z.record(words, value))),
});

export type Demo = z.infer<typeof demo>;

/** Reads a template; throws where the data are wrong, naming the file's own path to it: that is our bug. */
export function parseTemplate(data: unknown): Template {
  return checked(template.safeParse(data));
}

export function parseDemo(data: unknown): Demo {
  return checked(demo.safeParse(data));
}

function checked<T>(parsed: z.core.util.SafeParseResult<T>): T {
  if (parsed.success) return parsed.data;
  throw new Error(
    parsed.error.issues.map((issue) => `${issue.path.join(".") || "template"}: ${issue.message}`).join("; "),
  );
}
