import { useEffect, useState } from "preact/hooks";
import type { Language } from "./settings";
import { fetchPaneWords } from "./words/fetch-words";
import type { Words } from "./words/words";

/** Until words that could not be fetched are asked for again [ms]. */
const AGAIN = 3000;

/** The words of a language; until they are fetched, the words stay as they are: at the start that is none. */
export function useLanguage(language: Language): Words | undefined {
  const [words, setWords] = useState<Words | undefined>(undefined);
  useEffect(() => {
    let wanted = true;
    const fetch = () =>
      void fetchPaneWords(language).then(
        (found) => wanted && setWords(found),
        () => wanted && setTimeout(fetch, AGAIN),
      );
    fetch();
    return () => {
      wanted = false;
    };
  }, [language]);
  return words;
}
