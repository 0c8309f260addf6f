import { mountPane } from "../../src/pane/mount";
import { planSheets, stepsForNewSheets } from "../../src/workbook/sheet-plan";
import { DEMO } from "../../src/workbook/demo";
import { TEMPLATES } from "../../src/workbook/templates";
import { MemoryWorkbook } from "./memory-workbook";

/**
 * The pane on a page of its own beside a workbook in memory, for the browser tests. What the tests
 * touch from outside hangs on the window.
 */
declare global {
  interface Window {
    pane: { readonly workbook: MemoryWorkbook; unmount(): void; mount(): void };
  }
}

async function show(): Promise<void> {
  const asked = new URLSearchParams(window.location.hash.slice(1));
  const workbook = new MemoryWorkbook();
  if (asked.has("demo")) await workbook.apply(stepsForNewSheets(planSheets(TEMPLATES, { demo: DEMO })));
  else workbook.addSheet("Sheet1");
  const root = document.getElementById("pane")!;
  const mount = () => mountPane(root, workbook, { language: asked.get("language") === "es" ? "es" : "en" });
  let unmount = mount();
  window.pane = {
    workbook,
    unmount: () => unmount(),
    mount: () => {
      unmount = mount();
    },
  };
}

void show();
