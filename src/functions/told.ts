import { isCellError, type Cell } from "../core/cell";
import { languageNamed, type Say } from "../core/words/language";
import { overContext } from "./over-context";
import { wordOf } from "./arguments";

/**
 * Columns of an answer that hold whole sentences, or what leads to them: the faults of CAUSES, of which there may be
 * two in one, and what a line of WHY is about. They alone are said in another language: parts, states and checks in
 * other answers are what formulas go by.
 */
const SENTENCES = {
  VERDICT: [3],
  CAUSES: [0, 1, 3, 4],
  NEXTCHECK: [2],
  WHY: [0, 1],
  CARD: [0],
  CHECK: [4],
  AUDIT: [6],
  NOTICES: [4],
} as const satisfies Readonly<Record<string, readonly number[]>>;

export type Telling = keyof typeof SENTENCES;

/** Answers whose every word is said where that is asked for: they are read by people alone then. */
const WHOLE: ReadonlySet<string> = new Set(["AUDIT"]);
const WHOLE_SPANISH = "es all";

/** What stands where there is nothing to judge, and headers of columns: they are looked for as they are. */
const LOOKED_FOR: ReadonlySet<string> = new Set(["not read", "Verdict", "What"]);

let spanish: Say | undefined;

/** Puts the words of Spanish at hand; a host does it before the first call that asks for them, or when that is thrown. */
export function holdSpanish(say: Say): void {
  spanish = say;
}

/** Thrown where sentences are asked for whose words are not at hand: a host that fetches them calls again. */
export class WordsNotAtHand extends Error {}

/**
 * The answer of a function with its sentences, and those of its errors, in the language that was asked for.
 *
 * @param name - The function
 * @param language - `en` (blank), `es` or, for all of an audit, `es all`, as a host hands it over
 * @param answer - Works out the cells, in English
 * @throws WordsNotAtHand before anything is worked out
 */
export function told(name: Telling, language: unknown, answer: () => Cell[][]): Cell[][] {
  const asked = wordOf(language);
  const whole = WHOLE.has(name) && asked.toLowerCase() === WHOLE_SPANISH;
  return overContext(languageNamed(whole ? "es" : asked), (code) => {
    if (code === "en") return answer();
    if (!spanish) throw new WordsNotAtHand();
    return said(answer(), spanish, whole ? undefined : SENTENCES[name]);
  });
}

/** Says the sentences in some columns; in all of them, what is looked for as well. */
function said(cells: Cell[][], say: Say, columns?: readonly number[]): Cell[][] {
  return cells.map((row) =>
    row.map((cell, column) => {
      if (isCellError(cell)) return cell.message === undefined ? cell : { ...cell, message: say(cell.message) };
      if (typeof cell !== "string") return cell;
      return !columns || (columns.includes(column) && !LOOKED_FOR.has(cell)) ? say(cell) : cell;
    }),
  );
}
