import { faultsOfKey, type FaultId } from "./faults";
import type { Frame } from "./frame";
import { HYPOTHESES } from "./hypotheses";

const without = (...faults: readonly FaultId[]) =>
  Int32Array.from(HYPOTHESES, (h) => (faultsOfKey(h.fault).some((id) => faults.includes(id)) ? 1 : 0));

const SHORTS_PHASES = ["regulator-shunt-stuck-one-phase", "regulator-shunt-stuck-all-phases"] as const;
const NO_REGULATOR = without(...SHORTS_PHASES, "regulator-series-no-fire", "regulator-overcharge");
const FIELD_REGULATOR = without(...SHORTS_PHASES);
const ONE_PHASE = without("regulator-shunt-stuck-one-phase");
const HALF_WAVE = without("regulator-shunt-stuck-one-phase", "stator-ground-leak", "diode-leg-open");

/** For each hypothesis 1 where a machine of this kind has no part that could fail so, else 0. */
export function impossibleOn({ alternator, regulator }: Frame): readonly Int32Array[] {
  const kinds: Int32Array[] = [];
  if (regulator === "none") kinds.push(NO_REGULATOR);
  if (regulator === "field") kinds.push(FIELD_REGULATOR);
  if (alternator === "single-phase") kinds.push(ONE_PHASE);
  if (alternator === "half-wave") kinds.push(HALF_WAVE);
  return kinds;
}
