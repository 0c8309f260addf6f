import { execFile } from "node:child_process";
import { existsSync } from "node:fs";
import path from "node:path";
import { promisify } from "node:util";

const ROOT = path.resolve(__dirname, "../..");
const FROM_CDN = "https://appsforoffice.microsoft.com/lib/1/hosted/office.js";

interface Configured {
  readonly page: { readonly officeJs: string; readonly policy: string };
  /** Where files of the library are copied from; empty where none are. */
  readonly copied: readonly { readonly from: string; readonly context: string }[];
}

/** What the build's own configuration says for one choice of where Excel's library comes from. */
async function configured(office: string | undefined): Promise<Configured> {
  const script = `
    const addin = require("./webpack.config.js")(${JSON.stringify(office === undefined ? {} : { office })}).find(({ name }) => name === "addin");
    const of = (kind) => addin.plugins.find((plugin) => plugin.constructor.name === kind);
    console.log(JSON.stringify({ page: of("HtmlWebpackPlugin").userOptions.templateParameters, copied: of("CopyPlugin")?.patterns ?? [] }));`;
  const { CHARGEWRIGHT_OFFICE: _, ...env } = process.env;
  const { stdout } = await promisify(execFile)(process.execPath, ["-e", script], { cwd: ROOT, env });
  return JSON.parse(stdout) as Configured;
}

describe("where Excel's library comes from is one setting of the build", () => {
  it.each([undefined, "cdn"])("%s: from its maker's network, which alone the page may load from", async (office) => {
    const { page, copied } = await configured(office);
    expect(page.officeJs).toBe(FROM_CDN);
    expect(page.policy).toContain("script-src 'self' https://appsforoffice.microsoft.com;");
    expect(copied).toEqual([]);
  });

  it("local: from beside our own files, copied from the installed package, and nothing from elsewhere", async () => {
    const { page, copied } = await configured("local");
    expect(page.officeJs).toBe("office/office.js");
    expect(page.policy).toContain("script-src 'self';");
    expect(page.policy).not.toContain("http");
    const office = copied.find(({ from }) => from === "office.js");
    expect(existsSync(path.join(office!.context, office!.from))).toBe(true);
  });

  it("anything else is refused by name", async () => {
    await expect(configured("mirror")).rejects.toThrow("--env office is cdn or local, not mirror.");
  });
});
