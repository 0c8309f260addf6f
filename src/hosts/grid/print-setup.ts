import type { Worksheet } from "@univerjs/core";
import type { Area, PrintSetup } from "../../workbook/port";

/** The grid does not print; it keeps what a template says of printing for the files made from it. */
export function keepPrint(sheet: Worksheet, at: Area, setup: PrintSetup): void {
  sheet.setCustomMetadata({ ...sheet.getCustomMetadata(), print: { at, setup } });
}

export function printOf(sheet: Worksheet): { at: Area; setup: PrintSetup } | undefined {
  const custom = sheet.getCustomMetadata() as { print?: { at: Area; setup: PrintSetup } } | undefined;
  return custom?.print;
}
