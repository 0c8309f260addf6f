/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useWords } from "../words/words";

/** The way back to the list of checks; the arrow is drawn, for not every system's font has one. */
export function BackButton({ onBack }: { readonly onBack: () => void }): JSX.Element {
  const words = useWords();
  return (
    <button type="button" class="cw-quiet cw-back" onClick={onBack}>
      <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true" focusable="false">
        <path d="M13 8h-9.500M7.500 4l-4 4l4 4" />
      </svg>
      {words.nav.back}
    </button>
  );
}
