import {
  isFunction,
  parseA1Ref,
  stringifyA1Ref,
  stringifyTokens,
  tokenize,
  tokenTypes,
  type Token,
} from "@borgar/fx/xlsx";
import { NAMESPACE } from "../../functions/registry";

/**
 * Between a formula as people type it (`CHG.SOC(A1)`) and as a file stores it (`_xldudf_CHG_SOC(A1)`);
 * functions younger than the file format carry `_xlfn.` there.
 */
const OURS_STORED = `_xldudf_${NAMESPACE}_`;
const OURS_TYPED = `${NAMESPACE}.`;

/** Built-in functions that a file stores with a prefix, of those that our own sheets may use. */
const YOUNGER: Readonly<Record<string, string>> = {
  XLOOKUP: "_xlfn.XLOOKUP",
  LET: "_xlfn.LET",
  FILTER: "_xlfn._xlws.FILTER",
  SORT: "_xlfn._xlws.SORT",
  UNIQUE: "_xlfn.UNIQUE",
  SEQUENCE: "_xlfn.SEQUENCE",
  VSTACK: "_xlfn.VSTACK",
  HSTACK: "_xlfn.HSTACK",
  IFS: "_xlfn.IFS",
  TEXTJOIN: "_xlfn.TEXTJOIN",
  CONCAT: "_xlfn.CONCAT",
};

/** A typed formula (with or without `=`) in the spelling of files, without `=`. */
export function storedSpelling(formula: string): string {
  return rewriteFunctions(formula, (name) => {
    const upper = name.toUpperCase();
    if (upper.startsWith(OURS_TYPED)) return OURS_STORED + upper.slice(OURS_TYPED.length);
    return YOUNGER[upper] ?? name;
  }).replace(/^=/u, "");
}

/** A stored formula as people type it, with `=`. */
export function typedSpelling(stored: string): string {
  const plain = rewriteFunctions(stored, (name) => {
    const upper = name.toUpperCase();
    if (upper.startsWith(OURS_STORED.toUpperCase())) return OURS_TYPED + upper.slice(OURS_STORED.length);
    return name.replace(/^(?:_xlfn\.|_xlws\.)+/iu, "");
  });
  const unprefixed = plain.includes("_xlpm.") ? plain.replaceAll("_xlpm.", "") : plain;
  return unprefixed.startsWith("=") ? unprefixed : `=${unprefixed}`;
}

/** True where a formula calls one of our functions, however it is spelled. */
export function callsOurs(formula: string): boolean {
  if (!/chg[._]/iu.test(formula)) return false;
  return functionNames(formula).some(
    (name) => name.startsWith(OURS_TYPED) || name.startsWith(OURS_STORED.toUpperCase()),
  );
}

export function functionNames(formula: string): readonly string[] {
  return tokenize(formula)
    .filter(isFunction)
    .map((token) => token.value.toUpperCase());
}

/**
 * A shared formula as it reads in another cell of its group: relative addresses move along.
 *
 * @param formula - As stored in the cell `from`
 */
export function movedFormula(
  formula: string,
  from: { row: number; column: number },
  to: { row: number; column: number },
): string {
  const [down, right] = [to.row - from.row, to.column - from.column];
  const tokens = tokenize(formula).map((token): Token => {
    const ref = ADDRESSES.has(token.type) ? parseA1Ref(token.value) : undefined;
    if (!ref || !("range" in ref) || !ref.range) return token;
    const { top, bottom, left, right: last, $top, $bottom, $left, $right } = ref.range;
    const range = {
      ...ref.range,
      top: shifted(top, $top, down),
      bottom: shifted(bottom, $bottom, down),
      left: shifted(left, $left, right),
      right: shifted(last, $right, right),
    };
    return { ...token, value: stringifyA1Ref({ ...ref, range }) };
  });
  return stringifyTokens(tokens);
}

const ADDRESSES: ReadonlySet<string> = new Set([tokenTypes.REF_RANGE, tokenTypes.REF_BEAM, tokenTypes.REF_TERNARY]);

function shifted(at: number | null | undefined, fixed: boolean | null | undefined, by: number): number | null {
  return at === null || at === undefined ? null : fixed ? at : at + by;
}

function rewriteFunctions(formula: string, rename: (name: string) => string): string {
  const tokens = tokenize(formula);
  return stringifyTokens(
    tokens.map((token): Token => (isFunction(token) ? { ...token, value: rename(token.value) } : token)),
  );
}
