import { isCellError, type Cell } from "../core/cell";
import { cellName } from "../workbook/address";
import type { Workbook } from "../workbook/port";
import type { Desk } from "./desk";

/** Moving through the sheet asks for nothing; resting on a cell does. */
const RESTING_MS = 150;

/**
 * Says why the selected cell holds an error, which the grid draws without its reason. A cell that passes on
 * the error of another one has none of its own: the workings in its row have it then.
 */
export function tellErrors(desk: Desk, place: HTMLElement): void {
  let told: { readonly workbook: Workbook; readonly stop: () => void } | undefined;
  desk.onChange(() => {
    const { workbook } = desk;
    if (told?.workbook === workbook) return;
    told?.stop();
    told = { workbook, stop: follow(workbook, place) };
  });
}

/** @returns The way to stop */
function follow(workbook: Workbook, place: HTMLElement): () => void {
  let due: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;
  const tell = async () => {
    const mine = ++asked;
    const said = await reasonAt(workbook);
    if (mine === asked && place.textContent !== said) place.textContent = place.title = said;
  };
  const soon = () => {
    clearTimeout(due);
    // What cannot be read just now, as while another workbook is laid here, is asked for with the next event.
    due = setTimeout(() => void tell().catch(() => undefined), RESTING_MS);
  };
  const stops = [workbook.onSelection(soon), workbook.onCalculated(soon)];
  soon();
  return () => {
    clearTimeout(due);
    asked++;
    for (const stop of stops) stop();
    place.textContent = place.title = "";
  };
}

async function reasonAt(workbook: Workbook): Promise<string> {
  const { sheet, row, column } = await workbook.selection();
  const first = { sheet, row, rows: 1 };
  const [[cell]] = (await workbook.read({ ...first, column, columns: 1 })).values as [[Cell]];
  if (!isCellError(cell)) return "";
  const { columns } = await workbook.usedArea(sheet);
  const [line] = (await workbook.read({ ...first, column: 0, columns })).values;
  const why = reasonOf(cell) ?? line!.map(reasonOf).find((reason) => reason !== undefined);
  return why === undefined ? "" : `${cellName(row, column)}: ${why}`;
}

function reasonOf(cell: Cell): string | undefined {
  return isCellError(cell) && cell.message ? cell.message : undefined;
}
