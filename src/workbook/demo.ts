import demo from "../../templates/demo.json";
import type { SheetLanguage } from "./sheet-language";
import { parseDemo, type Demo } from "./template-schema";

/** The invented shop that the sheets are shown with. */
export const DEMO = parseDemo(demo);

/** The invented shop with its own words in a language, where it has them. */
export function demoIn({ code }: SheetLanguage): Demo {
  const words = DEMO.words?.[code];
  if (!words) return DEMO;
  const said = (value: unknown): unknown => {
    if (typeof value === "string") return words[value] ?? value;
    if (Array.isArray(value)) return value.map(said);
    if (typeof value !== "object" || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, said(inner)]));
  };
  const { pages, lists, tables } = DEMO;
  return { ...DEMO, ...(said({ pages, lists, tables }) as Pick<Demo, "pages" | "lists" | "tables">) };
}
