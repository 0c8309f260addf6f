import { COPPER_PER_C } from "./stator-network";
import { fallingRoot } from "./dc-side";
import { withoutField, type PointOptions } from "./given-emf";
import { switchingLevel } from "./regulated-level";
import type { ChargingSystem, Conditions, Field, OperatingPoint } from "./types";
import { fail, ok, type Result } from "../result";

/** How far the iron is on its way to saturation at rated field current [1]. */
const SATURATION = 0.5;

/** Share of the rated emf at a field current: remanence, then a curve that bends over. */
export function fluxShare(field: Field, amps: number): number {
  const x = Math.max(amps, 0) / field.ratedAmps;
  return field.remanence + (1 - field.remanence) * ((x * (1 + SATURATION)) / (1 + SATURATION * x));
}

/**
 * A field-excited alternator: its regulator sets the field current so that the mean voltage is at its
 * level, and can give no more than B+ drives through the field winding. The field current is part of
 * the load. Slow beside the ripple, so nothing chops in the power path.
 */
export function fieldExcited(system: ChargingSystem, at: Conditions, options: PointOptions): Result<OperatingPoint> {
  const { regulator, alternator } = system;
  const field = alternator.field;
  if (!field) return fail({ code: "missing", what: "field winding", expected: "its resistance and rated current" });
  const ohms = field.ohms * (1 + COPPER_PER_C * (at.statorCelsius - 20));
  const level = switchingLevel(regulator, at);
  const stuck = regulator.stuck[0];
  let failure: Result<OperatingPoint> | null = null;
  const pointAt = (amps: number): OperatingPoint | null => {
    const driven: ChargingSystem = {
      ...system,
      alternator: { ...alternator, kind: "three-phase", emfScale: alternator.emfScale * fluxShare(field, amps) },
      regulator: { ...regulator, kind: "none" },
    };
    const point = withoutField(driven, { ...at, loadAmps: at.loadAmps + amps }, options);
    if (!point.ok) failure = point;
    return point.ok ? point.value : null;
  };
  const sensed = (point: OperatingPoint) =>
    regulator.senses === "battery" ? point.batteryVolts : point.regulatorVolts;
  // The field gets at most what the voltage it makes can drive: found by going round twice.
  let most = system.battery.ocvVolts / ohms;
  let full = pointAt(most);
  for (let k = 0; k < 3 && full; k++) {
    most = Math.min(full.regulatorVolts, level + 5) / ohms;
    full = pointAt(most);
  }
  if (!full) return failure ?? fail({ code: "not-converged", what: "charging circuit" });
  if (stuck === "off") return finish(pointAt(0), 0);
  if (stuck === "on" || regulator.kind === "none" || sensed(full) <= level) return finish(full, most);
  const amps = fallingRoot(
    (i) => {
      const point = pointAt(i);
      return point ? level - sensed(point) : Number.NaN;
    },
    0,
    most,
    1e-4,
  );
  return amps === null ? finish(null, 0) : finish(pointAt(amps), amps);

  function finish(point: OperatingPoint | null, fieldAmps: number): Result<OperatingPoint> {
    if (point === null) return failure ?? fail({ code: "not-converged", what: "charging circuit" });
    // The field's own current is no load of the machine's: what is left is the battery's and the consumers'.
    return ok({ ...point, regulatorDuty: 1 - fieldAmps / most });
  }
}
