import type { Injector } from "@univerjs/core";
import { AFTER_CELL_EDIT, SheetInterceptorService } from "@univerjs/sheets";
import { parseDate, type DateOrder } from "../../core/fleet/dates";
import type { LanguageCode } from "../../core/words/language";
import { dayOf } from "../../workbook/visits-sheet";

/** Before the grid's own reading of what was typed, which takes the month for the first number of every date. */
const FIRST = { priority: 10 };

/** Texts that can be a date: short, with a year in full; whole numbers and readings are none. */
const WITH_YEAR = /^(?=.{8,20}$).*\d{4}$/u;

/**
 * Reads dates as the person who types them writes them: 3/12/2026 is the third of December where days come
 * first, 3.12.2026 everywhere. What is no date, or in no one's order, is left as it was typed.
 */
export function readTypedDates(injector: Injector, dated: (text: string) => string): void {
  injector.get(SheetInterceptorService).writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    ...FIRST,
    handler: (value, _place, next) => {
      const typed = value?.p ? undefined : value?.v;
      return next(typeof typed === "string" ? { ...value, v: dated(typed) } : value);
    },
  });
}

/** A date as year, month and day, which the grid reads in one way only, with a format for it; any other text as it is. */
export function plainDate(typed: string, language: LanguageCode): string {
  if (!WITH_YEAR.test(typed.trim())) return typed;
  const read = parseDate(typed, "", customaryOrder(language));
  return read.ok && read.value !== null ? dayOf(read.value) : typed;
}

/** Spanish dates begin with the day; English ones do but in some countries, which the browser knows. */
function customaryOrder(language: LanguageCode): DateOrder {
  const parts = datesOf(language === "es" ? "es" : navigator.language).formatToParts();
  const at = (type: "day" | "month") => parts.findIndex((part) => part.type === type);
  return at("day") < at("month") ? "day first" : "month first";
}

/** Not every browser names its language as standards do (`en-US@posix`); what it writes itself then tells. */
function datesOf(named: string): Intl.DateTimeFormat {
  try {
    return new Intl.DateTimeFormat(named);
  } catch {
    return new Intl.DateTimeFormat();
  }
}
