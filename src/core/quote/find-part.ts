import { CONDITIONS, current, plain, type PricedPart, type PriceList, type Use } from "./price-list";
import { spanishWord } from "./shop-words";
import type { Terms } from "./terms";

/** The part number that is known for a use: the job's own first. */
export function wantedNumber(use: Use, terms: Terms): string {
  return terms.partNumbers.get(use) ?? terms.partNumber;
}

/**
 * Parts of one use that may be sold for this machine: those that stand for its part number first, then
 * those listed for the machine, then those that fit any. A superseded part gives way to what replaces it.
 */
export function partsFor(list: PriceList, use: Use, terms: Terms, number: string): PricedPart[] {
  const ofUse = list.parts.filter((part) => part.use === use);
  const found = [
    ...list.parts.filter(
      (part) => number !== "" && plain(part.partNumber) === plain(number) && isFor(part, use, terms),
    ),
    ...ofUse.filter((part) => terms.machine !== "" && fitsMachine(part, terms.machine)),
    ...ofUse.filter((part) => part.fits.length === 0),
  ];
  const today = [...new Set(found.map((part) => current(list, part)))];
  return [...today.filter((part) => !part.supersededBy), ...today.filter((part) => part.supersededBy)];
}

/** Where a row does not say what it is for, a number that the job has for this very part does, or its description. */
function isFor(part: PricedPart, use: Use, terms: Terms): boolean {
  if (part.use !== undefined) return part.use === use;
  const description = plain(part.description);
  return (
    terms.partNumbers.has(use) ||
    [use, plain(spanishWord(use))].some((names) => names.split("-").some((name) => description.includes(name)))
  );
}

/** The first one found of each condition: new, rebuilt, used, side by side. */
export function onePerCondition(parts: readonly PricedPart[]): PricedPart[] {
  return CONDITIONS.flatMap((condition) => parts.filter((part) => part.condition === condition).slice(0, 1));
}

/** What to look at before it is sold: the part is listed for machines, and this one is not among them. */
export function fitWarning(part: PricedPart, machine: string): string {
  if (machine === "" || part.fits.length === 0 || fitsMachine(part, machine)) return "";
  return `listed for ${part.fits.join(", ")}: check the fit`;
}

function fitsMachine(part: PricedPart, machine: string): boolean {
  return part.fits.some((fit) => plain(fit) === plain(machine));
}
