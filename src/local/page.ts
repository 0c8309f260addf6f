import { openPageGrid } from "../hosts/grid/page-grid";
import { mountPane } from "../pane/mount";
import { placeTemplates } from "../workbook/place-templates";
import { DEMO } from "../workbook/demo";
import { TEMPLATES } from "../workbook/templates";
import { movableDivider } from "./divider";
import { chooseViews } from "./views";
import "./page.css";

/** The local page: a workbook with the demo shop in it, and the pane that works on it. */
async function open(): Promise<void> {
  movableDivider(element("divider"), browserStorage());
  chooseViews(document.body, [...document.querySelectorAll<HTMLButtonElement>("#views button")]);
  const { workbook } = openPageGrid(element("sheet"), FUNCTION_HELP, TEMPLATES[0]!.sheet);
  await placeTemplates(workbook, TEMPLATES, { demo: DEMO });
  mountPane(element("pane"), workbook);
  // The grid is drawn, not written: whoever checks a cell from outside asks the workbook.
  Object.assign(window, { chargewright: { workbook } });
  document.documentElement.dataset["ready"] = "";
}

function element(id: string): HTMLElement {
  return document.getElementById(id)!;
}

/** Missing where the browser forbids a page to keep anything. */
function browserStorage(): Storage | undefined {
  try {
    return window.localStorage;
  } catch {
    return undefined;
  }
}

open().catch((error: unknown) => {
  element("status").textContent =
    `The workbook could not be opened: ${error instanceof Error ? error.message : String(error)}`;
  throw error;
});
