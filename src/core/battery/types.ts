/** How a battery is built; `lithium` is lithium iron phosphate with four cells. */
export const BATTERY_TYPES = ["flooded", "calcium", "agm", "gel", "lithium"] as const;
export type BatteryType = (typeof BATTERY_TYPES)[number];

/** Nominal voltage [V]. */
export type NominalVolts = 6 | 12;

export const BATTERY_WORDS: Readonly<Record<BatteryType, string>> = {
  flooded: "flooded",
  calcium: "calcium flooded",
  agm: "AGM",
  gel: "gel",
  lithium: "lithium iron phosphate",
};
