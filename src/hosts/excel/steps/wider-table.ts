import { areaName } from "../../../workbook/address";
import { WorkbookFault, type Area } from "../../../workbook/port";
import type { Prepared, Scope } from "./scope";

/** Takes columns at its right into a table; another table or merged cells there stop it. */
export function prepareWiderTable(scope: Scope, at: Area, name: string, by: number): Prepared {
  const wide = { ...at, columns: at.columns + by };
  const here = scope.range(wide).getTables(false);
  here.load("items/name");
  scope.askMerged(at.sheet);
  scope.askProtection(at.sheet);
  const isIt = (table: Excel.Table) => table.name.toUpperCase() === name.toUpperCase();
  const resize = (area: Area) => here.items.find(isIt)?.resize(scope.range(area));
  return {
    weight: 1,
    carryOut: () => void resize(wide),
    refusal: () => {
      const fault = scope.protectedFault(at.sheet);
      if (fault) return fault;
      if (!here.items.some(isIt)) return new WorkbookFault(`There is no table ${name} at ${areaName(at)}.`, "missing");
      const other = here.items.find((table) => !isIt(table));
      if (other) return new WorkbookFault(`The table ${other.name} stands beside ${name}.`, "occupied");
      const merged = scope.mergedIn(wide)[0];
      return merged
        ? new WorkbookFault(
            `A table cannot hold the merged cells ${areaName({ sheet: at.sheet, ...merged })}. Unmerge them and try again.`,
            "merged",
          )
        : undefined;
    },
    putBack: () => void resize(at),
  };
}
