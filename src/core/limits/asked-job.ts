import type { Measured } from "../readings/types";
import type { Fault } from "../result";

/**
 * A job that notes whether it was asked for a value which stands there and cannot be read. What does not ask for it
 * can be judged; what does ask would take the value for unknown, and judge by a default that may be wrong.
 */
export class AskedJob extends Map<string, Measured> {
  #asked: Fault | undefined;

  /**
   * @param job - What can be read
   * @param unread - Why the others cannot, by catalogue id
   */
  constructor(
    job: Iterable<readonly [string, Measured]>,
    private readonly unread: ReadonlyMap<string, Fault>,
  ) {
    super(job);
  }

  /** What is wrong with the first value that was asked for in vain. */
  get fault(): Fault | undefined {
    return this.#asked;
  }

  override get(id: string): Measured | undefined {
    this.#ask(id);
    return super.get(id);
  }

  override has(id: string): boolean {
    this.#ask(id);
    return super.has(id);
  }

  /** Whoever copies the job may ask the copy for anything. */
  override [Symbol.iterator](): MapIterator<[string, Measured]> {
    for (const id of this.unread.keys()) this.#ask(id);
    return super[Symbol.iterator]();
  }

  #ask(id: string): void {
    this.#asked ??= this.unread.get(id);
  }
}
