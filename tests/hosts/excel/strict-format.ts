import { client, OfficeError, type StrictContext } from "./strict-client";
import { PLAIN, type CellState, type Looks, type Rectangle, type SheetState, type StrictBook } from "./strict-book";

export type Find<T> = () => T;
/** Carries out an edit on every cell of a range, unless the sheet is protected. */
export type Change = (edit: (cell: CellState, r: number, c: number) => void) => void;

/** Refuses what a protected sheet refuses. */
export function unprotected(sheet: SheetState): SheetState {
  if (sheet.protected) throw new OfficeError("AccessDenied", "The sheet is protected.");
  return sheet;
}

export function block(book: StrictBook, sheet: SheetState, at: Rectangle): CellState[][] {
  return Array.from({ length: at.rows }, (_, r) =>
    Array.from({ length: at.columns }, (__, c) => book.cell(sheet, at.row + r, at.column + c)),
  );
}

/** Only what was asked for comes back. */
export function picked(looks: Looks, wanted: Record<string, unknown>): object {
  return Object.fromEntries(
    Object.entries(wanted).map(([key, want]) => {
      const value = (looks as unknown as Record<string, unknown>)[key];
      if (value === undefined) throw new OfficeError("InvalidArgument", `Cells have no ${key}.`);
      if (key === "borders") {
        return [
          key,
          Object.fromEntries(
            Object.entries(value as object).map(([side, border]) => [
              side,
              picked(border as Looks, want as Record<string, unknown>),
            ]),
          ),
        ];
      }
      return [key, typeof value === "object" ? picked(value as Looks, want as Record<string, unknown>) : value];
    }),
  );
}

export function setLooks(looks: Looks, given: Partial<Looks>): void {
  for (const [key, value] of Object.entries(given)) {
    if (key === "fill") setFill(looks, value as Partial<Looks["fill"]>);
    else if (key === "borders") {
      for (const [side, border] of Object.entries(value as Looks["borders"])) setBorder(looks, side as "top", border);
    } else if (typeof value === "object") Object.assign(looks[key as "font"], value);
    else Object.assign(looks, { [key]: value });
  }
}

/** A colour makes a fill solid, white included; a pattern of none alone takes the colour away. */
function setFill(looks: Looks, fill: Partial<Looks["fill"]>): void {
  if (fill.color === undefined && fill.pattern === "None") looks.fill = PLAIN().fill;
  else looks.fill = { ...looks.fill, ...fill, pattern: fill.pattern === "None" ? "Solid" : (fill.pattern ?? "Solid") };
}

function setBorder(
  looks: Looks,
  side: "top" | "bottom" | "left" | "right",
  border: Partial<Looks["borders"]["top"]>,
): void {
  looks.borders[side] = border.style === "None" ? PLAIN().borders[side] : { ...looks.borders[side], ...border };
}

export function format(
  context: StrictContext,
  book: StrictBook,
  sheetOf: Find<SheetState>,
  atOf: Find<Rectangle>,
  label: string,
  change: Change,
): object {
  const looks = (edit: (looks: Looks) => void) => change((cell) => edit(cell.looks));
  const setter = (name: string, edit: (looks: Looks, value: never) => void) => (value: never) =>
    looks((one) => edit(one, value)) ?? name;
  return client(context, {
    label: `format of ${label}`,
    read: {
      columnWidth: () => sheetOf().widths.get(atOf().column) ?? 48,
      rowHeight: () => sheetOf().heights.get(atOf().row) ?? 15,
    },
    write: {
      horizontalAlignment: setter("align", (one, value) => (one.horizontalAlignment = value)),
      verticalAlignment: setter("vertical", (one, value) => (one.verticalAlignment = value)),
      wrapText: setter("wrap", (one, value) => (one.wrapText = value)),
      columnWidth: (width: number) => void unprotected(sheetOf()).widths.set(atOf().column, width),
      rowHeight: (height: number) => void unprotected(sheetOf()).heights.set(atOf().row, height),
    },
    part: {
      font: () =>
        client(context, {
          label: `font of ${label}`,
          write: Object.fromEntries(
            ["bold", "italic", "size", "color"].map((name) => [
              name,
              setter(name, (one, value) => Object.assign(one.font, { [name]: value })),
            ]),
          ),
        }),
      fill: () =>
        client(context, {
          label: `fill of ${label}`,
          write: { color: setter("fill", (one, value) => setFill(one, { color: value })) },
        }),
      protection: () =>
        client(context, {
          label: `protection of ${label}`,
          read: {
            locked: () => {
              const all = block(book, sheetOf(), atOf())
                .flat()
                .map((cell) => cell.locked);
              return all.every((one) => one === all[0]) ? all[0]! : null;
            },
          },
        }),
      borders: () => ({ getItem: (side: string) => border(context, atOf, label, change, side) }),
    },
  });
}

function border(context: StrictContext, atOf: Find<Rectangle>, label: string, change: Change, side: string): object {
  const touched = (r: number, c: number): ("top" | "bottom" | "left" | "right")[] => {
    const { rows, columns } = atOf();
    switch (side) {
      case "EdgeTop":
        return r === 0 ? ["top"] : [];
      case "EdgeBottom":
        return r === rows - 1 ? ["bottom"] : [];
      case "EdgeLeft":
        return c === 0 ? ["left"] : [];
      case "EdgeRight":
        return c === columns - 1 ? ["right"] : [];
      case "InsideHorizontal":
        if (rows === 1) throw new OfficeError("InvalidArgument", "One row has no inside lines.");
        return [...(r > 0 ? (["top"] as const) : []), ...(r < rows - 1 ? (["bottom"] as const) : [])];
      case "InsideVertical":
        if (columns === 1) throw new OfficeError("InvalidArgument", "One column has no inside lines.");
        return [...(c > 0 ? (["left"] as const) : []), ...(c < columns - 1 ? (["right"] as const) : [])];
      default:
        throw new OfficeError("InvalidArgument", `There is no side ${side}.`);
    }
  };
  const set = (name: string) => (value: never) =>
    change((cell, r, c) => touched(r, c).forEach((at) => setBorder(cell.looks, at, { [name]: value })));
  return client(context, { label: `${side} of ${label}`, write: { style: set("style"), color: set("color") } });
}
