import { isBlank, type Cell } from "../../cell";
import { isBareNumber } from "../../readings/from-cells";
import type { QuantityEntry } from "../../readings/types";
import { toUnit } from "../../readings/units";
import type { Notice } from "./types";

interface Seen {
  count: number;
  row: number;
  machine: string;
}

/**
 * Counts in which units the cells of one column are written. Each is read in its own unit; that
 * they differ is said, because a column of two units is where the next slip comes from.
 */
export class UnitTally {
  private readonly seen = new Map<string, Seen>();
  /** What a unit word comes to, by the word as written. */
  private readonly known = new Map<string, string>();

  constructor(
    private readonly entry: QuantityEntry,
    private readonly headerUnit: string | undefined,
    private readonly header: string,
    private readonly file: number,
  ) {}

  /** @returns True for a bare number in a column of the catalogue's own unit */
  add(cell: Cell, row: number, machine: string): boolean {
    const bare = isBareNumber(cell);
    const unit = bare ? this.named(this.headerUnit ?? "") : this.unitOf(String(cell));
    if (unit === undefined) return false;
    const seen = this.seen.get(unit);
    if (seen) seen.count += 1;
    else this.seen.set(unit, { count: 1, row, machine });
    return bare && unit === this.entry.unit;
  }

  notices(): readonly Notice[] {
    if (this.seen.size < 2) return [];
    const [usual, ...others] = [...this.seen].sort(([, a], [, b]) => b.count - a.count);
    return others.map(([unit, { count, row, machine }]) => ({
      file: this.file,
      row,
      column: this.header,
      machine,
      kind: "mixed units",
      what: `${count} ${count === 1 ? "cell is" : "cells are"} written in ${unit}, from this row on, the other ${usual![1].count} in ${usual![0]}; each was read in its own unit.`,
    }));
  }

  private unitOf(text: string): string | undefined {
    const word = /^[^\d]{0,3}[\d.,]+\s*([^\s\d(;#@]+)/u.exec(text.trim())?.[1];
    return word === undefined || isBlank(word) ? undefined : this.named(word);
  }

  /** One name for a unit however it is spelled, by what one of it comes to. */
  private named(word: string): string | undefined {
    const before = this.known.get(word);
    if (before !== undefined) return before === "" ? undefined : before;
    const one = toUnit(1, word, this.entry.unit, this.entry.label);
    const two = toUnit(2, word, this.entry.unit, this.entry.label);
    let name = "";
    if (one.ok && two.ok) {
      name = one.value === 1 && two.value === 2 ? this.entry.unit : word;
      for (const [other, named] of this.known) {
        const same = toUnit(1, other, this.entry.unit, this.entry.label);
        if (named !== "" && same.ok && same.value === one.value) name = named;
      }
    }
    this.known.set(word, name);
    return name === "" ? undefined : name;
  }
}
