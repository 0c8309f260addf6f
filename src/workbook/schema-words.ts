import * as z from "zod/mini";
import { entryOf } from "../core/readings/catalogue";

/** What the schemas of all templates are made of. */

export const entryId = z
  .string()
  .check(z.refine((id) => entryOf(id) !== undefined, { error: (i) => `no catalogue entry "${String(i.input)}"` }));
export const words = z.string().check(z.trim(), z.minLength(1));
export const some = <T extends z.ZodMiniType>(one: T) => z.array(one).check(z.minLength(1));
export const whole = (least: number, most: number) => z.int().check(z.minimum(least), z.maximum(most));
/** A sheet's name as every host accepts it. */
const sheetName = words.check(z.maxLength(31), z.regex(/^[^\\/?*[\]:']+$/u));

export const head = {
  $schema: z.optional(z.string()),
  id: z.string().check(z.regex(/^[a-z][a-z-]*$/u)),
  sheet: sheetName,
  title: words,
  /** First lines: what the sheet is for, and what is missing where its functions are. */
  note: some(words),
};
