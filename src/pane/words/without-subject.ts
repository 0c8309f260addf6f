import { sentenceCase } from "../../core/sentence-case";

/** The headline has named part and state already; what is left of the sentence says how sure and why. */
export function withoutSubject(sentence: string): string {
  const rest = sentence.replace(/^[^:;(]+:\s*(?:serviceable|faulty|suspect|unproven)[\s;,]*/u, "");
  const plain = rest.replace(/^\(([^)]+)\)[,;]\s*/u, "$1: ");
  return sentenceCase(plain);
}
