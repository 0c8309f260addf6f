import { isBlank, type Block, type Cell } from "../cell";
import { fail, ok, type Result } from "../result";
import { withUnitsBelow } from "./table-shape";

/** A fleet's table taken apart. */
export interface NamedTable {
  readonly header: readonly Cell[];
  readonly rows: Block;
  /** True where the names came apart from the table. */
  readonly named: boolean;
}

/** Header and rows of a table; with `names` the table is rows alone. Of a row of units a blank one is left. */
export function namedTable(table: Block, names: Block): Result<NamedTable> {
  const header = names.flat();
  if (header.every(isBlank)) {
    const rows = table.slice(1);
    const whole = withUnitsBelow(table[0] ?? [], rows[0]);
    if (whole) rows[0] = whole.map(() => "");
    return ok({ header: whole ?? table[0] ?? [], rows, named: false });
  }
  const columns = table[0]?.length ?? 0;
  if (header.length === columns) return ok({ header, rows: table, named: true });
  return fail({
    code: "shape",
    what: "names",
    came: `${header.length} names for ${columns} columns`,
    expected: "one name for each column of the table, blank for a column to leave out",
  });
}
