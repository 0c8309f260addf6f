import type { Block } from "../cell";
import { meterFromCells } from "../judgement/meter-from-cells";
import type { Meter } from "../judgement/meter";
import { jobFromCells } from "../readings/from-cells";
import type { Job } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";

/** The machine's data and the meter that one call judges all its rows with. */
export interface Bench {
  readonly machine: Job;
  readonly meter: Meter;
}

/** Reads machine data and meter; the first cell that cannot be read is the fault of the call. */
export function benchFromCells(machine: Block, meter: Block): Result<Bench> {
  return andThen(jobFromCells(machine), ({ job, issues }) => {
    const bad = issues.find((issue) => issue.fault !== undefined);
    return bad?.fault ? fail(bad.fault) : andThen(meterFromCells(meter), (own) => ok({ machine: job, meter: own }));
  });
}
