import { excelHost, hasCards, tooOldForPane } from "./excel-host";
import { AT_ONCE, fetchOnCall, ON_CALL } from "./function-parts";
import { verdictCard } from "./verdict-card";
import { associateFunctions, associateOnCall, type FunctionRuntime } from "./functions";

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
  say("Excel's own library could not be fetched: without internet, use a build that brings it along (office=local).");
} else {
  associateFunctions(AT_ONCE, runtime);
  associateOnCall(ON_CALL, fetchOnCall, runtime, {
    CARD: (functions, given) => (hasCards(excelHost) ? verdictCard(functions, given) : undefined),
  });
  void Office.onReady(begin);
}

function begin({ host }: { host: Office.HostType }): void {
  if (host !== Office.HostType.Excel) {
    say(
      "This page is the Excel add-in and has no workbook here. Load its manifest in Excel, or run the local page with npm start.",
    );
    return;
  }
  const tooOld = tooOldForPane(excelHost);
  if (tooOld) say(tooOld);
  else whenSeen(() => void showPane());
}

async function showPane(): Promise<void> {
  const root = document.getElementById("pane")!;
  try {
    const [{ mountPane }, { ExcelWorkbook }] = await Promise.all([
      import(/* webpackChunkName: "pane" */ "../../pane/mount"),
      import(/* webpackChunkName: "pane" */ "./workbook"),
    ]);
    root.replaceChildren();
    mountPane(root, new ExcelWorkbook(excelHost, (fault) => say(fault.message)));
  } catch {
    const again = document.createElement("button");
    again.textContent = "Try again";
    again.addEventListener("click", () => void showPane());
    root.replaceChildren(again);
    say("The pane could not be fetched. Check the connection to the place it comes from.");
  }
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
