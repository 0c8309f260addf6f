import { browserStorage } from "../../pane/browser-storage";
import { chosenLanguage } from "../../pane/chosen-language";
import { fetchPaneWords } from "../../pane/words/fetch-words";
import { excelHost, hasCards, lackingForPane } from "./excel-host";
import { told } from "../../functions/told";
import { AT_ONCE } from "./functions-at-once";
import { fetchOnCall, fetchOnNotice, ON_CALL, ON_NOTICE } from "./function-parts";
import { fetchWords } from "./function-words";
import { verdictCard } from "./verdict-card";
import { associateFunctions, associateOnCall, type FunctionRuntime } from "./functions";
import { START_ENGLISH, START_SPANISH } from "./start-words";

/**
 * The one page of the add-in. Excel opens it unseen as soon as a cell calls one of our functions,
 * and shows it when the pane is asked for; the functions are ready at once, the pane is fetched when
 * it is first seen.
 */
const runtime: FunctionRuntime = {
  associate: (id, run) => CustomFunctions.associate(id, run),
  // Excel's part of the library, with this class, arrives after this page was read.
  get Error() {
    return CustomFunctions.Error;
  },
};
if (typeof Office === "undefined") {
  say(words().noLibrary);
} else {
  associateFunctions(AT_ONCE, runtime, fetchWords);
  associateOnCall(
    ON_CALL,
    fetchOnCall,
    runtime,
    fetchWords,
    { CARD: (functions, given) => (hasCards(excelHost) ? verdictCard(functions, given) : undefined) },
    { AUDIT: auditElsewhere },
  );
  associateOnCall(ON_NOTICE, fetchOnNotice, runtime, fetchWords);
  void Office.onReady(begin);
}

function begin({ host }: { host: Office.HostType }): void {
  if (host !== Office.HostType.Excel) {
    say(words().noWorkbook);
    return;
  }
  const lacking = lackingForPane(excelHost);
  if (lacking !== undefined) say(words().tooOld(lacking));
  else whenSeen(() => void showPane());
}

/** Place of the language among what AUDIT is given. */
const LANGUAGE = 5;

async function auditElsewhere(given: readonly unknown[]) {
  const [{ auditInParts, planAudit }, { startAuditThread }] = await Promise.all([
    import(/* webpackChunkName: "long-audit" */ "../audit-threads/audit-in-parts"),
    import(/* webpackChunkName: "long-audit" */ "../audit-threads/audit-thread"),
  ]);
  const plan = planAudit(given, navigator.hardwareConcurrency);
  const cells = plan && (await auditInParts(plan, startAuditThread));
  return cells && (() => told("AUDIT", given[LANGUAGE], () => cells));
}

async function showPane(): Promise<void> {
  const root = document.getElementById("pane")!;
  try {
    const [{ mountPane }, { ExcelWorkbook }] = await Promise.all([
      import(/* webpackChunkName: "pane" */ "../../pane/mount"),
      import(/* webpackChunkName: "pane" */ "./workbook"),
      // The pane asks for them again, and finds them there.
      fetchPaneWords(language()),
    ]);
    root.replaceChildren();
    mountPane(root, new ExcelWorkbook(excelHost, (fault) => void sayRefusal(fault.message)));
  } catch {
    const again = document.createElement("button");
    again.textContent = words().again;
    again.addEventListener("click", () => void showPane());
    root.replaceChildren(again);
    say(words().notFetched);
  }
}

function words() {
  return language() === "es" ? START_SPANISH : START_ENGLISH;
}

function language() {
  return chosenLanguage(browserStorage(), navigator.language);
}

/** What Excel refused, in the language of the pane. */
async function sayRefusal(text: string): Promise<void> {
  say(await (await fetchPaneWords(language())).refused(text));
}

/** A sentence at the top of the page, above the pane where that is shown. */
function say(sentence: string): void {
  let message = document.getElementById("message");
  if (!message) {
    message = document.createElement("p");
    message.id = "message";
    message.setAttribute("role", "status");
    document.body.prepend(message);
  }
  message.textContent = sentence;
}

/** Runs `then` once, when the page is in sight: now, or as soon as Excel shows the pane. */
function whenSeen(then: () => void): void {
  let done = false;
  const seen = () => {
    if (done) return;
    done = true;
    then();
  };
  const look = () => {
    if (document.visibilityState === "visible" && document.documentElement.clientWidth > 0) seen();
  };
  look();
  if (done) return;
  window.addEventListener("resize", look);
  document.addEventListener("visibilitychange", look);
  // Where Excel cannot tell, the two events above have to do.
  Office.addin
    .onVisibilityModeChanged(({ visibilityMode }) => {
      if (visibilityMode === Office.VisibilityMode.taskpane) seen();
    })
    .catch(() => undefined);
}
