import { distance } from "fastest-levenshtein";
import { isoDate } from "../dates";
import { at, type Columns, type Place } from "./duplicate-rows";
import type { Hear } from "./types";
import type { LoggedMachine, VisitLog } from "./visit-log";

/** One machine under one name, as places in the log. */
interface Named {
  readonly serials: readonly number[];
  readonly count: number;
  readonly first: number;
  readonly last: number;
}

/**
 * Machines that may be one under two names: one serial number, names that differ only in spaces,
 * marks, capitals or leading zeros, or in one letter. They are proposed and never merged; numbers in a
 * name tell machines apart and are never guessed.
 */
export class Renames {
  private readonly machines: Named[] = [];

  constructor(private readonly log: VisitLog) {}

  look({ places }: LoggedMachine): void {
    const serials = new Set<number>();
    for (const place of places) if (this.log.serialAt(place) !== NO_SERIAL) serials.add(this.log.serialAt(place));
    this.machines.push({ serials: [...serials], count: places.length, first: places[0]!, last: places.at(-1)! });
  }

  propose(columns: Columns, place: Place, hear: Hear): void {
    const proposed = new Set<string>();
    const propose = (a: Named, b: Named, column: string, why: string) => {
      const [earlier, later] = this.comesFirst(a, b) ? [a, b] : [b, a];
      const key = `${earlier.first} ${later.first}`;
      if (proposed.has(key)) return;
      proposed.add(key);
      const [before, after] = [this.log.at(earlier.first), this.log.at(later.first)];
      const since = this.followsOn(earlier, later)
        ? ` From ${isoDate(after.day!)} on only this name comes: renamed?`
        : " One machine under two names?";
      hear({
        ...at(after, this.nameOf(later), columns(column, after)),
        kind: "renamed machine",
        what: `${why} ${this.nameOf(earlier)} (${earlier.count} ${earlier.count === 1 ? "row" : "rows"}, first in ${place(before)}).${since} They were taken as two.`,
      });
    };
    for (const [a, b] of this.oneSerial()) propose(a, b, "machine-serial", "the serial number is that of");
    for (const [a, b, why] of this.alikeNames()) propose(a, b, "machine-name", why);
  }

  private nameOf({ first }: Named): string {
    return this.log.machineAt(first);
  }

  private *oneSerial(): Generator<readonly [Named, Named]> {
    const first = new Map<number, Named>();
    for (const machine of this.machines) {
      for (const serial of machine.serials) {
        const before = first.get(serial);
        if (before) yield [before, machine];
        else first.set(serial, machine);
      }
    }
  }

  private *alikeNames(): Generator<readonly [Named, Named, string]> {
    // What tells machines apart must be the same: most names are compared with none.
    const groups = new Map<string, Named[]>();
    for (const machine of this.machines) {
      const { telltales } = nameParts(this.nameOf(machine));
      const group = groups.get(telltales);
      if (group) group.push(machine);
      else groups.set(telltales, [machine]);
    }
    for (const group of groups.values()) if (group.length > 1) yield* this.alikeIn(group);
  }

  private *alikeIn(group: readonly Named[]): Generator<readonly [Named, Named, string]> {
    // Words that are one slip apart are the same once one letter is left out of either.
    const index = new Map<string, { letters: string; machine: Named }[]>();
    for (const machine of group) {
      const { letters } = nameParts(this.nameOf(machine));
      const met = new Set<Named>();
      for (const short of [letters, ...lessOneLetter(letters)]) {
        const there = index.get(short) ?? [];
        for (const other of there) {
          if (met.has(other.machine) || other.machine === machine) continue;
          met.add(other.machine);
          // Two machines with serial numbers of their own are two, however alike their names.
          if (machine.serials.length > 0 && other.machine.serials.length > 0) continue;
          if (other.letters === letters)
            yield [other.machine, machine, "but for spaces, marks, accents or zeros the name is that of"];
          else if (oneSlip(other.letters, letters))
            yield [other.machine, machine, "the name is but one letter from that of"];
        }
        there.push({ letters, machine });
        index.set(short, there);
      }
    }
  }

  private comesFirst(a: Named, b: Named): boolean {
    const day = ({ first }: Named) => this.log.at(first).day ?? 0;
    if (day(a) !== day(b)) return day(a) < day(b);
    // The rarer of two spellings that begin together is the slip.
    return a.count >= b.count;
  }

  private followsOn(earlier: Named, later: Named): boolean {
    const [last, first] = [this.log.at(earlier.last).day, this.log.at(later.first).day];
    return last !== undefined && first !== undefined && first > last && later.count >= 2;
  }
}

const NO_SERIAL = 0;

function lessOneLetter(letters: string): string[] {
  return Array.from(letters, (_, i) => letters.slice(0, i) + letters.slice(i + 1));
}

/** What tells machines apart (numbers without leading zeros, single letters), and the letters of the words. */
export function nameParts(name: string): { readonly telltales: string; readonly letters: string } {
  const plain = name.normalize("NFKD").replaceAll(/\p{M}/gu, "").toLowerCase();
  const pieces = plain.match(/\d+|\p{L}+/gu) ?? [];
  const single = (piece: string) => /^\d/u.test(piece) || piece.length === 1;
  return {
    telltales: pieces
      .filter(single)
      .map((piece) => piece.replace(/^0+(?=\d)/u, ""))
      .join(" "),
    letters: pieces.filter((piece) => !single(piece)).join(""),
  };
}

/** One letter wrong, missing, too many, or two neighbours swapped, in a word long enough to tell. */
function oneSlip(a: string, b: string): boolean {
  if (Math.max(a.length, b.length) < 4 || Math.abs(a.length - b.length) > 1) return false;
  const apart = distance(a, b);
  return apart === 1 || (apart === 2 && a.length === b.length && swapped(a, b));
}

function swapped(a: string, b: string): boolean {
  const i = [...a].findIndex((letter, k) => letter !== b[k]);
  return a.slice(0, i) + a[i + 1] + a[i] + a.slice(i + 2) === b;
}
