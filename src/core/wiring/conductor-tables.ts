/** How a conductor is made up; what its standard allows at most differs with it. */
export const CONDUCTOR_KINDS = ["by area", "solid", "stranded", "flexible", "flexible tinned", "road vehicle"] as const;
export type ConductorKind = (typeof CONDUCTOR_KINDS)[number];

/** Highest resistance at 20 °C [Ω/km] by nominal cross-section [mm²]. */
export type ResistanceTable = ReadonlyMap<number, number>;

const table = (rows: readonly (readonly [area: number, ohmsPerKm: number])[]): ResistanceTable => new Map(rows);

/** IEC 60228 class 1, solid, plain copper. */
// prettier-ignore
const CLASS_1 = table([[0.5, 36.0], [0.75, 24.5], [1, 18.1], [1.5, 12.1], [2.5, 7.41], [4, 4.61], [6, 3.08], [10, 1.83], [16, 1.15], [25, 0.727], [35, 0.524], [50, 0.387], [70, 0.268], [95, 0.193], [120, 0.153]]);
/** IEC 60228 class 2, stranded, plain copper. */
// prettier-ignore
const CLASS_2 = table([[0.5, 36.0], [0.75, 24.5], [1, 18.1], [1.5, 12.1], [2.5, 7.41], [4, 4.61], [6, 3.08], [10, 1.83], [16, 1.15], [25, 0.727], [35, 0.524], [50, 0.387], [70, 0.268], [95, 0.193], [120, 0.153]]);
/** IEC 60228 class 5, flexible, plain copper. */
// prettier-ignore
const CLASS_5 = table([[0.5, 39.0], [0.75, 26.0], [1, 19.5], [1.5, 13.3], [2.5, 7.98], [4, 4.95], [6, 3.3], [10, 1.91], [16, 1.21], [25, 0.78], [35, 0.554], [50, 0.386], [70, 0.272], [95, 0.206], [120, 0.161]]);
/** IEC 60228 class 5, flexible, metal-coated wires. */
// prettier-ignore
const CLASS_5_TINNED = table([[0.5, 40.1], [0.75, 26.7], [1, 20.0], [1.5, 13.7], [2.5, 8.21], [4, 5.09], [6, 3.39], [10, 1.95], [16, 1.24], [25, 0.795], [35, 0.565], [50, 0.393], [70, 0.277], [95, 0.21], [120, 0.164]]);
/** ISO 6722-1, bare copper, from memory; the higher figure where two are in use. */
// prettier-ignore
const ISO_6722 = table([[0.35, 54.4], [0.5, 37.1], [0.75, 24.7], [1, 18.5], [1.5, 12.7], [2, 9.42], [2.5, 7.6], [4, 4.71], [6, 3.14], [10, 1.82], [16, 1.16], [25, 0.743]]);

/** Which table speaks for a cross-section in mm² of each kind. */
export const METRIC_TABLES: Readonly<
  Record<Exclude<ConductorKind, "by area">, { readonly rows: ResistanceTable; readonly name: string }>
> = {
  solid: { rows: CLASS_1, name: "IEC 60228 class 1" },
  stranded: { rows: CLASS_2, name: "IEC 60228 class 2" },
  flexible: { rows: CLASS_5, name: "IEC 60228 class 5" },
  "flexible tinned": { rows: CLASS_5_TINNED, name: "IEC 60228 class 5, tinned" },
  "road vehicle": { rows: ISO_6722, name: "ISO 6722-1" },
};

/** What stranding adds to a gauge's solid resistance [1]; kinds that no table gives are left out. */
export const GAUGE_FACTORS: Readonly<Partial<Record<ConductorKind, number>>> = {
  "by area": 1,
  solid: 1,
  /** Seven strands, NEC chapter 9 table 8. */
  stranded: 1.022,
  /** UL 1581 flexible, 14 to 8 AWG. */
  flexible: 1.053,
};
