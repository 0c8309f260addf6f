import { IN_ORDER_BEFOREHAND } from "../core/diagnosis/starting-chances";
import { askedIn, type SheetLanguage } from "./sheet-language";

/** What a formula hands to `CHG.AUDIT`, as it stands in it; blank where it hands nothing. */
export interface AuditFormula {
  /** In a cell of a row's own, or for all rows at once. */
  readonly byRow: boolean;
  readonly table: string;
  readonly machines: string;
  readonly knownGood: string;
  readonly settings: string;
  /** Names of the columns as an array constant. */
  readonly names: string;
  readonly language: string;
}

/**
 * The call of an audit as it stands in a formula, without the sign of one.
 *
 * @param given - What it is handed, as it stands in formulas; what is left out is blank
 * @param asked - What its answer is said in, where not the language of the sheet's own sentences
 */
export function auditCall(
  { table, machines = "", knownGood = "", settings = "", names = "" }: Partial<AuditFormula>,
  language: SheetLanguage,
  asked?: string,
): string {
  const given = [table ?? "", machines, knownGood, settings, names];
  while (given.at(-1) === "") given.pop();
  return `CHG.AUDIT(${askedIn(language, 5, given, asked).join(",")})`;
}

const CALL = /^=(INDEX\()?(?:CHG\.|_xldudf_CHG_)AUDIT\(/iu;

/** @returns `undefined` for any other formula */
export function auditFormula(formula: string): AuditFormula | undefined {
  const call = CALL.exec(formula);
  if (!call) return undefined;
  const given = argumentsFrom(formula, call[0].length).map((one) => (one === '""' ? "" : one));
  const [table = "", machines = "", knownGood = "", settings = "", names = "", language = ""] = given;
  return { byRow: call[1] !== undefined, table, machines, knownGood, settings, names, language };
}

/** The setting of routine visits, as a formula hands it. */
export function routineSetting(share: number): string {
  return `{"${IN_ORDER_BEFOREHAND}",${share}}`;
}

/** The share in it [1]; `undefined` for other settings. */
export function routineShare(settings: string): number | undefined {
  const [, name, share] = /^\{"([^"]*)",([\d.]+)\}$/u.exec(settings) ?? [];
  return name === IN_ORDER_BEFOREHAND ? Number(share) : undefined;
}

/** Arguments from a place behind an opening bracket up to the one that closes it. */
function argumentsFrom(formula: string, from: number): string[] {
  const found: string[] = [];
  let depth = 0;
  let start = from;
  let quote = "";
  for (let i = from; i < formula.length; i++) {
    const letter = formula[i]!;
    if (quote !== "") {
      // A quote within quotes is doubled: it ends them and begins them again.
      if (letter === quote) quote = "";
    } else if (letter === '"' || letter === "'") quote = letter;
    else if (letter === "(" || letter === "{") depth += 1;
    else if (depth === 0 && (letter === "," || letter === ")")) {
      found.push(formula.slice(start, i).trim());
      start = i + 1;
      if (letter === ")") break;
    } else if (letter === ")" || letter === "}") depth -= 1;
  }
  return found;
}
