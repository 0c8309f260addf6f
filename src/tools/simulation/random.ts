/** A generator of numbers that gives the same row for the same seed on every machine. */
export class Random {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
  }

  /** The next number, 0 up to but not 1 (mulberry32). */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** Evenly spread in logarithm. */
  logBetween(low: number, high: number): number {
    return low * (high / low) ** this.next();
  }

  integer(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  /** A whole number from 0 up to but not `n`. */
  below(n: number): number {
    return Math.floor(this.next() * n);
  }

  normal(mean: number, sd: number): number {
    return mean + sd * Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next());
  }

  chance(p: number): boolean {
    return this.next() < p;
  }

  pick<T>(list: readonly T[]): T {
    return list[this.below(list.length)]!;
  }

  /** One of the keys, as often as its weight says. */
  weighted<K extends string>(weights: Readonly<Record<K, number>>): K {
    const entries = Object.entries(weights) as [K, number][];
    let left = this.next() * entries.reduce((sum, [, w]) => sum + w, 0);
    for (const [key, weight] of entries) if ((left -= weight) < 0) return key;
    return entries.at(-1)![0];
  }
}
