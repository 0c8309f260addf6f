/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import { usePane } from "../pane-context";
import { useWords } from "../words/words";
import type { CounterProps } from "./counter-view";

type View = typeof import("./counter-view").CounterView;

/** The counter, fetched when it is asked for. */
export function CounterDoor(props: CounterProps): JSX.Element {
  const { attempt } = usePane();
  const words = useWords();
  const [Counter, setCounter] = useState<View | undefined>(undefined);
  useEffect(() => {
    void attempt(async () => {
      const { CounterView } = await import("./counter-view");
      setCounter(() => CounterView);
    });
  }, [attempt]);
  return Counter ? <Counter {...props} /> : <p class="cw-meta">{words.counter.loading}</p>;
}
