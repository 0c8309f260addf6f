import { DesktopRibbonService } from "@univerjs/preset-sheets-core";

/** A group, an item or a command of the ribbon, as far as it is looked at. */
interface Entry {
  readonly key: string;
  readonly item?: object;
  readonly children?: readonly Entry[];
}

/** What is used of the service behind the ribbon. */
interface Ribbon {
  readonly _ribbon$: { getValue(): readonly Entry[] };
  _setRibbon(entries: readonly Entry[]): void;
}

let stands = false;

/**
 * The grid makes its whole ribbon anew, some three hundred parts of the page, whenever a cell begins or ends to be
 * typed into, though the same commands come out. With this it is made anew when others do.
 */
export function letRibbonStand(): void {
  const ribbon = DesktopRibbonService.prototype as unknown as Partial<Ribbon>;
  const set = ribbon._setRibbon as ((this: Ribbon, entries: readonly Entry[]) => void) | undefined;
  if (stands || !set) return;
  stands = true;
  ribbon._setRibbon = function (this: Ribbon, entries) {
    if (!sameEntries(this._ribbon$.getValue(), entries)) set.call(this, entries);
  };
}

function sameEntries(some: readonly Entry[] = [], others: readonly Entry[] = []): boolean {
  return some.length === others.length && some.every((entry, i) => sameEntry(entry, others[i]!));
}

function sameEntry(one: Entry, other: Entry): boolean {
  return one.key === other.key && one.item === other.item && sameEntries(one.children, other.children);
}
