import type { QuoteTies } from "../../src/workbook/quote-write";

const place = { row: 0, column: 0 };

/** A job on the sheet Job, prices and terms on P and T: for tests that look at no value of theirs. */
export const TIES: QuoteTies = {
  jobSheet: "Job",
  verdict: place,
  nextCheck: place,
  facts: new Map(),
  prices: "P!$A$1:$C$9",
  terms: "T!$A$1:$B$9",
};
