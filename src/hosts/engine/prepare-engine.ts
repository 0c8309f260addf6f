import type { Injector } from "@univerjs/core";
import { cutArraysBetweenCells } from "./array-text";
import { calculateAtOnce } from "./calculate-at-once";
import { compareCellByCell, guardInterpreter, skipIdleAddressSearch } from "./guard";
import { clearSpentMessages } from "./messages";
import { followChangedSpills } from "./spills-that-changed";

/** What the engine of every workbook needs, with a screen or without, before the first calculation. */
export function prepareEngine(injector: Injector): void {
  compareCellByCell();
  cutArraysBetweenCells();
  guardInterpreter(injector);
  skipIdleAddressSearch(injector);
  clearSpentMessages(injector);
  followChangedSpills(injector);
  calculateAtOnce(injector);
}
