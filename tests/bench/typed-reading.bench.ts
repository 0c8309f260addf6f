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
 * How long a person waits for the answer to a reading: in the local page, from the press of Enter in
 * the cell (by the browser's own clock of the key event) to the state in the cell beside it, to the
 * first frame drawn after that, to every formula of the workbook calculated and to the state in the
 * pane. Prints medians and 90th percentiles, and judges nothing.
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

interface Times {
  readonly cell: number;
  readonly frame: number;
  readonly pane: number;
}

/** Another value each time, by turns within the limits of the demo machine and far below them. */
function readingAt(i: number): { text: string; state: "pass" | "fail" } {
  return i % 2 === 0
    ? { text: (14.1 + i * 0.01).toFixed(2), state: "pass" }
    : { text: (11.5 + i * 0.01).toFixed(2), state: "fail" };
}

/**
 * Lets the page measure, from the next Enter on, and leave its times on the window. All is watched from
 * before the key, because what it sets off may be over before another listener hears of it.
 */
async function watchAnswer(page: Page, row: number, state: string): Promise<void> {
  await page.evaluate(
    ({ at, entry, wanted }) => {
      const { workbook } = (window as unknown as { chargewright: { workbook: Workbook } }).chargewright;
      const frame = () => new Promise((resolve) => requestAnimationFrame(resolve));
      const pressed = new Promise<number>((resolve) =>
        window.addEventListener("keydown", ({ key, timeStamp }) => key === "Enter" && resolve(timeStamp), true),
      );
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
      const measured = async () => {
        const [from, cell] = [await pressed, await calculated];
        // What is drawn in one frame is on the screen when the next one begins.
        await frame();
        await frame();
        return { cell: cell - from, frame: performance.now() - from, pane: (await inPane) - from };
      };
      Object.assign(window, { measured: measured() });
    },
    { at: { sheet: "Job", row, column: STATE_COLUMN, rows: 1, columns: 1 }, entry: ENTRY, wanted: state },
  );
}

function quantile(all: readonly number[], share: number): number {
  const sorted = [...all].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)]!;
}

function print(what: string, all: readonly number[]): void {
  console.log(`${what.padEnd(48)} ${quantile(all, 0.5).toFixed(0)} ms, ${quantile(all, 0.9).toFixed(0)} ms`);
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
    const times: Times[] = [];
    console.log(
      `load ${loadavg()
        .map((load) => load.toFixed(2))
        .join(" ")} before`,
    );
    const devtools = await page.context().newCDPSession(page);
    await devtools.send("Profiler.enable");
    for (let i = 0; i < repeats; i++) {
      await goTo(page, cell);
      const { text, state } = readingAt(i);
      await page.keyboard.type(text);
      await watchAnswer(page, parseRange(cell)!.row, state);
      if (options.profile) await devtools.send("Profiler.start");
      await page.keyboard.press("Enter");
      times.push(await page.evaluate(() => (window as unknown as { measured: Promise<Times> }).measured));
      if (options.profile) {
        const { profile } = await devtools.send("Profiler.stop");
        writeFileSync(path.join(options.profile, `reading-${i}.cpuprofile`), JSON.stringify(profile));
      }
    }
    console.log(
      `load ${loadavg()
        .map((load) => load.toFixed(2))
        .join(" ")} after`,
    );
    console.log(`from Enter, median and 90th percentile of ${repeats} readings:`);
    print(
      "state in the cell",
      times.map((time) => time.cell),
    );
    print(
      "the frame with it drawn",
      times.map((time) => time.frame),
    );
    print(
      "state in the pane",
      times.map((time) => time.pane),
    );
  } finally {
    await browser.close();
    await served.close();
  }
}

void main();
