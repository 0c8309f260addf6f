import { createContext } from "preact";
import { useContext } from "preact/hooks";
import { ENGLISH, type Words } from "./english";

export type { Words } from "./english";

/** The words of the pane's language; every view takes its text from here. */
export const WordsContext = createContext<Words>(ENGLISH);

export function useWords(): Words {
  return useContext(WordsContext);
}
