import { distance } from "fastest-levenshtein";
import { isoDate } from "../dates";
import { at, type Columns, type Place } from "./duplicate-rows";
import type { FleetVisit, MachineVisits, Notice } from "./types";

interface Named {
  readonly machine: string;
  readonly serials: readonly string[];
  readonly count: number;
  readonly first: FleetVisit;
  readonly last: FleetVisit;
}

/**
 * Machines that may be one under two names: one serial number, names that differ only in spaces,
 * marks, capitals or leading zeros, or in one letter. They are proposed and never merged; numbers in a
 * name tell machines apart and are never guessed.
 */
export class Renames {
  private readonly machines: Named[] = [];

  look({ machine, visits }: MachineVisits): void {
    const serials = [...new Set(visits.map((visit) => visit.serial.toLowerCase()).filter((serial) => serial !== ""))];
    this.machines.push({ machine, serials, count: visits.length, first: visits[0]!, last: visits.at(-1)! });
  }

  notices(columns: Columns, place: Place): readonly Notice[] {
    const proposed = new Set<string>();
    const notices: Notice[] = [];
    const propose = (a: Named, b: Named, column: string, why: string) => {
      const [earlier, later] = comesFirst(a, b) ? [a, b] : [b, a];
      const key = `${earlier.machine}\n${later.machine}`;
      if (proposed.has(key)) return;
      proposed.add(key);
      const since = followsOn(earlier, later)
        ? ` From ${isoDate(later.first.day!)} on only this name comes: renamed?`
        : " One machine under two names?";
      notices.push({
        ...at(later.first, later.machine, columns(column, later.first)),
        kind: "renamed machine",
        what: `${why} ${earlier.machine} (${earlier.count} ${earlier.count === 1 ? "row" : "rows"}, first in ${place(earlier.first)}).${since} They were taken as two.`,
      });
    };
    for (const [a, b] of this.oneSerial()) propose(a, b, "machine-serial", "the serial number is that of");
    for (const [a, b, why] of this.alikeNames()) propose(a, b, "machine-name", why);
    return notices;
  }

  private *oneSerial(): Generator<readonly [Named, Named]> {
    const first = new Map<string, Named>();
    for (const machine of this.machines) {
      for (const serial of machine.serials) {
        const before = first.get(serial);
        if (before) yield [before, machine];
        else first.set(serial, machine);
      }
    }
  }

  private *alikeNames(): Generator<readonly [Named, Named, string]> {
    // Words that are one slip apart are the same once one letter is left out of either.
    const index = new Map<string, { letters: string; machine: Named }[]>();
    for (const machine of this.machines) {
      const { telltales, letters } = nameParts(machine.machine);
      const met = new Set<Named>();
      for (const short of [letters, ...lessOneLetter(letters)]) {
        const key = `${telltales}\n${short}`;
        const there = index.get(key) ?? [];
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
        index.set(key, there);
      }
    }
  }
}

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

function comesFirst(a: Named, b: Named): boolean {
  const [dayA, dayB] = [a.first.day ?? 0, b.first.day ?? 0];
  if (dayA !== dayB) return dayA < dayB;
  // The rarer of two spellings that begin together is the slip.
  return a.count >= b.count;
}

function followsOn(earlier: Named, later: Named): boolean {
  return (
    earlier.last.day !== undefined &&
    later.first.day !== undefined &&
    later.first.day > earlier.last.day &&
    later.count >= 2
  );
}
