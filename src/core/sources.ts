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
  "iec60228": { title: "IEC 60228, conductors of insulated cables", standing: "published" },
  "iec60028": { title: "IEC 60028 / NBS Handbook 100, resistance of annealed copper", standing: "published" },
  "nema-mg1": { title: "NEMA MG 1, voltage unbalance", standing: "published" },
  "ieee43": { title: "IEEE 43, insulation resistance of rotating machinery", standing: "from memory" },
  "jcgm100": { title: "JCGM 100:2008, guide to the expression of uncertainty in measurement", standing: "published" },
  "jcgm106": { title: "JCGM 106:2012, the role of measurement uncertainty in conformity assessment", standing: "from memory" },
});

export type SourceId = keyof typeof SOURCES;
