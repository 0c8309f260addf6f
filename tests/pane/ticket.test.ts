import type { ProofOutcome } from "../../src/core/diagnosis/proof";
import { FAULT_IDS } from "../../src/core/diagnosis/faults";
import { assess } from "../../src/pane/assess";
import { openJob, type OpenJob } from "../../src/pane/open-job";
import { ticketLines, writeTicket } from "../../src/pane/ticket";
import { TICKET_ENGLISH } from "../../src/pane/words/ticket-english";
import { TICKET_SPANISH } from "../../src/pane/words/ticket-spanish";
import type { Cell } from "../../src/core/cell";
import { MemoryWorkbook } from "./memory-workbook";

const OPTIONS = { knownGood: [], rule: "guarded", meter: {} } as const;
const FACTS: Cell[][] = [
  ["Job number", "J-7"],
  ["Customer", "Lower yard"],
  ["Machine", "Mower 3"],
  ["Date", "2026-11-20"],
  ["Complaint", "dies on the trailer"],
  ["Battery type", "agm"],
  ["Battery capacity", 14],
  ["Cold cranking amps", 210],
  ["No-load AC, nominal", 72],
  ["No-load AC, nominal at", 5000],
  ["No-load AC, tolerance", 15],
  ["Rated output", 380],
];

async function jobWith(
  readings: readonly (readonly [string, Cell])[],
): Promise<{ book: MemoryWorkbook; open: OpenJob }> {
  const book = new MemoryWorkbook();
  book.addSheet("Job", [...FACTS, ...readings.map((row) => [...row])]);
  return { book, open: (await openJob(book, "Job"))! };
}

const text = (open: OpenJob, outcome?: ProofOutcome) =>
  ticketLines(open, assess(open.before.job, OPTIONS), outcome, TICKET_ENGLISH)
    .map((line) => `${line.text} ${line.value ?? ""}`)
    .join("\n");

describe("the customer's ticket", () => {
  it("has plain words for every fault, in both languages", () => {
    const faults = FAULT_IDS.filter((id) => id !== "healthy");
    for (const words of [TICKET_ENGLISH, TICKET_SPANISH])
      expect(faults.filter((id) => words.fault[id] === undefined)).toEqual([]);
  });

  it("uses none of the trade's own words", () => {
    const JARGON =
      /stator|rectifier|rectificador|est[aá]tor|diod|ohm|B\+|\bAC\b|\bCA\b|ripple|SCR|shunt|phase|fase|no-load|insulation/iu;
    for (const words of [TICKET_ENGLISH, TICKET_SPANISH]) {
      const said = [
        ...Object.values(words.fault),
        ...Object.values(words.part),
        ...Object.values(words.state),
        words.verdict.healthy,
        words.repair,
        words.proven,
      ];
      expect(said.filter((sentence) => JARGON.test(sentence!))).toEqual([]);
    }
  });

  it("says nothing was measured where nothing was", async () => {
    const { open } = await jobWith([]);
    expect(text(open)).toContain(TICKET_ENGLISH.verdict.nothing);
  });

  it("a winding that conducts to ground is proven: cause and repair are named", async () => {
    const { open } = await jobWith([
      ["Rested voltage", 12.3],
      ["Winding A to ground", 2.1],
      ["Winding B to ground", 2.2],
      ["Winding C to ground", 2.0],
    ]);
    expect(assess(open.before.job, OPTIONS).explained!.diagnosis.verdict).toMatchObject({
      part: "stator",
      state: "faulty",
    });
    const ticket = text(open, "repaired");
    expect(ticket).toContain("The cause is a charging coil in the engine that touches the engine's metal.");
    expect(ticket).toContain(TICKET_ENGLISH.repair);
    expect(ticket).toContain(TICKET_ENGLISH.proven);
    for (const fact of ["J-7", "Lower yard", "Mower 3", "2026-11-20", "dies on the trailer"])
      expect(ticket).toContain(fact);
  });

  it("what is not proven is not sold: a low voltage at speed alone names no cause as certain", async () => {
    const { open } = await jobWith([
      ["Rested voltage", 12.3],
      ["Test speed", 5000],
      ["Running voltage at test speed", 12.2],
    ]);
    const ticket = text(open);
    expect(ticket).not.toContain("The cause is");
    expect(ticket).not.toContain(TICKET_ENGLISH.repair);
    expect(ticket).toMatch(/One more check of about \d+ minutes/u);
  });

  it("stands on a sheet of its own, and a second one beside it", async () => {
    const { book, open } = await jobWith([["Rested voltage", 12.8]]);
    const lines = ticketLines(open, assess(open.before.job, OPTIONS), undefined, TICKET_ENGLISH);
    expect(await writeTicket(book, lines, TICKET_ENGLISH)).toBe("Ticket");
    expect(await writeTicket(book, lines, TICKET_ENGLISH)).toBe("Ticket 2");
    expect(book.valueAt("Ticket", 0, 0)).toBe(TICKET_ENGLISH.title);
    expect(await book.activeSheet()).toBe("Ticket 2");
  });
});
