/** Narrowest pane, and how much of the window it may take. */
const NARROWEST_PX = 280;
const WIDEST_SHARE = 0.7;
const KEY_STEP_PX = 24;

/** Makes the pane as wide as the divider is dragged or moved by arrow keys; `keep` remembers it. */
export function movableDivider(divider: HTMLElement, keep: Pick<Storage, "getItem" | "setItem"> | undefined): void {
  const root = document.documentElement;
  let width = Number(keep?.getItem(KEY)) || 384;

  const set = (wanted: number) => {
    const widest = Math.max(NARROWEST_PX, window.innerWidth * WIDEST_SHARE);
    width = Math.round(Math.min(Math.max(wanted, NARROWEST_PX), widest));
    root.style.setProperty("--pane-width", `${width}px`);
    divider.setAttribute("aria-valuenow", String(width));
    divider.setAttribute("aria-valuemin", String(NARROWEST_PX));
    divider.setAttribute("aria-valuemax", String(Math.round(widest)));
  };
  const settle = () => {
    keep?.setItem(KEY, String(width));
    window.dispatchEvent(new Event("resize"));
  };

  divider.addEventListener("pointerdown", (event) => {
    divider.setPointerCapture(event.pointerId);
    const move = (at: PointerEvent) => set(window.innerWidth - at.clientX);
    divider.addEventListener("pointermove", move);
    const end = () => {
      divider.removeEventListener("pointermove", move);
      settle();
    };
    divider.addEventListener("lostpointercapture", end, { once: true });
  });
  divider.addEventListener("keydown", (event) => {
    const step = { ArrowLeft: KEY_STEP_PX, ArrowRight: -KEY_STEP_PX }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    set(width + step);
    settle();
  });
  window.addEventListener("resize", () => set(width));
  set(width);
}

const KEY = "chargewright.pane-width";
