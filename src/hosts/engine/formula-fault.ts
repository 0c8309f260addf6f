import { isFunction, parse, tokenize, tokenTypes, type Token } from "@borgar/fx";
import type { CellError } from "../../core/cell";
import { knownFunctions, nearestFunction } from "./known-functions";

/** What keeps a formula from being calculated at all, with a sentence that says what to change. */
export function formulaFault(formula: string): CellError | undefined {
  const tokens = tokenize(formula);
  if (tokens.filter((token) => !isBlank(token)).length <= 1) {
    return { error: "#VALUE!", message: "The formula is empty; write it after the equals sign." };
  }
  const syntax = syntaxFault(formula, tokens);
  if (syntax) return { error: "#VALUE!", message: `This formula cannot be read: ${syntax}` };
  for (const token of tokens) {
    if (isFunction(token) && !knownFunctions().has(token.value.toUpperCase())) {
      const nearest = nearestFunction(token.value);
      const hint = nearest ? `did you mean ${nearest}?` : "check its spelling.";
      return { error: "#NAME?", message: `There is no function ${token.value}; ${hint}` };
    }
  }
  return undefined;
}

function syntaxFault(formula: string, tokens: readonly Token[]): string | undefined {
  if (/[“”„]/u.test(formula)) return 'text goes in straight quotes, "flooded".';
  if (tokens.some((token) => token.unterminated)) return "a quote or a bracket is opened and never closed.";
  const brackets = bracketFault(tokens);
  if (brackets) return brackets;
  try {
    parse(tokenize(formula));
    return undefined;
  } catch {
    return hintFor(tokens);
  }
}

const CLOSING: Readonly<Record<string, string>> = { "(": ")", "{": "}" };

function bracketFault(tokens: readonly Token[]): string | undefined {
  const open: string[] = [];
  for (const { type, value } of tokens) {
    if (type !== tokenTypes.OPERATOR) continue;
    if (value in CLOSING) open.push(value);
    if (value !== ")" && value !== "}") continue;
    const last = open.pop();
    if (last === undefined) return `there is a "${value}" too many.`;
    if (CLOSING[last] !== value) return `"${last}" is closed by "${value}".`;
  }
  return open.length === 0 ? undefined : `a closing "${CLOSING[open.at(-1)!]}" is missing.`;
}

function hintFor(tokens: readonly Token[]): string {
  const written = tokens.filter((token) => !isBlank(token));
  const inArray = (at: number) => {
    const before = written.slice(0, at).map((token) => token.value);
    return before.lastIndexOf("{") > before.lastIndexOf("}");
  };
  const semicolon = written.findIndex((token, at) => token.value === ";" && !inArray(at));
  if (semicolon >= 0) return 'arguments are separated by commas, not by ";".';
  const last = written.at(-1)!;
  if (last.type === tokenTypes.OPERATOR && last.value !== ")" && last.value !== "}" && last.value !== "%") {
    return `something is missing after "${last.value}".`;
  }
  const unknown = written.find((token) => token.type === tokenTypes.UNKNOWN);
  if (unknown) return `"${unknown.value}" is neither a number nor a name.`;
  for (const [at, token] of written.entries()) {
    const next = written[at + 1];
    if (next && isOperand(token) && isOperand(next))
      return `an operator or a comma is missing between "${token.value}" and "${next.value}".`;
  }
  return "check its operators, commas and brackets.";
}

function isBlank(token: Token): boolean {
  return token.type === tokenTypes.WHITESPACE || token.type === tokenTypes.NEWLINE;
}

function isOperand(token: Token): boolean {
  return token.type !== tokenTypes.OPERATOR && token.type !== tokenTypes.FX_PREFIX;
}
