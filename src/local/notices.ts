/** A thing to say at the edge of the page, with what can be done about it. */
export interface Notice {
  readonly text: string;
  readonly lines?: readonly string[];
  readonly action?: { readonly label: string; readonly run: () => void };
  /** Stays until it is closed or replaced; the others go by themselves. */
  readonly stays?: boolean;
}

const SHOWN_MS = 8000;

/** One notice at a time for each topic, oldest on top; screen readers hear each one once. */
export class Notices {
  private readonly shown = new Map<string, HTMLElement>();

  constructor(
    private readonly place: HTMLElement,
    private readonly words: { readonly dismiss: string },
  ) {}

  show(topic: string, { text, lines = [], action, stays }: Notice): void {
    this.clear(topic);
    const box = document.createElement("div");
    box.className = "notice";
    box.append(element("p", text));
    if (lines.length > 0) {
      const list = document.createElement("ul");
      list.append(...lines.map((line) => element("li", line)));
      box.append(list);
    }
    const buttons = document.createElement("div");
    if (action) {
      const button = element("button", action.label);
      button.addEventListener("click", action.run);
      buttons.append(button);
    }
    const close = element("button", this.words.dismiss);
    close.addEventListener("click", () => this.clear(topic));
    buttons.append(close);
    box.append(buttons);
    this.shown.set(topic, box);
    this.place.append(box);
    if (!stays) setTimeout(() => this.shown.get(topic) === box && this.clear(topic), SHOWN_MS);
  }

  clear(topic: string): void {
    this.shown.get(topic)?.remove();
    this.shown.delete(topic);
  }
}

function element(tag: string, text: string): HTMLElement {
  const made = document.createElement(tag);
  made.textContent = text;
  return made;
}
