import { NOT_READ, unsure } from "../judgement/judge";
import { numberWords } from "../judgement/words";
import type { Judged, Limit } from "../judgement/types";
import { quantityById } from "../readings/catalogue";
import { standardOf } from "../rectifier/diodes";
import { expectedOfKind, type Expected } from "../rectifier/expectation";
import { bridgeKindOf, diodeBlockOf, judgeRectifier, ROW_IDS, type RectifierJudged } from "../rectifier/job";
import type { PartCheck } from "../rectifier/output-short";
import { FORWARD, REVERSE } from "../rectifier/swapped-leads";
import { BANKS, PHASE_NAMES, type Bank, type DiodeFinding, type DiodeState, type Row } from "../rectifier/types";
import type { Frame } from "./frame";
import { forEach, onceEach, type Room } from "./room";

/** The unplugged regulator-rectifier of a job, judged once for all its readings. */
interface RectifierView {
  readonly judged: RectifierJudged;
  /** What the reading of one cell should show, and where that comes from. */
  expected(row: Row, phase: number): Limit | undefined;
}

function rectifierView({ job, knownGood, judging }: Frame): RectifierView {
  const { meter } = judging;
  const judged = judgeRectifier(job, { knownGood, meter });
  const check = { ...diodeBlockOf(job), kind: bridgeKindOf(job), meter };
  // Parts that read faulty themselves do not count, here as there.
  const ofParts = standardOf(knownGood.map(diodeBlockOf), check).expected;
  return {
    judged,
    expected(typed, phase) {
      const row = straight(typed, judged.diodes.leadsSwapped);
      const known = limitOf(ofParts[row][phase], {
        from: "known-good parts",
        count: judged.diodes.knownGoodCount,
        words: partsWords(judged.diodes.knownGoodCount),
      });
      const bank: Bank = row.startsWith("upper") ? "upper" : "lower";
      const ofKind = expectedOfKind(check.kind, bank)[row.endsWith("Forward") ? "forward" : "reverse"];
      return (
        known ??
        limitOf(ofKind, {
          from: "published",
          source: "diode-check-band",
          words: `${check.kind}, instruction sheets of general-purpose meters`,
        })
      );
    },
  };
}

/** The row in which a reading belongs, where red and black were swapped for its bank. */
function straight(typed: Row, swapped: RectifierJudged["diodes"]["leadsSwapped"]): Row {
  const bank: Bank = typed.startsWith("upper") ? "upper" : "lower";
  if (swapped !== "both banks" && swapped !== bank) return typed;
  return typed === FORWARD[bank] ? REVERSE[bank] : FORWARD[bank];
}

function partsWords(count: number): string {
  return count === 1 ? "1 known-good part of the same number" : `${count} known-good parts of the same number`;
}

/** Over-range means at least what no single device drops [V]. */
const AS_GOOD_AS_OVER = 2;

function limitOf(expected: Expected | undefined, origin: Limit["origin"]): Limit | undefined {
  if (expected?.reads === "volts") return { low: expected.low, high: expected.high, origin };
  return expected?.reads === "over-range" ? { low: AS_GOOD_AS_OVER, origin } : undefined;
}

const CELL_OF: ReadonlyMap<string, { readonly row: Row; readonly phase: number }> = new Map(
  (Object.entries(ROW_IDS) as [Row, string][]).flatMap(([row, id]) =>
    PHASE_NAMES.map((name, phase) => [`${id}-${name.toLowerCase()}`, { row, phase }] as const),
  ),
);

