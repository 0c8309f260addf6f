import type { SourceId } from "../sources";
import { swapped, type Row } from "../table";
import type { BatteryType } from "./types";

/** What a rested voltage says of the charge, for one type, at 25 to 27 °C and for 12 V. */
export interface RestTable {
  /** Rested voltage [V] against state of charge [1], rising. */
  readonly rows: readonly Row[];
  /** Half-width within which published tables and batteries of the type differ [V]. */
  readonly spreadVolts: number;
  /** Half-width of the charge itself where the curve is flat [1]. */
  readonly spreadCharge: number;
  /** Above this the battery is on charge or still full of surface charge [V]. */
  readonly restedTop: number;
  /** Surface charge halves in this time at rest [h]; the rests that sources ask for follow from it. */
  readonly surfaceHalfLife: number;
  readonly source: SourceId;
}

/** Surface charge right after charging, or the dip right after a load [V at 12 V]: common practice. */
export const SURFACE_CHARGE = 0.3;

const CELLS = 6;
/** Cell voltage is specific gravity + 0.845 V; full-charge gravity 1.280 gives the calcium rows. */
const fromGravity = (gravity: number) => CELLS * (gravity + 0.845);

export const REST_TABLES: Readonly<Record<BatteryType, RestTable>> = {
  flooded: {
    // prettier-ignore
    rows: [[11.89, 0], [12.06, 0.25], [12.24, 0.5], [12.45, 0.75], [12.65, 1]],
    spreadVolts: 0.06,
    spreadCharge: 0,
    restedTop: 13.5,
    surfaceHalfLife: 1,
    source: "battery-soc-table",
  },
  calcium: {
    // prettier-ignore
    rows: swapped([[0, fromGravity(1.13)], [0.25, fromGravity(1.19)], [0.5, fromGravity(1.22)], [0.75, fromGravity(1.25)], [1, fromGravity(1.28)]]),
    spreadVolts: 0.1,
    spreadCharge: 0,
    restedTop: 13.5,
    surfaceHalfLife: 1,
    source: "tm-5-1185",
  },
  agm: {
    // prettier-ignore
    rows: [[11.8, 0], [12.025, 0.25], [12.325, 0.5], [12.625, 0.75], [12.875, 1]],
    spreadVolts: 0.1,
    spreadCharge: 0,
    restedTop: 13.5,
    surfaceHalfLife: 2.5,
    source: "common-practice",
  },
  gel: {
    // prettier-ignore
    rows: [[11.8, 0], [12.0, 0.25], [12.35, 0.5], [12.65, 0.75], [12.9, 1]],
    spreadVolts: 0.1,
    spreadCharge: 0,
    restedTop: 13.5,
    surfaceHalfLife: 2.5,
    source: "common-practice",
  },
  lithium: {
    // Four cells of the open curve; flat between 20 and 90 %, where only ±20 % points can be told.
    // prettier-ignore
    rows: [[8.052, 0], [12.272, 0.1], [12.636, 0.2], [12.776, 0.3], [12.84, 0.4], [12.884, 0.5], [12.916, 0.6], [12.984, 0.7], [13.024, 0.8], [13.048, 0.9], [13.392, 1]],
    spreadVolts: 0.05,
    spreadCharge: 0.2,
    restedTop: 14.6,
    surfaceHalfLife: 2,
    source: "lfp-cell-curve",
  },
};
