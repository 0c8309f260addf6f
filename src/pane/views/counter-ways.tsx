/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId } from "preact/hooks";
import type { Alternative } from "../../core/quote/quote";
import type { SayMoney } from "../counter-money";
import { useCounterWords, type WordsAtCounter } from "../words/counter-words";

interface WaysProps {
  readonly ways: readonly Alternative[];
  readonly chosen: Alternative | undefined;
  readonly say: SayMoney;
  readonly onChoose: (way: string) => void;
}

/** The ways side by side, each with what it comes to; one of them is quoted. */
export function CounterWays({ ways, chosen, say, onChoose }: WaysProps): JSX.Element | null {
  const words = useCounterWords();
  const id = useId();
  // One way alone is no choice: its lines and total say it all.
  if (ways.length < 2) return null;
  return (
    <fieldset class="cw-counter-ways">
      <legend>{words.counter.quote.repair}</legend>
      {ways.map((way) => (
        <label key={way.name} class="cw-counter-way" data-way={way.name}>
          <input type="radio" name={id} checked={way === chosen} onChange={() => onChoose(way.name)} />
          <span class="cw-counter-way-name">{words.said(way.name)}</span>
          <strong>{say(way.total)}</strong>
          <small>{supplyOf(way, words)}</small>
          {way.missing.length > 0 ? <small class="cw-warning">{words.counter.quote.incomplete}</small> : null}
        </label>
      ))}
    </fieldset>
  );
}

/** Whether the part itself is in the shop. */
function supplyOf({ lines }: Alternative, words: WordsAtCounter): string {
  const part = lines.find(({ kind }) => kind === "part");
  return part ? words.said(part.note) : "";
}
