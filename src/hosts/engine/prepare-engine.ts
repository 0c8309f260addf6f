import type { Injector } from "@univerjs/core";
import { cutArraysBetweenCells } from "./array-text";
import { calculateAtOnce } from "./calculate-at-once";
import { compareCellByCell, guardInterpreter, guardSteps, skipIdleAddressSearch } from "./guard";
import { keepDependencies } from "./kept-dependencies";
import { clearSpentMessages } from "./messages";
import type { PutOff } from "./put-off";
import { listSpillsOnce } from "./spills-in-the-way";
import { followChangedSpills } from "./spills-that-changed";

/**
 * What the engine of every workbook needs, with a screen or without, before the first calculation.
 *
 * @param putOff - By which its functions may put a calculation off
 */
export function prepareEngine(injector: Injector, putOff?: PutOff): void {
  compareCellByCell();
  cutArraysBetweenCells();
  guardInterpreter(injector);
  guardSteps(injector);
  skipIdleAddressSearch(injector);
  clearSpentMessages(injector);
  keepDependencies(injector);
  followChangedSpills(injector);
  listSpillsOnce(injector);
  calculateAtOnce(injector, putOff);
}
