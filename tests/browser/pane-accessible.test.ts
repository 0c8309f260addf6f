import type { Page } from "playwright-core";
import { joinPage } from "../../src/local/join-page";
import { joinWords } from "../../src/local/join-words";
import { PanePages } from "../pane/open-pane";
import { violations } from "./axe";

jest.setTimeout(240_000);

const pages = new PanePages();
let english: Page;
let spanish: Page;
beforeAll(async () => {
  await pages.start();
  [english, spanish] = await Promise.all([
    pages.open({ demo: true }).then(({ page }) => page),
    pages.open({ demo: true, language: "es" }).then(({ page }) => page),
  ]);
});
afterAll(() => pages.stop());

/** From wherever the test before was, to the job as it first comes up. */
async function toTheJob(page: Page): Promise<void> {
  await page.click("[data-section=settings]");
  await page.click("[data-section=job]");
  await page.waitForSelector(".cw-answer");
}

const unfold = (page: Page) =>
  page.evaluate(() => document.querySelectorAll("details").forEach((details) => (details.open = true)));

/** Every view of the pane, by what a person clicks to get there from the job. */
const VIEWS: readonly (readonly [name: string, go: (page: Page) => Promise<unknown>])[] = [
  // The job picker, the answer with its reasons, the list of checks, the visits with what is compared.
  ["the job, all of it unfolded", unfold],
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
      await unfold(page);
    },
  ],
  ["settings", (page) => page.click("[data-section=settings]")],
  [
    "what went wrong",
    async (page) => {
      await page.click("#cw-open-running-test");
      const field = page.locator('[data-entry="test-voltage"]');
      await field.fill("14..2");
      await field.press("Enter");
      await page.waitForSelector('[data-reading="test-voltage"] [role="alert"]');
      await page.evaluate(() => {
        window.pane.workbook.failNext = 'There is no sheet "Job" in this workbook.';
      });
      await field.fill("14.2");
      await field.press("Enter");
      await page.waitForSelector(".cw-failure");
    },
  ],
];

describe.each(VIEWS)("%s", (_, go) => {
  it("[axe-core] has no violation in English in the light, in Spanish in the dark", async () => {
    for (const [page, colorScheme] of [
      [english, "light"],
      [spanish, "dark"],
    ] as const) {
      await page.emulateMedia({ colorScheme });
      await toTheJob(page);
      await go(page);
      expect(await violations(page)).toEqual([]);
    }
    // The same page in the other colours: nothing but contrast can differ.
    await english.emulateMedia({ colorScheme: "dark" });
    expect(await violations(english, undefined, ["color-contrast"])).toEqual([]);
  });

  it("[WCAG 2.1 1.4.10 and 1.4.4] needs no sideways scrolling at 320 px, nor with text twice as large", async () => {
    await toTheJob(spanish);
    await go(spanish);
    const wide = () => spanish.evaluate(() => document.documentElement.scrollWidth);
    await spanish.setViewportSize({ width: 320, height: 900 });
    expect(await wide()).toBeLessThanOrEqual(320);
    await spanish.setViewportSize({ width: 640, height: 900 });
    await spanish.evaluate(() => (document.documentElement.style.fontSize = "200%"));
    expect(await wide()).toBeLessThanOrEqual(640);
    await spanish.evaluate(() => (document.documentElement.style.fontSize = ""));
    await spanish.setViewportSize({ width: 400, height: 900 });
  });
});

describe("the way round the pane", () => {
  it.each([
    ["en", 320],
    ["es", 350],
    ["es", 500],
  ] as const)("is whole in %s at %i px: one line of views, no word cut off, the job's name in full", async (...at) => {
    const [language, width] = at;
    const page = language === "en" ? english : spanish;
    await page.setViewportSize({ width, height: 900 });
    await toTheJob(page);
    const { tops, cut, picker, bar } = await page.evaluate(() => {
      const buttons = [...document.querySelectorAll<HTMLElement>(".cw-nav button")];
      const select = document.querySelector(".cw-job-bar select")!;
      return {
        tops: new Set(buttons.map((button) => Math.round(button.getBoundingClientRect().top))).size,
        cut: buttons.filter((button) => button.scrollWidth > button.clientWidth).map((button) => button.innerText),
        picker: select.getBoundingClientRect().width,
        bar: document.querySelector("main")!.getBoundingClientRect().width,
      };
    });
    expect([tops, cut]).toEqual([1, []]);
    expect(picker).toBeCloseTo(bar, 0);
    await page.setViewportSize({ width: 400, height: 900 });
  });
});

