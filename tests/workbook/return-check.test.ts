import { entryOf } from "../../src/core/readings/catalogue";
import { parseEntry } from "../../src/core/readings/parse";
import { PARTS, type Job, type Measured } from "../../src/core/readings/types";
import { DEMO } from "../../src/workbook/demo";
import type { QuoteRow } from "../../src/workbook/quote-record";
import { returnCheck, type JobRecord } from "../../src/workbook/return-check";

function job(readings: Readonly<Record<string, string | number>>): Job {
  return new Map(
    Object.entries(readings).map(([id, typed]): [string, Measured] => {
      const parsed = parseEntry(typed, entryOf(id)!);
      if (!parsed.ok || !parsed.value) throw new Error(`${id} cannot be read.`);
      return [id, parsed.value];
    }),
  );
}
const NONE: Job = new Map();
const record = (before: Job, after: Job = NONE, quotes: readonly QuoteRow[] = []): JobRecord => ({
  before,
  after,
  quotes,
});

const MACHINE = {
  "battery-type": "agm",
  "no-load-nominal": 72,
  "no-load-nominal-rpm": 5000,
  "regulated-min": 13.7,
  "regulated-max": 14.9,
};
const LOW = { "rested-voltage": 12.4, "test-rpm": 5000, "test-voltage": 12.3 };
/** One pair dead with the stator unplugged: a check of the stator itself. */
const DEAD_PAIR = {
  "no-load-ab": 70,
  "no-load-bc": 2,
  "no-load-ca": 3,
  "no-load-rpm": 5000,
};
const quoted = (of: Partial<QuoteRow>): QuoteRow => ({
  row: 9,
  number: "Q-1",
  date: "2026-11-10",
  valid: "",
  decided: "",
  sheet: "Job",
  jobNumber: "",
  machine: "",
  customer: "",
  part: "stator",
  state: "faulty",
  chance: 0.96,
  verdict: "",
  way: "",
  partNumber: "",
  total: 1,
  currency: "USD",
  decision: "accepted",
  quoteSheet: "",
  ...of,
});

describe("was this part proven bad?", () => {
  it("proven: names the check of the part itself with its readings, and no other", () => {
    const answer = returnCheck(record(job({ ...MACHINE, ...LOW, ...DEAD_PAIR })), "stator");
    expect(answer).toMatchObject({ part: "stator", kind: "proven" });
    expect(answer.grounds).toMatch(/unplugged|uneven/u);
    expect(answer.checks.map(({ check }) => check)).toEqual(["no-load-ac"]);
    expect(answer.checks[0]!.words).toMatch(/70 \/ 2 \/ 3|70\.0 \/ 2\.0 \/ 3\.0/u);
  });

  it("another part of the same job is not proven bad with it", () => {
    const answer = returnCheck(record(job({ ...MACHINE, ...LOW, ...DEAD_PAIR })), "rotor");
    expect(answer.kind).toBe("unknown");
    expect(answer.open.length).toBeGreaterThan(0);
  });

  it("suspected: raised by readings that are not checks of the part, and says what was never done", () => {
    // The demo's job, whose sheet calls the wiring suspect until the drops are measured.
    const row = DEMO.lists["machines"]!.find((machine) => machine["machine-name"] === "Quad 7")!;
    const before = job({ ...row, ...DEMO.pages["job"]! });
    const answer = returnCheck(record(before), "wiring");
    expect(answer).toMatchObject({ kind: "suspected", checks: [], grounds: undefined });
    expect(answer.open).toEqual(expect.arrayContaining(["B+ drop", "ground drop"]));
    const kinds = PARTS.map((part) => returnCheck(record(before), part).kind);
    expect(kinds).not.toContain("proven");
  });

  it("cleared: the part's own checks were in order, each with its readings", () => {
    const before = job({
      ...MACHINE,
      "rested-voltage": 12.8,
      "hours-rested": 12,
      "test-rpm": 5000,
      "test-voltage": 14.3,
      "key-off-draw": "0.4 mA",
      "key-off-limit": 3,
      "lights-load": 8,
      "key-on-load": 8,
    });
    const answer = returnCheck(record(before), "load");
    expect(answer.kind).toBe("cleared");
    expect(answer.checks.map(({ check }) => check)).toContain("key-off-draw");
    expect(answer.checks.map(({ check }) => check)).not.toContain("running-test");
  });

  it("repaired: proven bad, and after the work what showed it passes", () => {
    const before = job({ ...MACHINE, ...LOW, ...DEAD_PAIR });
    const after = job({
      "rested-voltage": 12.8,
      "hours-rested": 12,
      "test-rpm": 5000,
      "test-voltage": 14.3,
      "no-load-ab": 71,
      "no-load-bc": 72,
      "no-load-ca": 71.5,
      "no-load-rpm": 5000,
    });
    const answer = returnCheck(record(before, after), "stator");
    expect(answer.after!.outcome).toBe("repaired");
    expect(answer.kind).toBe("repaired");
    // Half of what showed the fault taken again is no proof.
    const half = returnCheck(record(before, job({ "test-rpm": 5000, "test-voltage": 14.3 })), "stator");
    expect(half.kind).toBe("proven");
    expect(half.after!.outcome).toBe("unproven");
  });

  it("unknown: nothing was read, which is no pass", () => {
    expect(returnCheck(record(job(MACHINE)), "stator")).toMatchObject({
      kind: "unknown",
      chance: undefined,
      checks: [],
    });
  });

  it("recorded: only the quote is left, and it counts for its own part alone", () => {
    const left = record(NONE, NONE, [quoted({})]);
    expect(returnCheck(left, "stator")).toMatchObject({ kind: "recorded", quotes: [{ number: "Q-1" }] });
    expect(returnCheck(left, "battery")).toMatchObject({ kind: "unknown", quotes: [] });
    expect(returnCheck(record(NONE, NONE, [quoted({ state: "suspect" })]), "stator").kind).toBe("unknown");
  });
});
