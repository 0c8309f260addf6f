import { resolveThemeColor, type CellStyle } from "hucre/xlsx";
import type { Area, CellFormat, Step } from "../../workbook/port";

type Colour = NonNullable<NonNullable<CellStyle["font"]>["color"]>;

/** What the steps can say of a cell's look in a file. */
export function formatOf(style: CellStyle, theme: readonly string[] | undefined): CellFormat {
  const { font, fill, border, alignment, numFmt } = style;
  const colour = hexOf(font?.color, theme);
  const ground = fill?.type === "pattern" && fill.pattern === "solid" ? hexOf(fill.fgColor, theme) : undefined;
  const lines = border && (border.top && border.left ? "all" : border.bottom ? "bottom" : undefined);
  const across = alignment?.horizontal;
  const down = alignment?.vertical;
  return {
    ...(font?.bold ? { bold: true } : {}),
    ...(font?.italic ? { italic: true } : {}),
    ...(font?.size === undefined ? {} : { size: font.size }),
    ...(colour === undefined ? {} : { colour }),
    ...(ground === undefined ? {} : { fill: ground }),
    ...(across === "left" || across === "center" || across === "right" ? { align: across } : {}),
    ...(down === "top" || down === "bottom" ? { vertical: down } : down === "center" ? { vertical: "middle" } : {}),
    ...(alignment?.wrapText ? { wrap: true } : {}),
    ...(numFmt === undefined || numFmt === "General" ? {} : { number: numFmt }),
    ...(lines ? { border: lines } : {}),
  };
}

/** What of a look the steps have no word for; it is named to the user. */
export function lostLook({ font, fill, alignment }: CellStyle): string | undefined {
  if (font?.underline || font?.strikethrough || font?.vertAlign) return "underlined, struck-through or raised text";
  if (fill?.type === "gradient" || (fill?.type === "pattern" && !["none", "solid"].includes(fill.pattern)))
    return "patterned fills";
  if (alignment?.textRotation) return "turned text";
  return undefined;
}

export function hexOf(colour: Colour | undefined, theme: readonly string[] | undefined): string | undefined {
  const rgb =
    colour?.theme !== undefined && theme ? resolveThemeColor([...theme], colour.theme, colour.tint) : colour?.rgb;
  // Files write an alpha in front of the six digits.
  return /^(?:[0-9a-f]{2})?([0-9a-f]{6})$/iu.exec(rgb ?? "")?.[1]?.toUpperCase();
}

/** Cells of one row that look alike make one step. */
export function formatSteps(
  sheet: string,
  looks: ReadonlyMap<number, ReadonlyMap<number, CellFormat>>,
): (Step & { do: "format" })[] {
  const steps: (Step & { do: "format" })[] = [];
  for (const [row, line] of [...looks].sort(([a], [b]) => a - b)) {
    let run: { at: Area; format: CellFormat; key: string } | undefined;
    const close = () => {
      if (run) steps.push({ do: "format", at: run.at, format: run.format });
    };
    for (const [column, format] of [...line].sort(([a], [b]) => a - b)) {
      const key = JSON.stringify(format);
      if (run?.key === key && run.at.column + run.at.columns === column) {
        run = { ...run, at: { ...run.at, columns: run.at.columns + 1 } };
        continue;
      }
      close();
      run = key === "{}" ? undefined : { at: { sheet, row, column, rows: 1, columns: 1 }, format, key };
    }
    close();
  }
  return steps;
}
