import { writeFileSync } from "node:fs";
import { loadavg } from "node:os";
import path from "node:path";
import { parseArgs } from "node:util";
import type { Page } from "playwright-core";
import { parseRange } from "../../src/workbook/address";
import type { Workbook } from "../../src/workbook/port";
import { goTo, readCells, waitUntilOpen } from "../browser/grid";
import { launchBrowser, serveLocalPage, watchedPage } from "../browser/launch";

/**
 * How long a person waits for the answer to a reading in the local page, by the browser's own clock of the
 * event: from the press of Enter in the cell to the state in the cell beside it, to the first frame drawn
 * after that and to the state in the pane; and in the pane's own field from the text to the state beside it,
 * and from the press of Enter to the state in the cell. Prints medians and 90th percentiles, and judges nothing.
 *
 *   npm run build:local && node -r ./.config/typescript.cjs tests/bench/typed-reading.bench.ts
 *
 * `--repeats 30`; `--page folder` takes a page that was built elsewhere; `--profile folder` also writes
 * what the page's processor did from each Enter on, for a browser's developer tools (names are
 * readable in a build with `--no-optimization-minimize`).
 */
const { values: options } = parseArgs({
  options: { repeats: { type: "string", default: "30" }, page: { type: "string" }, profile: { type: "string" } },
});
const repeats = Number(options.repeats);
const READING = "Running voltage at test speed";
const ENTRY = "test-voltage";
const STEP = "running-test";
const STATE_COLUMN = 4;

/** From the event on [ms]. */
type Times = Readonly<Record<"cell" | "frame" | "pane", number>>;

/** Another value each time, by turns within the limits of the demo machine and far below them. */
function readingAt(i: number): { text: string; state: "pass" | "fail" } {
  return i % 2 === 0
    ? { text: (14.1 + i * 0.01).toFixed(2), state: "pass" }
    : { text: (11.5 + i * 0.01).toFixed(2), state: "fail" };
}

/**
 * Lets the page measure from the next such event on, and leave its times on the window. All is watched from
 * before the event, because what it sets off may be over before another listener hears of it.
 */
async function watchAnswer(page: Page, event: "Enter" | "text", row: number, state: string): Promise<void> {
  await page.evaluate(
    ({ at, entry, wanted, kind }) => {
      const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
      const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
      const started = new Promise<number>((resolve) => {
        const heard = (given: Event) => {
          if (kind === "Enter" && (given as KeyboardEvent).key !== "Enter") return;
          window.removeEventListener(given.type, heard, true);
          resolve(given.timeStamp);
        };
        window.addEventListener(kind === "Enter" ? "keydown" : "input", heard, true);
      });
      const calculated = new Promise<number>((resolve) => {
        const stop = workbook.onCalculated(() => {
          void workbook.read(at).then(({ values }) => {
            if (values[0]![0] !== wanted) return;
            stop();
            resolve(performance.now());
          });
        });
      });
      const inPane = new Promise<number>((resolve) => {
        const watch = new MutationObserver(() => {
          const shown = document.querySelector(`#pane [data-reading="${entry}"] [data-state]`);
          if (shown?.getAttribute("data-state") !== wanted) return;
          watch.disconnect();
          resolve(performance.now());
        });
        watch.observe(document.getElementById("pane")!, { subtree: true, childList: true, attributes: true });
      });
      const drawn = calculated.then(async () => {
        // What is drawn in one frame is on the screen when the next one begins.
        await frame();
        await frame();
        return performance.now();
      });
      const since = async (moment: Promise<number>) => (await moment) - (await started);
      Object.assign(window, { measured: { cell: since(calculated), frame: since(drawn), pane: since(inPane) } });
    },
    { at: { sheet: "Job", row, column: STATE_COLUMN, rows: 1, columns: 1 }, entry: ENTRY, wanted: state, kind: event },
  );
}

function measured(page: Page, what: keyof Times): Promise<number> {
  return page.evaluate(
    (name) => (window as unknown as { measured: Readonly<Record<string, Promise<number>>> }).measured[name]!,
    what,
  );
}

function quantile(all: readonly number[], share: number): number {
  const sorted = [...all].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)]!;
}

function print(what: string, all: readonly number[]): void {
  console.log(`${what.padEnd(52)} ${quantile(all, 0.5).toFixed(0)} ms, ${quantile(all, 0.9).toFixed(0)} ms`);
}

async function main(): Promise<void> {
  const served = await serveLocalPage(options.page);
  const browser = await launchBrowser();
  try {
    const { page } = await watchedPage(browser, served.address);
    await waitUntilOpen(page);
    await page.locator(`#cw-open-${STEP}`).click();
    const { values } = await readCells(page, "Job", "A1:A220");
    const cell = `B${values.findIndex(([label]) => label === READING) + 1}`;
    const row = parseRange(cell)!.row;
    const times: Record<string, number[]> = {};
    const note = async (name: string, what: keyof Times) => {
      (times[name] ??= []).push(await measured(page, what));
    };
    const load = () =>
      loadavg()
        .map((one) => one.toFixed(2))
        .join(" ");
    console.log(`load ${load()} before`);
    const devtools = await page.context().newCDPSession(page);
    await devtools.send("Profiler.enable");
    for (let i = 0; i < repeats; i++) {
      await goTo(page, cell);
      const { text, state } = readingAt(i);
      await page.keyboard.type(text);
      await watchAnswer(page, "Enter", row, state);
      if (options.profile) await devtools.send("Profiler.start");
      await page.keyboard.press("Enter");
      await note("Enter in the cell, state in the cell", "cell");
      await note("Enter in the cell, the frame with it drawn", "frame");
      await note("Enter in the cell, state in the pane", "pane");
      if (options.profile) {
        const { profile } = await devtools.send("Profiler.stop");
        writeFileSync(path.join(options.profile, `reading-${i}.cpuprofile`), JSON.stringify(profile));
      }
    }
    const field = page.locator(`#pane input[data-entry="${ENTRY}"]`);
    for (let i = repeats; i < 2 * repeats; i++) {
      const { text, state } = readingAt(i);
      await field.selectText();
      await watchAnswer(page, "text", row, state);
      await page.keyboard.insertText(text);
      await note("text in the pane's field, state in the pane", "pane");
      await watchAnswer(page, "Enter", row, state);
      await field.press("Enter");
      await note("Enter in the pane's field, state in the cell", "cell");
      await note("Enter in the pane's field, the frame with it drawn", "frame");
    }
    console.log(`load ${load()} after`);
    console.log(`median and 90th percentile of ${repeats} readings:`);
    for (const [what, all] of Object.entries(times)) print(what, all);
  } finally {
    await browser.close();
    await served.close();
  }
}

void main();
