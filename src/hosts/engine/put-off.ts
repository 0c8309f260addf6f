/** Each time all is calculated anew, and what was waited for may be forgotten again meanwhile: no more often in a row. */
const MOST_IN_A_ROW = 2;

/**
 * Lets a function put the calculation off that asks it, until something it needs has been worked out elsewhere. Nothing
 * of that calculation is written; all is calculated anew then, and what was changed meanwhile with it. The page
 * answers all that time, and no cell holds anything but what its formula gives.
 */
export class PutOff {
  private underWay = false;
  private needed: Promise<unknown> | undefined;
  private inARow = 0;

  /** @param told - Told when something is waited for, and when that has come */
  constructor(private readonly told: (waiting: boolean) => void = () => undefined) {}

  /**
   * @param work - Begins what is needed; called at once, unless the calculation is put off already. May fail
   * @returns False where the function has to answer by itself; else its answer is not looked at
   */
  until(work: () => Promise<unknown>): boolean {
    if (!this.underWay || this.inARow >= MOST_IN_A_ROW) return false;
    this.needed ??= this.waitFor(work());
    return true;
  }

  private async waitFor(needed: Promise<unknown>): Promise<void> {
    this.told(true);
    await needed.catch(() => undefined);
    this.told(false);
  }

  /** Whether the calculation under way has been put off. */
  get asked(): boolean {
    return this.needed !== undefined;
  }

  /** A calculation has begun. */
  began(): void {
    this.underWay = true;
  }

  /** It has ended; gives what it was put off for. */
  ended(): Promise<unknown> | undefined {
    const { needed } = this;
    this.underWay = false;
    this.needed = undefined;
    this.inARow = needed ? this.inARow + 1 : 0;
    return needed;
  }
}
