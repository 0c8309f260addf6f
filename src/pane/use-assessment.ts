import { useMemo } from "preact/hooks";
import type { Job } from "../core/readings/types";
import { partNumberOf, partsOfNumber } from "../workbook/known-good-sheet";
import type { ListSheet } from "../workbook/list-sheet";
import { assess, type Assessment, type AssessOptions } from "./assess";
import { usePane } from "./pane-context";

/** What the pane says of a job by the user's settings and the known-good parts of the number on it. */
export function useAssessment(
  job: Job,
  knownGood: ListSheet | undefined,
): { readonly assessment: Assessment; readonly options: AssessOptions } {
  const { settings } = usePane();
  const partNumber = partNumberOf(job);
  const options = useMemo(
    (): AssessOptions => ({
      knownGood: partsOfNumber(knownGood, partNumber).map((part) => part.job),
      rule: settings.rule,
      meter: settings.meter,
    }),
    [knownGood, partNumber, settings.rule, settings.meter],
  );
  const assessment = useMemo(() => assess(job, options), [job, options]);
  return { assessment, options };
}
