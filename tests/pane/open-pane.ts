import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { keepDrawing } from "../browser/keep-drawing";
import { launchBrowser } from "../browser/launch";

/** Builds the page of the pane once for a test file and opens it as often as asked. */
export class PanePages {
  private browser: Browser | undefined;
  private folder = "";

  async start(): Promise<void> {
    this.folder = mkdtempSync(path.join(tmpdir(), "pane-page-"));
    mkdirSync(this.folder, { recursive: true });
    const cli = path.join(path.dirname(require.resolve("webpack-cli/package.json")), "bin/cli.js");
    execFileSync(process.execPath, [cli, "--config", path.join(__dirname, "page.webpack.cjs")], {
      env: { ...process.env, PANE_PAGE_OUT: this.folder },
      stdio: "pipe",
    });
    this.browser = await launchBrowser();
  }

  async stop(): Promise<void> {
    await this.browser?.close();
  }

  /** A page with the pane in it, its messages watched: any error on the page fails the test that asks for `errors`. */
  async open(
    options: {
      readonly demo?: boolean;
      readonly language?: "en" | "es";
      readonly width?: number;
      readonly dark?: boolean;
    } = {},
  ): Promise<OpenPane> {
    const page = await this.browser!.newPage({
      viewport: { width: options.width ?? 400, height: 900 },
      colorScheme: options.dark ? "dark" : "light",
      reducedMotion: "reduce",
    });
    await keepDrawing(page);
    const errors: string[] = [];
    page.on("pageerror", (error) => errors.push(error.message));
    page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
    const asked = new URLSearchParams({ ...(options.demo ? { demo: "1" } : {}), language: options.language ?? "en" });
    await page.goto(`${pathToFileURL(path.join(this.folder, "index.html")).href}#${asked.toString()}`);
    await page.waitForSelector(".cw-body");
    return { page, errors };
  }
}

export interface OpenPane {
  readonly page: Page;
  readonly errors: readonly string[];
}
