import { faultOf, faultsOfKey, type Fault, type FaultId } from "./faults";
import type { Frame } from "./frame";
import { HYPOTHESES } from "./hypotheses";

const having = (is: (id: FaultId) => boolean) =>
  Int32Array.from(HYPOTHESES, (h) => (faultsOfKey(h.fault).some(is) ? 1 : 0));
const without = (...faults: readonly FaultId[]) => having((id) => faults.includes(id));

const GENERATING_PARTS: readonly Fault["part"][] = ["regulator-rectifier", "stator", "rotor"];
const SHORTS_PHASES = ["regulator-shunt-stuck-one-phase", "regulator-shunt-stuck-all-phases"] as const;
const NO_REGULATOR = without(...SHORTS_PHASES, "regulator-series-no-fire", "regulator-overcharge");
const FIELD_REGULATOR = without(...SHORTS_PHASES);
const ONE_PHASE = without("regulator-shunt-stuck-one-phase");
const HALF_WAVE = without("regulator-shunt-stuck-one-phase", "stator-ground-leak", "diode-leg-open");

/** Of an alternator that is not weighed only what hangs on it is left. */
const NOT_WEIGHED = having((id) => id === "high-resistance-phase" || GENERATING_PARTS.includes(faultOf(id).part));

/** For each hypothesis 1 where a machine of this kind has no part that could fail so, else 0. */
export function impossibleOn({ alternator, regulator, unregulated }: Frame): readonly Int32Array[] {
  const kinds: Int32Array[] = [];
  if (unregulated) kinds.push(NO_REGULATOR);
  if (regulator === "field") kinds.push(FIELD_REGULATOR);
  if (alternator === "single-phase") kinds.push(ONE_PHASE);
  if (alternator === "half-wave") kinds.push(HALF_WAVE);
  if (alternator === "other") kinds.push(NOT_WEIGHED);
  return kinds;
}
