/** What decides who comes in first. */
export interface RiskKey {
  readonly state: string;
  readonly part: string;
  /** Days until it is not counted on to start [d]. */
  readonly days?: number | null | undefined;
  readonly chance?: number | null | undefined;
}

/** Worst first: proven before suspect before open questions. */
const URGENCY: Readonly<Record<string, number>> = {
  faulty: 0,
  suspect: 1,
  unproven: 3,
  "not understood": 4,
  "not read": 5,
  serviceable: 6,
};
/** A machine that will be flat within the week goes right behind the suspects, whatever is at fault [d]. */
const SOON = 7;

/**
 * The order in which to bring machines in: by state, then who is flat first, then the chance of a
 * fault; rows that are alike keep their order.
 *
 * @returns Place of each row, from 1
 */
export function riskOrder(keys: Iterable<RiskKey>): Uint32Array {
  const ranking = new RiskRanking();
  for (const key of keys) ranking.add(key);
  return ranking.order();
}

/** The same, row by row: of a long table three numbers a row are kept. */
export class RiskRanking {
  private readonly urgency: number[] = [];
  private readonly days: number[] = [];
  private readonly chance: number[] = [];

  add(key: RiskKey): void {
    const soon = typeof key.days === "number" && key.days <= SOON;
    const open = key.part === "none" && key.state === "unproven" ? 0.5 : 0;
    this.urgency.push(Math.min((URGENCY[key.state] ?? 5) + open, soon ? 2 : Infinity));
    this.days.push(key.days ?? Infinity);
    this.chance.push(typeof key.chance !== "number" ? 0 : key.part === "none" ? 1 - key.chance : key.chance);
  }

  order(): Uint32Array {
    const { urgency, days, chance } = this;
    const places = Uint32Array.from(urgency.keys());
    const byDays = (a: number, b: number) => (days[a] === days[b] ? 0 : days[a]! - days[b]!);
    places.sort((a, b) => urgency[a]! - urgency[b]! || byDays(a, b) || chance[b]! - chance[a]! || a - b);
    const order = new Uint32Array(places.length);
    places.forEach((at, place) => (order[at] = place + 1));
    return order;
  }
}
