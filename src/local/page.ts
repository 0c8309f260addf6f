import { Desk } from "./desk";
import { linkPhones } from "./desk-link";
import { movableDivider } from "./divider";
import { fileButtons } from "./file-buttons";
import { keepWorkbook } from "./keeping";
import { Notices } from "./notices";
import { workOffline } from "./offline";
import { chooseViews } from "./views";
import { pageWords } from "./words";
import "./page.css";

/** The local page: the workbook that the browser kept, else the demo shop's, and the pane that works on it. */
async function open(): Promise<void> {
  const storage = browserStorage();
  const words = pageWords(storage, navigator.language);
  const notices = new Notices(element("notices"), words.dismiss);
  movableDivider(element("divider"), storage);
  chooseViews(document.body, [...document.querySelectorAll<HTMLButtonElement>("#views button")]);
  const desk = new Desk(element("sheet"), element("pane"));
  const keeping = await keepWorkbook(desk, notices, words);
  fileButtons(element("file"), desk, keeping, notices, words);
  // The grid is drawn, not written: whoever checks a cell from outside asks the workbook.
  Object.defineProperty(window, "chargewright", {
    value: Object.freeze({
      get workbook() {
        return desk.workbook;
      },
    }),
  });
  document.documentElement.dataset["ready"] = "";
  if (keeping.keeps) keeping.onLost(await linkPhones(desk, notices, words));
  workOffline(notices, words, () => keeping.flush());
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
