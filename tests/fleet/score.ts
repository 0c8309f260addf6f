import type { Notice, NoticeKind } from "../../src/core/fleet/history/types";
import type { Planted } from "../../src/tools/demo-fleet/fleet-events";

export interface Score {
  readonly planted: number;
  readonly found: number;
  readonly noticed: number;
  readonly right: number;
}

/** A new battery shows within some visits of 40 machines; what stands in one row is found in that row or its twin. */
const ROWS_APART: Readonly<Partial<Record<NoticeKind, number>>> = {
  "battery replaced": 130,
  "changed meter": 40,
  storage: 0,
  "renamed machine": 1e9,
};
const OF_ALL: ReadonlySet<string> = new Set(["changed meter"]);

/** How many of the planted things of a kind were noticed, and how many notices are of planted things. */
export function score(
  kind: NoticeKind & Planted["kind"],
  planted: readonly Planted[],
  notices: readonly Notice[],
): Score {
  const events = planted.filter((one) => one.kind === kind);
  const said = notices.filter((one) => one.kind === kind);
  const meets = (event: Planted, notice: Notice) =>
    Math.abs(event.row - notice.row) <= (ROWS_APART[kind] ?? 1) &&
    (OF_ALL.has(kind) || kind === "duplicate machine" || event.machine.toLowerCase() === notice.machine.toLowerCase());
  return {
    planted: events.length,
    found: events.filter((event) => said.some((notice) => meets(event, notice))).length,
    noticed: said.length,
    right: said.filter((notice) => events.some((event) => meets(event, notice))).length,
  };
}
