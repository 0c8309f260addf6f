import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { CounterWords } from "./counter-english";
import type { Words } from "./words";

/** The pane's words with those of the counter, which are fetched with it. */
export type WordsAtCounter = Words & { readonly counter: CounterWords };

export const CounterWordsContext = createContext<WordsAtCounter | undefined>(undefined);

/** For views below the counter's door only, which has fetched the words. */
export function useCounterWords(): WordsAtCounter {
  return useContext(CounterWordsContext)!;
}

export async function wordsAtCounter(words: Words): Promise<WordsAtCounter> {
  if (words.language.code !== "es") {
    const { COUNTER_ENGLISH } = await import(/* webpackChunkName: "counter-english" */ "./counter-english");
    return { ...words, counter: COUNTER_ENGLISH };
  }
  const { COUNTER_SPANISH, QUOTE_PHRASES } = await import(
    /* webpackChunkName: "counter-spanish" */ "./counter-spanish"
  );
  return { ...words, counter: COUNTER_SPANISH, said: words.saidWith(QUOTE_PHRASES) };
}
