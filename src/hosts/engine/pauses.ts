import { IConfigService, type Injector } from "@univerjs/core";
import { ENGINE_FORMULA_PLUGIN_CONFIG_KEY } from "@univerjs/engine-formula";

/** A page that does not answer for longer than this is felt to be stuck; a pause costs a whole drawing. */
const LONGEST_WITHOUT_PAUSE_MS = 200;

/**
 * When the engine lets go between two formulas, so that the page can draw and take keys. It would do so
 * before the first formula of every calculation and after each 500: the page then drew what was typed,
 * and drew it all again when its judgement came a moment later. With this a calculation pauses by the
 * clock, and one of a few hundred formulas not at all.
 */
export class Pauses {
  private since = Number.NEGATIVE_INFINITY;

  constructor(injector: Injector) {
    injector
      .get(IConfigService)
      .setConfig(
        ENGINE_FORMULA_PLUGIN_CONFIG_KEY,
        { intervalCount: this.interval as unknown as number },
        { merge: true },
      );
  }

  /** From here on the page is kept from its other work. */
  start(): void {
    this.since = performance.now();
  }

  /**
   * The engine pauses where the number of the formula divided by this leaves nothing: always with one,
   * never with what is no number. It asks before each formula.
   */
  private readonly interval = {
    valueOf: (): number => {
      const now = performance.now();
      if (now - this.since < LONGEST_WITHOUT_PAUSE_MS) return Number.NaN;
      this.since = now;
      return 1;
    },
  };
}
