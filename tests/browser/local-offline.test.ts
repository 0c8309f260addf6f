import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Browser, Page } from "playwright-core";
import { staticServer } from "../../src/local/static-server";
import { violationsInBothLights } from "./axe";
import { readCell, readCells, typeInto, waitUntilOpen } from "./grid";
import { launchBrowser, watchedPage } from "./launch";

jest.setTimeout(300_000);

const BUILT = path.resolve(__dirname, "../../dist/local");

let browser: Browser;
let folder: string;
let server: Server;
let port = 0;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "offline-"));
  await cp(BUILT, folder, { recursive: true });
  await start();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  await stop();
  await rm(folder, { recursive: true, force: true });
});

async function start(): Promise<void> {
  server = staticServer(folder);
  await new Promise<void>((resolve) => server.listen(port, "127.0.0.1", resolve));
  port = (server.address() as AddressInfo).port;
}

function stop(): Promise<void> {
  return new Promise((resolve) => {
    server.close(() => resolve());
    server.closeAllConnections();
  });
}

/** Until a service worker with a whole build looks after the page. */
async function untilKept(page: Page): Promise<string[]> {
  await page.evaluate(async () => {
    await navigator.serviceWorker.ready;
    while (!navigator.serviceWorker.controller) await new Promise((later) => setTimeout(later, 50));
  });
  return page.evaluate(() => caches.keys());
}

it("works without its server after one visit, judges what is typed, and takes a newer build when told to", async () => {
  const { page, errors } = await watchedPage(browser, `http://127.0.0.1:${port}/`);
  await waitUntilOpen(page);
  const [build, ...more] = await untilKept(page);
  expect([build, more]).toEqual([expect.stringMatching(/^chargewright-[\da-f]{16}$/u), []]);
  const manifest = JSON.parse(await readFile(path.join(folder, "chargewright.webmanifest"), "utf8")) as {
    icons: { src: string; sizes: string }[];
  };
  expect(manifest.icons.map(({ sizes }) => sizes)).toEqual(["192x192", "512x512"]);

  await stop();
  await page.reload();
  await waitUntilOpen(page);
  const { values } = await readCells(page, "Job", "A1:A220");
  const row = values.findIndex(([text]) => text === "Running voltage at test speed") + 1;
  await typeInto(page, `B${row}`, "14,3 V");
  expect(await readCell(page, "Job", `E${row}`)).toBe("pass");
  // The pieces that are fetched when they are asked for are kept too.
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as .xlsx" }).click();
  expect((await (await download).createReadStream()).readable).toBe(true);
  await page.waitForSelector('html[data-kept="all"]');

  // A newer build: one file has changed, and with it the list of the service worker.
  const script = path.join(folder, "service-worker.js");
  await writeFile(script, (await readFile(script, "utf8")).replace(/"digest":"\w+"/u, `"digest":"${"0".repeat(16)}"`));
  const html = path.join(folder, "index.html");
  await writeFile(html, (await readFile(html, "utf8")).replace("<title>Chargewright", "<title>Chargewright newer"));
  await start();
  await page.reload();
  await waitUntilOpen(page);
  expect(await page.title()).toBe("Chargewright");
  await page.locator("#notices").getByText("A newer version of this page is ready.").waitFor();
  expect(await violationsInBothLights(page, "#notices")).toEqual([]);
  await page.getByRole("button", { name: "Use it now" }).click();
  await page.waitForFunction(() => document.title === "Chargewright newer");
  await waitUntilOpen(page);
  expect(await page.evaluate(() => caches.keys())).toEqual([`chargewright-${"0".repeat(16)}`]);
  expect(await readCell(page, "Job", `B${row}`)).toBe("14,3 V");
  // While the server was away the browser itself reports what it could not look up.
  expect(errors.filter((error) => !/ERR_CONNECTION_REFUSED|Failed to (?:fetch|update)/u.test(error))).toEqual([]);
});
