/** What of the page is shown: the workbook, the pane, or both beside each other. */
export type View = "sheet" | "both" | "pane";

/** Below this, in letters of the reader's own size, there is no room for both. */
const ROOM_FOR_BOTH = "(min-width: 45rem)";

/** Lets the buttons choose what is shown; a narrow screen shows one at a time. */
export function chooseViews(body: HTMLElement, buttons: readonly HTMLButtonElement[]): void {
  const room = window.matchMedia(ROOM_FOR_BOTH);
  let wanted: View = "both";
  const show = () => {
    const view = wanted === "both" && !room.matches ? "pane" : wanted;
    body.dataset["view"] = view;
    for (const button of buttons) button.setAttribute("aria-pressed", String(button.dataset["view"] === view));
    // The grid measures its place once the layout has changed.
    window.dispatchEvent(new Event("resize"));
  };
  for (const button of buttons) {
    button.addEventListener("click", () => {
      wanted = button.dataset["view"] as View;
      show();
    });
  }
  room.addEventListener("change", show);
  show();
}
