import { holdSpanish } from "../../functions/told";

/** What functions say in Spanish, fetched at the first call that asks for it; the pane shares most of it. */
export async function fetchWords(): Promise<void> {
  holdSpanish((await import(/* webpackChunkName: "cells-spanish" */ "../../core/words/spanish/cells")).cellsInSpanish);
}
