import { readFileSync } from "node:fs";
import path from "node:path";
import { parse } from "csv-parse/sync";
import { faultOf } from "../../../src/core/diagnosis/faults";
import { auditCells } from "../../../src/core/fleet/audit-cells";
import { AUDIT_PLACE } from "../../../src/core/fleet/audit-columns";
import type { Planted } from "../../../src/tools/demo-fleet/fleet-events";

/**
 * Routine visits of the demo fleet, audited as such: what is said of each is held against what its generator put into
 * the circuit [tests/fleet/demo-fleet.planted.json]. Most machines are in order on most visits, and from one day on
 * another meter reads 2.3 % less, which is no fault of theirs.
 */

const FLEET = path.join(__dirname, "../../fleet");
const table = parse(readFileSync(path.join(FLEET, "demo-fleet.csv"))) as string[][];
const planted = JSON.parse(readFileSync(path.join(FLEET, "demo-fleet.planted.json"), "utf8")) as Planted[];

interface Visit {
  readonly fault: Planted["fault"];
  readonly part: string;
  readonly state: string;
}

/** Visits whose readings can be read, with what is wrong and what is said. */
function visitsBy(settings: readonly (readonly [string, number])[]): Visit[] {
  const result = auditCells(table, [], [], settings);
  if (!result.ok) throw new Error("the demo fleet cannot be audited");
  const slips = new Set(planted.flatMap(({ kind, row }) => (SLIPS.has(kind) ? [row] : [])));
  const faults = new Map(planted.flatMap(({ row, fault }) => (fault === undefined ? [] : [[row, fault] as const])));
  return result.value.slice(1).flatMap((cells, i) => {
    if (slips.has(i + 2)) return [];
    return [
      { fault: faults.get(i + 2), part: String(cells[AUDIT_PLACE.Part]), state: String(cells[AUDIT_PLACE.State]) },
    ];
  });
}
const SLIPS: ReadonlySet<string> = new Set(["not a reading", "duplicate machine", "mixed units"]);

const accused = ({ state }: Visit) => state === "faulty" || state === "suspect";
const share = (some: readonly Visit[], which: (visit: Visit) => boolean) => some.filter(which).length / some.length;

describe("routine visits, nine machines in ten in order beforehand", () => {
  const visits = visitsBy([["in order beforehand", 0.9]]);
  const good = visits.filter(({ fault }) => fault === undefined);
  const bad = visits.filter(({ fault }) => fault !== undefined);

  it("are enough of both kinds to tell", () => {
    expect(good.length).toBeGreaterThan(1000);
    expect(bad.length).toBeGreaterThan(40);
  });

  it("accuse hardly any machine that is in order, and far fewer than if each had come with a complaint", () => {
    expect(share(good, accused)).toBeLessThan(0.01);
    const complaints = visitsBy([]).filter(({ fault }) => fault === undefined);
    expect(share(complaints, accused)).toBeGreaterThan(20 * share(good, accused));
  });

  it("show two in five of those with a fault, and call few of them in order", () => {
    expect(share(bad, accused)).toBeGreaterThan(0.4);
    expect(share(bad, ({ state }) => state === "serviceable")).toBeLessThan(0.15);
  });

  it("call no part faulty that is not", () => {
    const faulty = visits.filter(({ state }) => state === "faulty");
    expect(faulty.length).toBeGreaterThan(2);
    for (const { fault, part } of faulty) expect(fault && faultOf(fault).part).toBe(part);
  });
});
