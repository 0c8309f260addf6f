import { OPEN_FIELD } from "../stator/field-winding";
import type { Job } from "../readings/types";
import { faultsOfKey } from "./faults";
import type { Frame } from "./frame";
import type { Hypothesis } from "./hypotheses";

export const isRotorWeak = (h: Pick<Hypothesis, "fault">) => faultsOfKey(h.fault).includes("rotor-demagnetised");

/** Whether the field winding conducts; `undefined` where it was not read. */
export function fieldConducts(job: Job): boolean | undefined {
  const read = job.get("field-ohms");
  if (read === undefined || read.kind === "text" || read.kind === "choice") return undefined;
  return read.kind !== "overload" && read.value < OPEN_FIELD;
}

/** The field winding, first of every rotor but a weak one, then of a weak one; some are weak though it conducts. */
export function rotorEvidence(job: Job, { alternator }: Frame): readonly number[] | undefined {
  const conducts = alternator === "field-excited" ? fieldConducts(job) : undefined;
  if (conducts === undefined) return undefined;
  return conducts ? [Math.log(0.99), Math.log(0.4)] : [Math.log(0.003), Math.log(0.6)];
}
