import { isBlank, type Block, type Cell } from "../cell";
import { parseQuantity } from "../readings/parse";
import type { Job } from "../readings/types";
import { andThen, fail, ok, type Result } from "../result";
import { energyBudget, type Consumer, type Stretch } from "./energy-budget";

/**
 * The energy budget from ranges: loads in amps, or in watts where written so (`55 W`), each with its
 * duty; the ride as two columns, engine speed and minutes.
 *
 * @returns Net Ah, state of charge after ride and night, starts tomorrow, mean load, reason
 */
export function budgetFromCells(job: Job, loads: Block, duty: Block, ride: Block): Result<readonly Cell[]> {
  return andThen(consumersOf(loads, duty), (consumers) =>
    andThen(rideOf(ride), (stretches) =>
      andThen(energyBudget(job, consumers, stretches.length > 0 ? stretches : undefined), (budget) =>
        ok([budget.netAmpHours, budget.chargeAfter, budget.startsTomorrow, budget.loadAmps, budget.reason]),
      ),
    ),
  );
}

function consumersOf(loads: Block, duty: Block): Result<readonly Consumer[]> {
  const cells = loads.flat();
  const shares = duty.flat();
  if (shares.length !== 1 && shares.length !== cells.length) {
    return fail({
      code: "shape",
      what: "duty",
      came: `${shares.length} cells`,
      expected: `one cell or ${cells.length} cells like the loads`,
    });
  }
  const out: Consumer[] = [];
  for (const [k, cell] of cells.entries()) {
    if (isBlank(cell)) continue;
    const amps = ampsOf(cell);
    if (!amps.ok) return amps;
    const share = parseQuantity(shares[shares.length === 1 ? 0 : k], { what: "duty", unit: "1", min: 0, max: 1 });
    if (!share.ok) return share;
    out.push({ amps: amps.value, duty: share.value?.kind === "number" ? share.value.value : 1 });
  }
  return ok(out);
}

function ampsOf(cell: Cell): Result<number> {
  const watts =
    typeof cell === "string" ? parseQuantity(cell, { what: "loads", unit: "W", min: 0, max: 4000 }) : undefined;
  if (watts?.ok && watts.value?.kind === "number" && /w(?:atts?)?\b/iu.test(String(cell)))
    return ok(watts.value.value / 13.5);
  const amps = parseQuantity(cell, { what: "loads", unit: "A", min: 0, max: 300 });
  return andThen(amps, (value) => ok(value?.kind === "number" ? value.value : 0));
}

function rideOf(block: Block): Result<readonly Stretch[]> {
  const out: Stretch[] = [];
  for (const row of block) {
    if (row.every(isBlank)) continue;
    if (row.length !== 2) {
      return fail({
        code: "shape",
        what: "ride",
        came: `${row.length} columns`,
        expected: "two columns: engine speed and minutes",
      });
    }
    const rpm = parseQuantity(row[0], { what: "ride, engine speed", unit: "rpm", min: 0, max: 20000 });
    if (!rpm.ok) return rpm;
    const minutes = parseQuantity(row[1], { what: "ride, minutes", unit: "min", min: 0, max: 1440 });
    if (!minutes.ok) return minutes;
    if (rpm.value?.kind !== "number" || minutes.value?.kind !== "number") continue;
    out.push({ rpm: rpm.value.value, minutes: minutes.value.value });
  }
  return ok(out);
}
