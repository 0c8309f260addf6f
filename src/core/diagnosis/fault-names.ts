import { plainWord } from "../readings/parse";
import { FAULTS, type FaultId } from "./faults";
import { SPANISH_LABELS } from "./faults-spanish";

/** Names under which a sheet may still hold a fault. */
const FORMER: readonly (readonly [string, FaultId])[] = [
  ["Sulfated battery", "battery-sulfated"],
  ["Batería sulfatada", "battery-sulfated"],
];
const BY_NAME = new Map([
  ...FORMER.map(([name, id]) => [plainWord(name), id] as const),
  ...FAULTS.flatMap(({ id, label }) => [id, label, SPANISH_LABELS[id]].map((name) => [plainWord(name), id] as const)),
]);

/** A fault by its name in either language or by its id, as it stands in a cell. */
export function faultNamed(text: string): FaultId | undefined {
  return BY_NAME.get(plainWord(text));
}
