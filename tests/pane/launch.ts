import { mkdirSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { chromium, type Browser } from "playwright-core";

/** Starts the browser that comes from npm. */
export async function launchBrowser(): Promise<Browser> {
  // Unpacked once for each version; the libraries beside it only where it believes to be in a cloud function.
  process.env["TMPDIR"] = path.join(tmpdir(), "chromium-147");
  process.env["AWS_EXECUTION_ENV"] ??= "AWS_Lambda_nodejs20.x";
  mkdirSync(process.env["TMPDIR"], { recursive: true });
  const { default: packed } = await import("@sparticuz/chromium");
  return chromium.launch({
    executablePath: await packed.executablePath(),
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"],
    env: { ...(process.env as Record<string, string>), FONTCONFIG_PATH: "/etc/fonts" },
  });
}
