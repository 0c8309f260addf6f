import type { RowResult } from "./audit-chunk";

/**
 * Which rows are the latest visit of their machine: a machine that came more than once is judged by
 * the last time. Of several visits on one day the later row counts; a row without a name stands for itself, and
 * one in which nothing was read says nothing of a machine that was read before.
 */
export class LatestVisits {
  /** Name of each machine and its place in the two columns below. */
  private readonly machines = new Map<string, number>();
  private readonly places: number[] = [];
  private readonly days: number[] = [];
  private rows = 0;

  add({ machine, day, state }: RowResult): void {
    const place = this.rows++;
    const visited = state === "not read" ? -1 : (day ?? 0);
    const known = machine === "" ? undefined : this.machines.get(machine.toLowerCase());
    if (known === undefined) {
      if (machine !== "") this.machines.set(machine.toLowerCase(), this.places.length);
      this.places.push(place);
      this.days.push(visited);
    } else if (visited >= this.days[known]!) {
      this.places[known] = place;
      this.days[known] = visited;
    }
  }

  /** One number a row, in the order in which they were added: 1 for the latest visit of its machine. */
  marks(): Uint8Array {
    const marks = new Uint8Array(this.rows);
    for (const place of this.places) marks[place] = 1;
    return marks;
  }
}
