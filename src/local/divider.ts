/** Narrowest pane and usual one, in letters of the reader's own size, and how much of the window it may take. */
const NARROWEST_REM = 17.5;
const USUAL_REM = 24;
const WIDEST_SHARE = 0.7;
const KEY_STEP_PX = 24;

/** Makes the pane as wide as the divider is dragged or moved by arrow keys; `keep` remembers it. */
export function movableDivider(divider: HTMLElement, keep: Pick<Storage, "getItem" | "setItem"> | undefined): void {
  const root = document.documentElement;
  const rem = parseFloat(getComputedStyle(root).fontSize);
  const narrowest = NARROWEST_REM * rem;
  // What was asked for; a window that is narrow for a while takes no more than it has to.
  let wanted = Number(keep?.getItem(KEY)) || USUAL_REM * rem;
  let width = wanted;

  const show = () => {
    const widest = Math.max(narrowest, window.innerWidth * WIDEST_SHARE);
    width = Math.round(Math.min(Math.max(wanted, narrowest), widest));
    root.style.setProperty("--pane-width", `${width}px`);
    divider.setAttribute("aria-valuenow", String(width));
    divider.setAttribute("aria-valuemin", String(narrowest));
    divider.setAttribute("aria-valuemax", String(Math.round(widest)));
  };
  const set = (asked: number) => {
    wanted = asked;
    show();
    wanted = width;
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
  window.addEventListener("resize", show);
  show();
}

const KEY = "chargewright.pane-width";
