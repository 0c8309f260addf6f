/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { usePane } from "../pane-context";
import { CounterWordsContext, wordsAtCounter, type WordsAtCounter } from "../words/counter-words";
import { useWords } from "../words/words";
import type { CounterProps } from "./counter-view";

interface Fetched {
  readonly View: typeof import("./counter-view").CounterView;
  readonly words: WordsAtCounter;
}

/** The counter, fetched with its words when it is asked for. */
export function CounterDoor(props: CounterProps): JSX.Element {
  const { attempt } = usePane();
  const words = useWords();
  const [fetched, setFetched] = useState<Fetched | undefined>(undefined);
  useEffect(() => {
    let wanted = true;
    void attempt(async () => {
      const [{ CounterView }, own] = await Promise.all([import("./counter-view"), wordsAtCounter(words)]);
      if (wanted) setFetched({ View: CounterView, words: own });
    });
    return () => {
      wanted = false;
    };
  }, [attempt, words]);
  if (!fetched) return <p class="cw-meta">{words.nav.openingCounter}</p>;
  return (
    <CounterWordsContext.Provider value={fetched.words}>
      <fetched.View {...props} />
    </CounterWordsContext.Provider>
  );
}
