import type { BrowserContext, Page } from "playwright-core";

/**
 * Asks for a frame all the time. Left to itself the packed browser sometimes draws none for half a
 * minute while its timers go on, and what waits for a frame waits with it, such as a click on a button
 * that must have come to rest.
 */
export async function keepDrawing(pages: Page | BrowserContext): Promise<void> {
  await pages.addInitScript(() => {
    const frame = window.requestAnimationFrame.bind(window);
    const again = (): void => void frame(again);
    again();
  });
}
