import { CATALOGUE } from "../../../src/core/readings/catalogue";
import { PHASES } from "../../../src/core/readings/entries";
import type { Job } from "../../../src/core/readings/types";
import { assess, expectedLimit, type AssessOptions } from "../../../src/pane/assess";
import { judgedDiodes } from "../../../src/pane/diode-block";
import { withoutSubject } from "../../../src/pane/words/without-subject";

const OPTIONS: AssessOptions = { knownGood: [], rule: "guarded", meter: {} };

/** Every sentence of the computing side that the pane shows of a job. */
export function toldOf(job: Job, options: AssessOptions = OPTIONS): ReadonlySet<string> {
  const told = new Set<string>();
  const { explained, nextChecks, judged } = assess(job, options);
  for (const next of nextChecks) {
    told.add(next.label);
    for (const { words, means } of next.outcomes) told.add(words).add(means);
  }
  if (explained) {
    const { verdict, contradictions, faults } = explained.diagnosis;
    told.add(verdict.sentence).add(withoutSubject(verdict.sentence));
    for (const { words } of contradictions) told.add(words);
    for (const { label } of faults) told.add(label);
    for (const { for: pro, against } of explained.evidence)
      for (const { words } of [...pro, ...against]) told.add(words);
  }
  for (const { reason, limit, customary } of judged.values()) {
    told.add(reason);
    if (limit) told.add(limit.origin.words);
    if (customary) told.add(customary.words);
  }
  const diodes = judgedDiodes(job, PHASES, options.knownGood);
  if (diodes) for (const text of [diodes.reason, diodes.next, ...diodes.hidden]) told.add(text);
  return told;
}

/** Where the limits come from that the pane shows before a reading is taken. */
export function expectedOf(job: Job): ReadonlySet<string> {
  return new Set(CATALOGUE.flatMap(({ id }) => expectedLimit(job, id, OPTIONS)?.origin.words ?? []));
}
