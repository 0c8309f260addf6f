import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdir, rename, rm, writeFile } from "node:fs/promises";
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import path from "node:path";
import { promisify } from "node:util";
import { chromium as playwright, type Browser, type BrowserContextOptions, type Page } from "playwright-core";
import project from "../../package.json";
import { staticServer } from "../../src/local/static-server";
import { keepDrawing } from "./keep-drawing";

const ROOT = path.resolve(__dirname, "../..");
const UNPACKED = path.join(ROOT, ".cache", `chromium-${project.devDependencies["@sparticuz/chromium"]}`);

/** The packed browser looks for its fonts where it lies in the cloud; with no font at all it dies on the first page. */
const FONTS = `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
  <dir prefix="relative">fonts</dir>
</fontconfig>
`;

/** Everything a page needs and nothing that asks the network for something of its own accord. */
const FLAGS = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-dev-shm-usage",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-default-apps",
  "--disable-domain-reliability",
  "--disable-extensions",
  "--disable-sync",
  "--font-render-hinting=none",
  "--hide-scrollbars",
  "--mute-audio",
  "--no-default-browser-check",
  "--no-first-run",
];

/**
 * Starts a browser that comes from npm alone. On Linux for x64 that is the packed one, unpacked once
 * into `.cache/`; elsewhere it is the Chrome or the Edge that is installed.
 */
export async function launchBrowser(): Promise<Browser> {
  if (process.platform !== "linux" || process.arch !== "x64") return installedBrowser();
  await unpack();
  return playwright.launch({
    executablePath: path.join(UNPACKED, "chromium"),
    args: FLAGS,
    ignoreDefaultArgs: ["--headless"],
    env: {
      ...process.env,
      TMPDIR: UNPACKED,
      FONTCONFIG_PATH: path.join(UNPACKED, "fonts"),
      LD_LIBRARY_PATH: path.join(UNPACKED, "al2023", "lib"),
    },
  });
}

async function installedBrowser(): Promise<Browser> {
  const channel = process.platform === "win32" ? "msedge" : "chrome";
  return playwright.launch({ channel }).catch((error: unknown) => {
    throw new Error(
      `The browser tests need ${channel === "chrome" ? "Chrome" : "Edge"} installed on this system.\n${String(error)}`,
    );
  });
}

/**
 * Unpacks the browser beside its final place and moves it there in one step: the package takes any
 * file that is there for a whole one, also a half that an interrupted run has left. It brings the
 * libraries that a bare system lacks only when it believes to run in the cloud. All this it reads
 * from the environment, so it runs in a process of its own.
 */
async function unpack(): Promise<void> {
  if (existsSync(path.join(UNPACKED, "chromium"))) return;
  const place = `${UNPACKED}.${process.pid}`;
  await mkdir(place, { recursive: true });
  const script = `const chromium = require("@sparticuz/chromium"); (chromium.default ?? chromium).executablePath().then((file) => console.log(file))`;
  await promisify(execFile)(process.execPath, ["-e", script], {
    cwd: ROOT,
    env: { ...process.env, TMPDIR: place, AWS_EXECUTION_ENV: "AWS_Lambda_nodejs20.x" },
  });
  await writeFile(path.join(place, "fonts", "fonts.conf"), FONTS);
  await rename(place, UNPACKED).catch(async (error: unknown) => {
    // Another test was first; its browser is as good.
    await rm(place, { recursive: true, force: true });
    if (!existsSync(path.join(UNPACKED, "chromium"))) throw error;
  });
}

/** A built page on an address of its own. */
export interface Served {
  readonly address: string;
  close(): Promise<void>;
}

/** Serves `dist/local`, or a build that lies elsewhere, as `chargewright serve` does. */
export async function serveLocalPage(folder = path.join(ROOT, "dist", "local")): Promise<Served> {
  if (!existsSync(path.join(folder, "index.html")))
    throw new Error(`${folder} holds no built page; run: npm run build:local`);
  return listening(staticServer(folder));
}

async function listening(server: Server): Promise<Served> {
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

/** What a page, and every further tab of the same visitor, must not have done by the end of a test. */
export interface Watched {
  readonly page: Page;
  /** Errors on the console and errors nobody caught. */
  readonly errors: readonly string[];
  /** Requests to anywhere but the page's own origin. */
  readonly foreign: readonly string[];
}

/** Opens a page of its own and watches what it and its later tabs say and ask for. */
export async function watchedPage(
  browser: Browser,
  address: string,
  options: BrowserContextOptions = {},
): Promise<Watched> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  await keepDrawing(context);
  const page = await context.newPage();
  const errors: string[] = [];
  const foreign: string[] = [];
  context.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  context.on("weberror", (thrown) => errors.push(String(thrown.error())));
  context.on("request", (request) => {
    const url = new URL(request.url());
    if (!["data:", "blob:"].includes(url.protocol) && url.origin !== new URL(address).origin)
      foreign.push(request.url());
  });
  await page.goto(address);
  return { page, errors, foreign };
}

/**
 * Takes a picture of the page as the test has it. `KEEP_SCREENSHOTS=1` takes it over into the
 * documents; otherwise it goes to `.cache/`, for whoever wants to look.
 */
export async function screenshot(page: Page, name: string): Promise<string> {
  const kept = process.env["KEEP_SCREENSHOTS"] === "1";
  const folder = kept ? path.join(__dirname, "screenshots") : path.join(ROOT, ".cache", "screenshots");
  await mkdir(folder, { recursive: true });
  const file = path.join(folder, `${name}.png`);
  await page.screenshot({ path: file });
  return file;
}
