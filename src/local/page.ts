import { browserStorage } from "../pane/browser-storage";
import { chosenLanguage } from "../pane/chosen-language";
import { Desk } from "./desk";
import { linkPhones } from "./desk-link";
import { movableDivider } from "./divider";
import { fileButtons } from "./file-buttons";
import { keepWorkbook } from "./keeping";
import { labelPage } from "./label-page";
import { Notices } from "./notices";
import { workOffline } from "./offline";
import { chooseViews } from "./views";
import { tellErrors } from "./why-error";
import { SpokenWords } from "./words";
import "./page.css";

const storage = browserStorage();
const language = chosenLanguage(storage, navigator.language);
const spoken = new SpokenWords(language);
const { words } = spoken;

/** The local page: the workbook that the browser kept, else the demo shop's, and the pane that works on it. */
async function open(): Promise<void> {
  labelPage(document, words, language);
  const notices = new Notices(element("notices"), words);
  movableDivider(element("divider"), storage);
  chooseViews(document.body, [...document.querySelectorAll<HTMLButtonElement>("#views button")]);
  const desk = new Desk(
    element("sheet"),
    element("pane"),
    language,
    (chosen) => {
      spoken.speak(chosen);
      labelPage(document, words, chosen);
    },
    (waiting) => {
      if (waiting) notices.show("audit", { text: words.auditing, stays: true });
      else notices.clear("audit");
    },
  );
  tellErrors(desk, element("why"));
  const keeping = await keepWorkbook(desk, notices, words);
  fileButtons(element("file"), desk, keeping, notices, spoken);
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

open().catch((error: unknown) => {
  element("status").textContent = words.notStarted(error instanceof Error ? error.message : String(error));
  throw error;
});
