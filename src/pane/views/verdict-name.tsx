/** @jsxImportSource preact */
import type { JSX } from "preact";
import type { Verdict } from "../../core/diagnosis/diagnose";
import { useWords } from "../words/words";
import { StateShape } from "./state-mark";

/** Sign, part and state of a verdict; that no part is at fault is said in words of its own. */
export function VerdictName({ part, state }: Pick<Verdict, "part" | "state">): JSX.Element {
  const words = useWords();
  const named =
    part === "none"
      ? state === "serviceable"
        ? words.answer.noFault
        : words.answer.noFaultYet
      : `${words.part[part]}: ${words.state[state]}`;
  return (
    <>
      <StateShape state={state} size={20} />
      <span>{named}</span>
    </>
  );
}
