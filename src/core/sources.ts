/**
 * Where a number comes from. Every limit and every formula names one of these; what is common
 * practice or from memory says so in its own words instead of passing for a citation.
 */
export interface Source {
  readonly title: string;
  /** `standard` was read in the text or an open copy; the other two are what they say. */
  readonly standing: "published" | "published, secondary copy" | "common practice" | "from memory" | "computed";
}

const define = <K extends string>(all: Record<K, Source>) => all;

export const SOURCES = define({
  "battery-soc-table": {
    title: "State-of-charge table attributed to BCI, as reproduced in the public-domain deep-cycle battery FAQ",
    standing: "published, secondary copy",
  },
  "common-practice": { title: "Common practice of the trade", standing: "common practice" },
  iec60228: { title: "IEC 60228, conductors of insulated cables", standing: "published" },
  iec60028: { title: "IEC 60028 / NBS Handbook 100, resistance of annealed copper", standing: "published" },
  "nema-mg1": { title: "NEMA MG 1, voltage unbalance", standing: "published" },
  ieee43: { title: "IEEE 43, insulation resistance of rotating machinery", standing: "from memory" },
  jcgm100: { title: "JCGM 100:2008, guide to the expression of uncertainty in measurement", standing: "published" },
  jcgm106: {
    title: "JCGM 106:2012, the role of measurement uncertainty in conformity assessment",
    standing: "from memory",
  },
  "ilac-g8": {
    title: "ILAC-G8:09/2019, decision rules and statements of conformity",
    standing: "published, secondary copy",
  },
  hart1968: {
    title: "Hart et al., Computer Approximations (1968), in the form of West (2005)",
    standing: "from memory",
  },
  "tm-5-1185": { title: "US Army TM 5-1185, battery condition, freezing and gravity tables", standing: "published" },
  od1002: { title: "US Army Ordnance subcourse OD1002, electrolyte freezing points", standing: "published" },
  "tm-9-6140-200-14": { title: "US Army TM 9-6140-200-14 (1998), lead-acid storage batteries", standing: "published" },
  "tm-10-6140-200-14": { title: "US Army TM 10-6140-200-14, motive-power batteries", standing: "published" },
  "tm-5-4210-230-14": {
    title: "US Army TM 5-4210-230-14&P-1, load-test table for 12 V and 6 V batteries",
    standing: "published",
  },
  "tm-9-6115-730-24": {
    title: "US Army TM 9-6115-730-24, testing absorbed-glass-mat batteries",
    standing: "published",
  },
  "tm-9-2320-211-20": { title: "US Army TM 9-2320-211-20, cranking and cable tests", standing: "published" },
  "tm-9-2330-356-14": {
    title: "US Army TM 9-2330-356-14, regulated voltage of a 12 V alternator",
    standing: "published",
  },
  "tm-10-3930-671-24": { title: "US Army TM 10-3930-671-24, voltage-drop tests", standing: "published" },
  "navedtra-14273": {
    title: "US Navy NAVEDTRA 14273, Construction Mechanic Basic, charging-circuit resistance",
    standing: "published",
  },
  "lfp-cell-curve": {
    title: "Open-circuit curve of a lithium iron phosphate cell, default of an open-source device tree (2024)",
    standing: "published",
  },
  woodbridge1935: { title: "Ampere-hour law of charging (Woodbridge, 1935)", standing: "published, secondary copy" },
  "larminie-lowry": {
    title: "Larminie and Lowry, Electric Vehicle Technology Explained, Peukert's rule",
    standing: "from memory",
  },
  "astm-b258": { title: "ASTM B258, diameters of American Wire Gage sizes", standing: "from memory" },
  iso6722: { title: "ISO 6722-1, road vehicles, single-core cables, conductor resistance", standing: "from memory" },
  "iso16269-6": {
    title: "ISO 16269-6:2014, statistical tolerance intervals, normal distribution",
    standing: "published, secondary copy",
  },
  "abramowitz-stegun": {
    title: "Abramowitz and Stegun, Handbook of Mathematical Functions, chapter 6",
    standing: "published",
  },
  "diode-check-band": {
    title: "Instruction sheets of general-purpose meters: forward drop on the diode check",
    standing: "published, secondary copy",
  },
  "kuphaldt-semi": {
    title: "Kuphaldt, Lessons in Electric Circuits III, Semiconductors, chapter 3",
    standing: "published",
  },
  shockley1949: {
    title: "Shockley, The Theory of p-n Junctions (1949), ideal diode equation",
    standing: "published, secondary copy",
  },
  ar100: {
    title: "ANSI/EASA AR100, repair of rotating electrical apparatus, winding resistance unbalance",
    standing: "published, secondary copy",
  },
  "deshpande-machines": { title: "Deshpande, Electrical Machines, frequency of an alternator", standing: "published" },
  "kuphaldt-dc": { title: "Kuphaldt, Lessons in Electric Circuits I, DC, chapter 10", standing: "published" },
  caliskan2003: {
    title: "Caliskan, Perreault, Jahns, Kassakian, rectifiers with constant-voltage loads, IEEE TCAS-I 50(9), 2003",
    standing: "from memory",
  },
  "butler-volmer": {
    title: "Butler–Volmer law of an electrode in its inverse hyperbolic sine form",
    standing: "from memory",
  },
  "technician-courses": {
    title: "Technician-course cards on the regulated voltage of running machines",
    standing: "published, secondary copy",
  },
  "charge-compensation": {
    title: "Battery-education texts and stationary-battery data sheets, charge voltage with temperature",
    standing: "published, secondary copy",
  },
  sen1968: {
    title: "Sen (1968), estimates of the regression coefficient based on Kendall's tau",
    standing: "from memory",
  },
  "mann-kendall": {
    title: "Mann (1945) and Kendall (1975), test for a trend, with ties corrected",
    standing: "from memory",
  },
  hirsch1982: { title: "Hirsch, Slack and Smith (1982), trend test season by season", standing: "from memory" },
  "ssuta-324": {
    title: "Streamlined Sales and Use Tax Agreement, section 324, rounding of tax",
    standing: "from memory",
  },
  "iso80000-1": { title: "ISO 80000-1, annex B, rounding of numbers", standing: "from memory" },
});

export type SourceId = keyof typeof SOURCES;
