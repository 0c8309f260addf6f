import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { PanePages } from "../pane/open-pane";

jest.setTimeout(240_000);

const AXE = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const pages = new PanePages();
beforeAll(() => pages.start());
afterAll(() => pages.stop());

/** Every view of the pane, by what a person clicks to get there. */
const VIEWS: readonly (readonly [name: string, go: (page: Page) => Promise<void>])[] = [
  [
    "the answer, unfolded",
    async (page) =>
      void (await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)))),
  ],
  ["running voltage", (page) => page.click("#cw-open-running-test")],
  ["the diode check", (page) => page.click("#cw-open-diode-check")],
  ["key-off draw", (page) => page.click("#cw-open-key-off-draw")],
  ["machine data", (page) => page.click("#cw-open-facts")],
  ["proof after repair", (page) => page.click("#cw-open-proof")],
  ["the ticket", (page) => page.click("#cw-open-ticket")],
  ["known-good parts", (page) => page.click("[data-section=knownGood]")],
  [
    "a table of the user's own",
    async (page) => {
      await page.evaluate(() =>
        window.pane.workbook.select({ sheet: "Fleet", row: 6, column: 1, rows: 1, columns: 1 }),
      );
      await page.click("[data-section=tables]");
      await page.click(".cw-adopt > button");
      await page.waitForSelector(".cw-adopt-columns");
      await page.evaluate(() => document.querySelectorAll("details").forEach((d) => (d.open = true)));
    },
  ],
  ["settings", (page) => page.click("[data-section=settings]")],
];

async function violations(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  return page.evaluate(async () => {
    const axe = (
      window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }
    ).axe;
    const { violations } = await axe.run();
    return violations.flatMap((violation) =>
      violation.nodes.map((node) => `${violation.id}: ${node.html.slice(0, 160)}`),
    );
  });
}

for (const [name, go] of VIEWS) {
  describe(name, () => {
    for (const [dark, language] of [
      [false, "en"],
      [true, "en"],
      [false, "es"],
    ] as const) {
      it(`[axe-core] has no violation in ${dark ? "dark" : "light"}, ${language}`, async () => {
        const { page } = await pages.open({ demo: true, dark, language });
        await go(page);
        expect(await violations(page)).toEqual([]);
        await page.close();
      });
    }

    it("[WCAG 2.1 1.4.10 and 1.4.4] needs no sideways scrolling at 320 px, nor with text twice as large", async () => {
      const { page } = await pages.open({ demo: true, width: 320, language: "es" });
      await go(page);
      const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
      expect(await wide()).toBeLessThanOrEqual(320);
      await page.setViewportSize({ width: 640, height: 900 });
      await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
      expect(await wide()).toBeLessThanOrEqual(640);
      await page.close();
    });
  });
}

describe("on paper", () => {
  it("[axe-core] what a dark screen prints is dark on light", async () => {
    const { page } = await pages.open({ demo: true, dark: true });
    await page.click("#cw-open-diode-check");
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    expect(await violations(page)).toEqual([]);
    const [ink, paper] = await page.evaluate(() => {
      const style = getComputedStyle(document.querySelector(".cw-pane")!);
      return [style.color, style.backgroundColor];
    });
    expect([ink, paper]).toEqual(["rgb(0, 0, 0)", "rgb(255, 255, 255)"]);
    await page.close();
  });
});

describe("states", () => {
  it("are told by a word and a shape, and by more than colour", async () => {
    const { page } = await pages.open({ demo: true });
    const states = await page.evaluate(() =>
      [...document.querySelectorAll(".cw-state")].map((mark) => ({
        word: mark.textContent!.trim(),
        drawn: mark.querySelector("svg")!.innerHTML,
      })),
    );
    const shapes = new Map(states.map(({ word, drawn }) => [word, drawn]));
    // Of a reading, and of a part: no two states that can stand in the same place look alike in grey.
    for (const family of [
      ["pass", "fail", "unsure", "not read"],
      ["serviceable", "faulty", "suspect", "unproven"],
    ]) {
      const shown = family.filter((word) => shapes.has(word));
      expect(shown.length).toBeGreaterThan(1);
      expect(new Set(shown.map((word) => shapes.get(word))).size).toBe(shown.length);
    }
    await page.close();
  });
});
