/** @jsxImportSource preact */
import type { ComponentChildren, JSX } from "preact";
import { useErrorBoundary } from "preact/hooks";
import { useWords } from "../words/words";

/** Shows what it holds; where drawing it throws, which is our own bug, says so instead of going blank. */
export function Guarded({ children }: { readonly children: ComponentChildren }): JSX.Element {
  const words = useWords();
  const [error, again] = useErrorBoundary() as [unknown, () => void];
  if (error === undefined) return <>{children}</>;
  return (
    <div class="cw-failure" role="alert">
      <strong>{words.fault.own}</strong> {error instanceof Error ? error.message : String(error)}{" "}
      <button type="button" onClick={again}>
        {words.fault.retry}
      </button>
    </div>
  );
}
