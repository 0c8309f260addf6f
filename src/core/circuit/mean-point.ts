import { unregulated } from "./averaged";
import { batteryAlone, type DcState } from "./dc-side";
import { fieldExcited } from "./field-excited";
import { heldError, heldState } from "./regulated-level";
import { timeStepped } from "./steady-state";
import type { ChargingSystem, CircuitModel, Conditions } from "./types";
import { andThen, ok, type Result } from "../result";

/** Volts and amps alone: what curves and expectations are made of. */
export interface MeanPoint extends DcState {
  /** What sets the voltage: the regulator, or the machine's own strength. */
  readonly limitedBy: "regulator" | "machine";
  readonly model: CircuitModel;
  /** Error of the model itself, 95 of 100 machines [V]. */
  readonly errorVolts: number;
}

/** The closed form is off by 0.3 % of the current at most where it holds; in volts at the battery that is little. */
const CLOSED_FORM_ERROR = 0.02;
const TIME_STEPPED_ERROR = 0.05;

/**
 * Means of a running system, quickly: in closed form where it holds, with the regulator at work too;
 * time-stepped near the start of conduction and with broken parts. Impossible data are the caller's to
 * refuse.
 */
export function meanPoint(system: ChargingSystem, at: Conditions): Result<MeanPoint> {
  if (system.alternator.kind === "field-excited") {
    return andThen(fieldExcited(system, at, { ripple: false }), (point) =>
      ok({ ...point, limitedBy: point.regulatorDuty > 0 ? "regulator" : "machine", errorVolts: TIME_STEPPED_ERROR }),
    );
  }
  if (at.rpm === 0 || system.alternator.emfPerKrpm * system.alternator.emfScale === 0) {
    return ok({ ...batteryAlone(system, at), limitedBy: "machine", model: "averaged", errorVolts: 0 });
  }
  const quick = closedForm(system, at);
  if (quick.valid) return ok(quick.point);
  return andThen(timeStepped(system, at, false), (point) =>
    ok({ ...point, limitedBy: point.regulatorDuty > 0 ? "regulator" : "machine", errorVolts: TIME_STEPPED_ERROR }),
  );
}

/** The closed form's answer with its flag; where the flag is down it is a first guess only. */
export function closedForm(
  system: ChargingSystem,
  at: Conditions,
): { readonly point: MeanPoint; readonly valid: boolean } {
  const free = unregulated(system, at);
  const held = heldState(system, at, free);
  const point: MeanPoint = held
    ? { ...held, limitedBy: "regulator", model: "averaged", errorVolts: heldError(system.regulator) }
    : { ...dc(free), limitedBy: "machine", model: "averaged", errorVolts: CLOSED_FORM_ERROR };
  return { point, valid: free.valid };
}

function dc({ batteryAmps, batteryVolts, rectifierAmps, regulatorVolts }: DcState): DcState {
  return { batteryAmps, batteryVolts, rectifierAmps, regulatorVolts };
}
