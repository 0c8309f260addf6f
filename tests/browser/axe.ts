import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";

const AXE = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

interface Axe {
  run(
    context: string | Document,
    options: object,
  ): Promise<{ violations: readonly { id: string; nodes: readonly { html: string }[] }[] }>;
}

/** As `violations`, in the light and then, where nothing but contrast can differ, in the dark. */
export async function violationsInBothLights(page: Page, within?: string): Promise<string[]> {
  await page.emulateMedia({ colorScheme: "light" });
  const found = await violations(page, within);
  await page.emulateMedia({ colorScheme: "dark" });
  found.push(...(await violations(page, within, ["color-contrast"])));
  await page.emulateMedia({ colorScheme: "light" });
  return found;
}

/**
 * What axe finds wrong with a page, one line for each place; empty where nothing is.
 *
 * @param within - Selector of the part that is looked at; the whole page otherwise
 * @param rules - Only these rules; all of them otherwise
 */
export async function violations(page: Page, within?: string, rules?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(AXE);
  return page.evaluate(
    async ([selector, only]) => {
      const { axe } = window as unknown as { axe: Axe };
      const found = await axe.run(selector ?? document, {
        resultTypes: ["violations"],
        ...(only ? { runOnly: { type: "rule", values: only } } : {}),
      });
      return found.violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
    },
    [within, rules] as const,
  );
}
