import { useCallback, useEffect, useState } from "preact/hooks";
import type { Workbook } from "../workbook/port";
import { readQuoteSheet } from "../workbook/quote-read";
import { findQuoteRecord, type QuoteRecord, type QuoteRow } from "../workbook/quote-record";
import { findShopSheets, type ShopSheets } from "../workbook/quote-sources";
import { usePane } from "./pane-context";

/** What lies on the counter: the shop's prices and terms, and its record of quotes. */
export interface Desk {
  readonly looked: boolean;
  readonly shop: ShopSheets;
  readonly record: QuoteRecord | undefined;
  refresh(): Promise<void>;
}

const NOTHING: ShopSheets = { prices: undefined, terms: undefined };

/** Looks for the shop's sheets, and again after they were edited, added, renamed or removed. */
export function useDesk(): Desk {
  const { workbook, attempt, sheets } = usePane();
  const [found, setFound] = useState<Pick<Desk, "looked" | "shop" | "record">>({
    looked: false,
    shop: NOTHING,
    record: undefined,
  });
  const refresh = useCallback(async () => {
    const next = await attempt(async () => ({
      shop: await findShopSheets(workbook),
      record: await findQuoteRecord(workbook),
    }));
    setFound((before) => (next ? { looked: true, ...next } : { ...before, looked: true }));
  }, [workbook, attempt]);
  useEffect(() => void refresh(), [refresh, sheets]);
  const own = [found.shop.prices?.sheet, found.shop.terms?.sheet, found.record?.sheet].join("\n");
  useEffect(
    () =>
      workbook.onEdit(({ sheet }) => {
        if (own.split("\n").includes(sheet)) void refresh();
      }),
    [workbook, own, refresh],
  );
  return { ...found, refresh };
}

/** What the sheets of quotes come to now, by the sheet's name; sheets that are gone are left out. */
export function useQuoteTotals(quotes: readonly QuoteRow[]): ReadonlyMap<string, number | undefined> {
  const { workbook, attempt } = usePane();
  const [totals, setTotals] = useState<ReadonlyMap<string, number | undefined>>(new Map());
  useEffect(() => {
    let wanted = true;
    let [running, again] = [false, false];
    const look = async () => {
      again = true;
      if (running) return;
      running = true;
      // A burst of recalculations is one look more.
      while (again && wanted) {
        again = false;
        const read = await attempt(() => totalsOf(workbook, quotes));
        if (wanted && read) setTotals(read);
      }
      running = false;
    };
    void look();
    const stop = workbook.onCalculated(() => void look());
    return () => {
      wanted = false;
      stop();
    };
  }, [workbook, attempt, quotes]);
  return totals;
}

async function totalsOf(workbook: Workbook, quotes: readonly QuoteRow[]): Promise<Map<string, number | undefined>> {
  const totals = new Map<string, number | undefined>();
  for (const { quoteSheet } of quotes) {
    const sheet = quoteSheet === "" ? undefined : await readQuoteSheet(workbook, quoteSheet);
    if (sheet) totals.set(quoteSheet, sheet.total);
  }
  return totals;
}
