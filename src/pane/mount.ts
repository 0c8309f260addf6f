import { h, render } from "preact";
import type { Workbook } from "../workbook/port";
import { browserStorage } from "./browser-storage";
import "./look/pane.css";
import type { Keeper, Language } from "./settings";
import { Pane } from "./views/pane";

export interface MountOptions {
  /** Where settings and unsaved texts are kept; the browser's local storage where it is allowed. */
  readonly keeper?: Keeper;
  /** Language until the user chooses one; the browser's otherwise. */
  readonly language?: Language;
  /** Told when the user chooses another language. */
  readonly onLanguage?: (language: Language) => void;
}

/**
 * Shows the pane in `root` and lets it follow `workbook`.
 *
 * @returns The way to take it down; nothing that was typed is lost by it
 */
export function mountPane(root: HTMLElement, workbook: Workbook, options: MountOptions = {}): () => void {
  root.classList.add("cw-pane");
  const keeper = options.keeper ?? browserStorage();
  const language = options.language ?? (navigator.language.toLowerCase().startsWith("es") ? "es" : "en");
  render(h(Pane, { workbook, keeper, language, onLanguage: options.onLanguage }), root);
  return () => {
    render(null, root);
    root.classList.remove("cw-pane");
  };
}
