import { judge, NOT_READ, unsure } from "../judgement/judge";
import { uncertaintyOf } from "../judgement/meter";
import type { Judged } from "../judgement/types";
import { quantityById } from "../readings/catalogue";
import { PHASES } from "../readings/entries";
import type { Measured } from "../readings/types";
import { allowedDrop, LEAST_AMPS, type Run } from "../wiring/run-limits";
import type { Frame } from "./frame";
import { forEach, type Room } from "./room";

/** Across a run that conducts, next to no current leaves next to no volts; common practice [V]. */
const OPEN_RUN = 1;

/** Drop of a run of the harness at the current that flowed. */
function judgeDrop({ job, judging, ratedAmps, nominal }: Frame, id: string, run: Run): Judged {
  const measured = job.get(id);
  if (measured?.kind !== "number") return NOT_READ;
  const entry = quantityById(id);
  const current = entry.unit === "V" ? job.get("drop-current") : undefined;
  const amps = current?.kind === "number" ? current.value : undefined;
  if (amps !== undefined && Math.abs(amps) < LEAST_AMPS) {
    if (Math.abs(measured.value) * (12 / nominal) < OPEN_RUN)
      return unsure(`${entry.label}: with ${amps} A flowing a drop says nothing.`);
    const reason = `${entry.label} ${measured.value} V with ${amps} A flowing: the run is open.`;
    return { state: "fail", chance: 0, reason };
  }
  const limit = allowedDrop(run, amps, ratedAmps);
  const size: Measured = { ...measured, value: Math.abs(measured.value) };
  // What the clamp leaves open of the current, it leaves open of the allowed drop.
  const u =
    current && amps !== undefined
      ? (limit.high! / Math.abs(amps)) * uncertaintyOf(current, judging.meter, "clamp amps")
      : 0;
  return judge(entry, size, { ...limit, u }, judging);
}

/** Voltage drops of the harness. */
export const WIRING_ROOM: Room = {
  "bplus-drop": (frame, id) => judgeDrop(frame, id, "B+ run"),
  "ground-drop": (frame, id) => judgeDrop(frame, id, "ground run"),
  ...forEach(
    PHASES.map((phase) => `phase-drop-${phase}`),
    (frame, id) => judgeDrop(frame, id, "phase connector"),
  ),
};
