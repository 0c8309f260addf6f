import { tokenize, tokenTypes } from "@borgar/fx";

/**
 * Writes what a name stands for in place of the name. The engine knows names too, but keeps what it
 * once understood of a formula for every later workbook, whose names may mean other cells.
 *
 * @param meaning - What a name stands for, by the name in upper case
 */
export function inlineNames(formula: string, meaning: (upperName: string) => string | undefined): string {
  return expand(formula, meaning, 0);
}

/** Names may stand for formulas with names in them; a name that leads back to itself is left alone. */
const DEEPEST = 20;

function expand(formula: string, meaning: (upperName: string) => string | undefined, depth: number): string {
  if (depth > DEEPEST) return formula;
  const tokens = tokenize(formula);
  const bound = boundNames(tokens);
  return tokens
    .map((token) => {
      if (token.type !== tokenTypes.REF_NAMED || bound.has(token.value.toUpperCase())) return token.value;
      const stands = meaning(token.value.toUpperCase());
      if (stands === undefined) return token.value;
      const inner = expand(`=${stands}`, meaning, depth + 1).slice(1);
      return isPlainReference(inner) ? inner : `(${inner})`;
    })
    .join("");
}

/** What LET and LAMBDA call by a name of their own hides the workbook's name. */
function boundNames(tokens: ReturnType<typeof tokenize>): ReadonlySet<string> {
  const bound = new Set<string>();
  if (!tokens.some(({ type, value }) => type === tokenTypes.FUNCTION && /^(?:LET|LAMBDA)$/i.test(value))) return bound;
  const written = tokens.filter(({ type }) => type !== tokenTypes.WHITESPACE && type !== tokenTypes.NEWLINE);
  for (const [at, { type, value }] of written.entries()) {
    const [before, after] = [written[at - 1]?.value, written[at + 1]?.value];
    if (type === tokenTypes.REF_NAMED && (before === "(" || before === ",") && after === ",")
      bound.add(value.toUpperCase());
  }
  return bound;
}

function isPlainReference(text: string): boolean {
  const tokens = tokenize(text);
  return (
    tokens.length === 1 &&
    (tokens[0]!.type === tokenTypes.REF_RANGE ||
      tokens[0]!.type === tokenTypes.NUMBER ||
      tokens[0]!.type === tokenTypes.STRING)
  );
}
