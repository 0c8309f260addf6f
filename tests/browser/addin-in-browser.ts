import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Page } from "playwright-core";
import { addinListener } from "../../src/tools/addin-server";
import { keepDrawing } from "./keep-drawing";
import { launchBrowser } from "./launch";

const ROOT = path.resolve(__dirname, "../..");

/** What the built page finds in place of Excel, as far as tests ask it. */
export interface StandIn {
  readonly associated: Record<string, (...given: unknown[]) => unknown>;
  readonly show: () => void;
  readonly book: {
    readonly sheets: readonly {
      readonly name: string;
      readonly cells: ReadonlyMap<string, { readonly value: unknown; readonly formula: string }>;
    }[];
  };
}

export interface OpenPage {
  readonly page: Page;
  readonly errors: readonly string[];
  /** What it asked of other places. */
  readonly foreign: readonly string[];
  readonly loaded: readonly string[];
}

export interface AddinInBrowser {
  readonly origin: string;
  /**
   * The built page in an Excel that is stood in for.
   *
   * @param still - Draws nothing that it is not asked for: for what is measured and clicks on nothing
   */
  open(how?: string, still?: boolean): Promise<OpenPage>;
  close(): Promise<void>;
}

/** Serves the built add-in, and a browser to open it in. */
export async function addinInBrowser(): Promise<AddinInBrowser> {
  const built = path.join(ROOT, "dist/addin");
  if (!existsSync(path.join(built, "addin.html"))) throw new Error("dist/addin is not built; run: npm run build:addin");
  const out = mkdtempSync(path.join(tmpdir(), "stand-in-"));
  const cli = path.join(path.dirname(require.resolve("webpack-cli/package.json")), "bin/cli.js");
  execFileSync(process.execPath, [cli, "--config", path.join(ROOT, "tests/hosts/excel/stand-in.webpack.cjs")], {
    env: { ...process.env, STAND_IN_OUT: out },
    stdio: "pipe",
  });
  const office = readFileSync(path.join(out, "office.js"), "utf8");
  const server = createServer(addinListener(built));
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const origin = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const browser = await launchBrowser();
  return {
    origin,
    async open(how = "", still = false) {
      const page = await browser.newPage({ viewport: { width: 350, height: 800 } });
      if (!still) await keepDrawing(page);
      const errors: string[] = [];
      const foreign: string[] = [];
      const loaded: string[] = [];
      page.on("pageerror", (error) => errors.push(error.message));
      page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
      await page.route("**/office.js", (route) =>
        how === "offline" ? route.abort() : route.fulfill({ contentType: "text/javascript", body: office }),
      );
      page.on("request", (request) => {
        const url = new URL(request.url());
        loaded.push(url.pathname);
        if (url.origin !== origin && url.protocol !== "data:" && !url.pathname.endsWith("/office.js"))
          foreign.push(request.url());
      });
      await page.goto(`${origin}/addin.html?excel=${how}`);
      if (how !== "offline") await page.waitForFunction(() => "standIn" in window);
      return { page, errors, foreign, loaded };
    },
    async close() {
      await browser.close();
      server.close();
    },
  };
}
