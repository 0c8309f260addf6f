/** What is used of Excel's own library; handed in, so that a stricter stand-in can take its place. */
export interface ExcelHost {
  run<T>(options: Excel.RunOptions, batch: (context: Excel.RequestContext) => Promise<T>): Promise<T>;
  supports(set: string, version: string): boolean;
}

/** Excel as it is on this page. */
export const excelHost: ExcelHost = {
  run: (options, batch) => Excel.run(options, batch),
  supports: (set, version) => Office.context.requirements.isSetSupported(set, version),
};

/** Telling our own edits from those by hand came last, with Excel 2021. */
const NEEDED = { set: "ExcelApi", version: "1.14" } as const;

/** Several writes as one undo step. */
export const UNDO_GROUP = { set: "ExcelApi", version: "1.20" } as const;

/** Cells that open to a card. */
export function hasCards(host: ExcelHost): boolean {
  return host.supports("ExcelApi", "1.16");
}

/** What an Excel that is too old for the pane lacks; `undefined` where it serves. */
export function lackingForPane(host: ExcelHost): string | undefined {
  return host.supports(NEEDED.set, NEEDED.version) ? undefined : `${NEEDED.set} ${NEEDED.version}`;
}