/** One reading of the diode check, as the check of the whole block sees it. */
function judgeDiodeReading({ job }: Frame, id: string, view: RectifierView): Judged {
  const { row, phase } = CELL_OF.get(id)!;
  const { diodes } = view.judged;
  const state = diodes.readings[row][phase];
  if (state === undefined || state === "not read")
    return job.has(id) ? unsure(`${quantityById(id).label}: this reading cannot be used.`) : NOT_READ;
  const limit = view.expected(row, phase);
  const about = { ...(limit ? { limit } : {}) };
  const subject = `${quantityById(id).label} ${shown(job, id)} ${state}`;
  const against = limit ? ` (${limit.origin.words})` : "";
  const finding = findingFor(diodes.findings, row, phase, state);
  if (finding?.phases.length === 0) return unsure(`${subject}: ${lower(finding.words)}.`, about);
  if (finding && finding.weight !== "unproven" && limit)
    return { ...about, state: "fail", chance: 0, reason: `${subject}${against}: ${lower(finding.words)}.` };
  if (finding?.weight === "faulty") {
    // Metal both ways, or one open among sisters that conduct, is a fault whatever is inside.
    const sisters: Limit = { origin: { from: "computed", words: "against its sisters in the same bank" } };
    return {
      limit: sisters,
      state: "fail",
      chance: 0,
      reason: `${subject} (${sisters.origin.words}): ${lower(finding.words)}.`,
    };
  }
  if (finding) return unsure(`${subject}${against}: ${lower(finding.words)}.`, about);
  const turned =
    diodes.leadsSwapped === "no" || straight(row, diodes.leadsSwapped) === row ? "" : ", red and black swapped";
  if (!limit)
    return unsure(
      `${subject}, like its sisters; without the circuit inside or a known-good part nothing says that it should.`,
    );
  return { ...about, state: "pass", chance: 1, reason: `${subject}${turned}, as it should${against}.` };
}

/** The finding that speaks of this reading: of the whole block first, then of its device. */
function findingFor(
  findings: readonly DiodeFinding[],
  row: Row,
  phase: number,
  state: DiodeState,
): DiodeFinding | undefined {
  const bank = BANKS.find((name) => row.startsWith(name));
  return (
    findings.find((finding) => finding.phases.length === 0 && finding.state === state) ??
    findings.find(
      (finding) =>
        finding.bank === bank &&
        finding.phases.includes(PHASE_NAMES[phase]!) &&
        finding.state === state &&
        (finding.state !== "conducts" || finding.weight !== "suspect" || row.endsWith("Reverse")),
    )
  );
}

function shown(job: Frame["job"], id: string): string {
  const measured = job.get(id);
  const entry = quantityById(id);
  if (measured?.kind === "number") return numberWords(measured.value, entry);
  if (measured?.kind === "above" || measured?.kind === "below")
    return `${measured.kind} ${numberWords(measured.value, entry)}`;
  return "OL";
}

function lower(words: string): string {
  // A name that starts with a letter of its own (B+) keeps it.
  return /^[A-Z][a-z]/u.test(words) ? `${words[0]!.toLowerCase()}${words.slice(1)}` : words;
}

const OUTPUT: Limit = {
  low: 0.3,
  origin: { from: "published", source: "common-practice", words: "B+ to ground never reads metal, common practice" },
};
const CASE: Limit = {
  low: 1e6,
  origin: {
    from: "published",
    source: "common-practice",
    words: "terminals are insulated from the case, common practice",
  },
};

/** B+ to ground and terminals to case, as their own checks see them. */
function judgePartCheck({ job }: Frame, id: string, view: RectifierView): Judged {
  if (!job.has(id)) return NOT_READ;
  const isCase = id === "case-leakage";
  const check: PartCheck = isCase ? view.judged.caseLeakage : view.judged.outputShort;
  const limit = isCase ? CASE : OUTPUT;
  const reason = `${check.reason.replace(/\.$/u, "")} (${limit.origin.words}).`;
  if (check.state === "serviceable") return { state: "pass", chance: 1, limit, reason };
  return check.state === "unproven" ? unsure(reason, { limit }) : { state: "fail", chance: 0, limit, reason };
}

const viewOf = onceEach(rectifierView);

/** Readings of the unplugged regulator-rectifier. */
export const RECTIFIER_ROOM: Room = {
  ...forEach([...CELL_OF.keys()], (frame, id) => judgeDiodeReading(frame, id, viewOf(frame))),
  ...forEach(["output-to-ground", "output-to-ground-swapped", "case-leakage"], (frame, id) =>
    judgePartCheck(frame, id, viewOf(frame)),
  ),
};
