import { REST_TABLES } from "../../core/battery/rest-tables";
import type { Battery } from "../../core/circuit/types";
import type { Machine } from "./machine";
import type { Draft } from "./put-in-faults";

/** Resistance grows as the battery empties and cools: a third to a half more when empty, 0.8 % a degree. */
export function batteryResistance(machine: Machine, charge: number): number {
  const cold = 1 + 0.008 * (25 - machine.ambient);
  return machine.batteryOhms * Math.max(cold, 0.7) * (1 + 0.5 * (1 - charge));
}

export function restVolts(type: Machine["batteryType"], charge: number): number {
  const rows = REST_TABLES[type].rows;
  for (let i = 1; i < rows.length; i++) {
    const [v1, c1] = rows[i]!;
    const [v0, c0] = rows[i - 1]!;
    if (charge <= c1 || i === rows.length - 1) return v0 + ((v1 - v0) * (charge - c0)) / (c1 - c0);
  }
  return rows.at(-1)![0];
}

export function batteryOf(machine: Machine, d: Draft, ohms: number): Battery {
  const { capacity, acceptance } = machine;
  const lithium = machine.batteryType === "lithium";
  const cells = d.cellLost > 0 ? (lithium ? 3 / 4 : 5 / 6) : 1;
  // Acceptance falls as the battery fills: the asinh law with its knee at some percent of capacity.
  const knee = Math.max(0.0015, (0.03 - 0.0275 * d.charge) * (lithium ? 3 : 1)) * capacity * acceptance * d.acceptance;
  return {
    ocvVolts: restVolts(machine.batteryType, d.charge) - (lithium ? d.cellLost * 1.6 : d.cellLost),
    ohms,
    chargeVolts: (lithium ? 0.15 : 0.45) * cells,
    chargeAmps: knee,
    dischargeVolts: (lithium ? 0.05 : 0.1) * cells,
    dischargeAmps: 0.0175 * capacity * Math.max(0.25, d.acceptance),
  };
}