it("[axe-core] finds what is wrong where something is", async () => {
  const { page } = await pages.open();
  await page.setContent('<html lang="en"><title>x</title><main><h1 style="color:#999">Pale</h1><input></main></html>');
  expect((await violations(page)).map((line) => line.split(":")[0])).toEqual(
    expect.arrayContaining(["color-contrast", "label"]),
  );
  await page.close();
});

describe("the workbook without a job, and the page by which a phone comes in", () => {
  it("[axe-core] have no violation in either language and colour", async () => {
    const { page } = await pages.open({ language: "es" });
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await violations(page)).toEqual([]);
    }
    const words = joinWords("es");
    await page.setContent(joinPage(words, words.wrong(1)));
    expect(await page.getByRole("alert").textContent()).toBe("Ese no es el código. Queda un intento.");
    expect(await violations(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: "light" });
    await page.setContent(joinPage(joinWords("de-CH, en;q=0.7, es;q=0.3")));
    expect(await page.getByRole("heading").textContent()).toBe("Join the workbook");
    expect(await violations(page)).toEqual([]);
    await page.close();
  });
});

describe("motion", () => {
  it("[WCAG 2.1 2.3.3] is there only for those who have not asked for less of it", async () => {
    await toTheJob(english);
    await unfold(english);
    const moving = () =>
      english.evaluate(
        () =>
          [...document.querySelectorAll("*")].filter((element) => {
            const { transitionDuration, animationName } = getComputedStyle(element);
            return animationName !== "none" || transitionDuration.split(",").some((time) => parseFloat(time) > 0);
          }).length,
      );
    await english.emulateMedia({ reducedMotion: "no-preference" });
    expect(await moving()).toBeGreaterThan(0);
    await english.emulateMedia({ reducedMotion: "reduce" });
    expect(await moving()).toBe(0);
  });
});

describe("colours", () => {
  it.each(["light", "dark"] as const)(
    "[WCAG 2.1 1.4.3 and 1.4.11] of words and signs stand out enough in the %s",
    async (colorScheme) => {
      await english.emulateMedia({ colorScheme });
      const colours = await english.evaluate(() => {
        const style = getComputedStyle(document.querySelector(".cw-pane")!);
        const names =
          "ink soft accent on-accent pass fail unsure lead-red line ground raised pass-soft fail-soft unsure-soft";
        return Object.fromEntries(names.split(" ").map((name) => [name, style.getPropertyValue(`--${name}`).trim()]));
      });
      const pairs: readonly (readonly [string, string, number])[] = [
        ...["ink", "soft", "accent", "pass", "fail", "unsure"].flatMap((word) => [
          [word, "ground", 4.5] as const,
          [word, "raised", 4.5] as const,
        ]),
        ["ink", "fail-soft", 4.5],
        ["ink", "unsure-soft", 4.5],
        ["unsure", "unsure-soft", 4.5],
        ["on-accent", "accent", 4.5],
        ["lead-red", "ground", 3],
      ];
      const weak = pairs.filter(([one, other, least]) => contrast(colours[one]!, colours[other]!) < least);
      expect(weak).toEqual([]);
    },
  );
});

/** Ratio of two colours `#rrggbb`. @source WCAG 2.1, relative luminance and contrast ratio */
function contrast(one: string, other: string): number {
  const luminance = (colour: string) => {
    const [r, g, b] = [1, 3, 5].map((at) => {
      const c = parseInt(colour.slice(at, at + 2), 16) / 255;
      return c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
  };
  const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light! + 0.05) / (dark! + 0.05);
}

describe("on paper", () => {
  it("[axe-core] what a dark screen prints is dark on light", async () => {
    await english.emulateMedia({ media: "print", colorScheme: "dark" });
    expect(await violations(english, undefined, ["color-contrast"])).toEqual([]);
    const [ink, paper] = await english.evaluate(() => {
      const style = getComputedStyle(document.querySelector(".cw-pane")!);
      return [style.color, style.backgroundColor];
    });
    expect([ink, paper]).toEqual(["rgb(0, 0, 0)", "rgb(255, 255, 255)"]);
    await english.emulateMedia({ media: "screen", colorScheme: "light" });
  });
});

describe("states", () => {
  it("are told by a word and a shape, and by more than colour", async () => {
    await toTheJob(english);
    const states = await english.evaluate(() =>
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
  });
});
