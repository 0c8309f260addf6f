import { useLayoutEffect, type Inputs } from "preact/hooks";

/**
 * Moves the focus as a view is drawn, whenever one of `when` has changed. Done after painting, as other
 * effects are, it would on a slow machine be taken from a field already typed in.
 */
export function useFocusMove(move: () => void, when: Inputs): void {
  useLayoutEffect(move, when);
}
