import { useEffect, useState } from "preact/hooks";
import type { Language } from "./settings";
import { ENGLISH, type Words } from "./words/english";

/**
 * The words of a language. English is at hand; Spanish is fetched when it is asked for, and until then
 * the words stay as they are: at the start that is none.
 */
export function useLanguage(language: Language): Words | undefined {
  const [words, setWords] = useState<Words | undefined>(language === "en" ? ENGLISH : undefined);
  useEffect(() => {
    let wanted = true;
    const show = (found: Words) => wanted && setWords(found);
    if (language === "en") show(ENGLISH);
    else {
      void import(/* webpackChunkName: "spanish" */ "./words/spanish").then(
        ({ SPANISH }) => show(SPANISH),
        // Better in English than not at all.
        () => show(ENGLISH),
      );
    }
    return () => {
      wanted = false;
    };
  }, [language]);
  return words;
}
