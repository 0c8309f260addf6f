import { createContext } from "preact";
import { useContext } from "preact/hooks";
import type { Words } from "./english";

export type { Words } from "./english";

/** The words of the pane's language; every view takes its text from here, and none is shown before they are there. */
export const WordsContext = createContext<Words | undefined>(undefined);

export function useWords(): Words {
  return useContext(WordsContext)!;
}
