import type { AdoptableTable } from "./adopt-table";
import { auditFormula } from "./audit-formula";
import type { Area, CellWrite, Step } from "./port";

/**
 * Takes the results away again: their cells are emptied and their columns given back, and the table is as it was before
 * them. What was typed over a result stays where it is, and with it the header over it; inside a table its column stays
 * too, and those left of it.
 */
export function planRemoval(table: AdoptableTable): readonly Step[] {
  const { standing, sheet, table: own, headerRow } = table;
  if (!standing) return [];
  const { column, columns } = standing;
  const at = { sheet, row: headerRow, column, rows: standing.rows + 1, columns };
  const typed = typedOver(table);
  const inTable =
    own !== undefined && standing.kind === "row by row" && column + columns === own.at.column + own.at.columns;
  const stay = inTable ? Math.max(0, ...typed.map((cell) => cell.column - column + 1)) : 0;
  const isTyped = (r: number, c: number) =>
    typed.some((cell) => cell.column === column + c && (r === 0 || cell.row === headerRow + r));
  return [
    ...(inTable && stay < columns
      ? [{ do: "widen table", at: own.at, name: own.name, by: stay - columns } as const]
      : []),
    {
      do: "write",
      at,
      // Of a spilled result only its formula is a cell of its own, and headers that were written.
      values: Array.from({ length: at.rows }, (_, r) =>
        Array.from({ length: columns }, (_, c): CellWrite => {
          if ((r === 0 && c < stay) || isTyped(r, c)) return undefined;
          return standing.kind === "row by row" || r === 0 || (r <= 2 && c === 0) ? "" : undefined;
        }),
      ),
    },
  ];
}

/** Cells of results row by row that hold something of the user's own instead of ours. */
export function typedOver({ standing, sheet, firstRow, headerRow, cells }: AdoptableTable): readonly Area[] {
  if (standing?.kind !== "row by row") return [];
  const typed: Area[] = [];
  for (let row = firstRow; row <= headerRow + standing.rows; row++) {
    for (let column = standing.column; column < standing.column + standing.columns; column++) {
      const formula = cells.formulas[row]?.[column] ?? "";
      const value = cells.values[row]?.[column] ?? "";
      if (formula === "" ? value !== "" : !auditFormula(formula))
        typed.push({ sheet, row, column, rows: 1, columns: 1 });
    }
  }
  return typed;
}
