import fc from "fast-check";
import type { Cell } from "../../../src/core/cell";
import { auditCells } from "../../../src/core/fleet/audit-cells";
import { changesIn, forgetAudits } from "../../../src/core/fleet/audits-lately";
import { fleetRows, machineRows } from "../../bench/fleet-rows";

const TABLE = fleetRows(260, 12);
const MACHINES = machineRows(12);
type Call = Parameters<typeof auditCells>;

function cellsOf(...call: Call): Cell[][] {
  const result = auditCells(...call);
  if (!result.ok) throw new Error(result.fault.code);
  return result.value;
}

/** Worked out whole, with nothing known beforehand. */
function whole(...call: Call): Cell[][] {
  forgetAudits();
  return cellsOf(...call);
}

const plain = (table: Cell[][], machines: Cell[][] = MACHINES): Call => [table, machines, [], []];

describe("the audit of a table that was audited before", () => {
  it("is that of the whole table, whatever was typed, put in, taken out or moved", () => {
    const change = fc.oneof(
      fc.record({ kind: fc.constant("type"), row: fc.nat(259), column: fc.integer({ min: 1, max: 8 }) }),
      fc.record({ kind: fc.constantFrom("put in", "take out", "move up", "blank"), row: fc.nat(259) }),
    );
    fc.assert(
      fc.property(fc.array(fc.array(change, { minLength: 1, maxLength: 3 }), { maxLength: 3 }), (visits) => {
        forgetAudits();
        cellsOf(...plain(TABLE));
        const header = TABLE[0]!;
        let rows = TABLE.slice(1);
        for (const changes of visits) {
          for (const { kind, row, ...at } of changes) {
            const place = Math.min(row, rows.length - 1);
            if (kind === "type") rows = rows.with(place, rows[place]!.with((at as { column: number }).column, 12.1));
            if (kind === "blank")
              rows = rows.with(
                place,
                rows[place]!.map(() => ""),
              );
            if (kind === "put in") rows = rows.toSpliced(place, 0, rows[(place + 7) % rows.length]!);
            if (kind === "take out") rows = rows.toSpliced(place, 1);
            if (kind === "move up") rows = [rows[place]!, ...rows.toSpliced(place, 1)];
          }
          const again = cellsOf(...plain([header, ...rows]));
          const fresh = whole(...plain([header, ...rows]));
          expect(again).toEqual(fresh);
        }
      }),
      { numRuns: 12, seed: 3 },
    );
  });

  it("has the rows from the first to the last that changed to go through, and no more", () => {
    whole(...plain(TABLE));
    const sizes = (table: Cell[][]) => {
      const changes = changesIn({ header: table[0]!, rows: table.slice(1), named: false }, [MACHINES, [], []])!;
      return [changes.before.length, changes.rows.length, changes.behind.length];
    };
    const typed = TABLE.with(41, TABLE[41]!.with(1, 11.8));
    expect(sizes(TABLE)).toEqual([260, 0, 0]);
    expect(sizes(typed)).toEqual([40, 1, 219]);
    expect(sizes(typed.with(43, TABLE[43]!.with(2, 7)))).toEqual([40, 3, 217]);
    expect(sizes(TABLE.toSpliced(200, 1))).toEqual([199, 0, 60]);
    expect(sizes(TABLE.toSpliced(200, 0, TABLE[9]!))).toEqual([199, 1, 61]);
  });

  it("is worked out whole where machines, headers or settings are others", () => {
    const others: Call[] = [
      plain(TABLE, machineRows(11)),
      plain([TABLE[0]!.with(1, "Cranking voltage").with(2, "Rested voltage"), ...TABLE.slice(1)]),
      [TABLE, MACHINES, [], [["Faulty from", 0.99]]],
      [TABLE.slice(1), MACHINES, [], [], [TABLE[0]!.with(3, "")]],
    ];
    for (const call of others) {
      const fresh = whole(...call);
      whole(...plain(TABLE));
      expect(cellsOf(...call)).toEqual(fresh);
    }
  });

  it("keeps a zero apart from a blank, and text from the number that it looks like", () => {
    for (const [was, is] of [
      [0, ""],
      [12.5, "12.5"],
      ["12,5", 12.5],
    ] as const) {
      const before = TABLE.with(9, TABLE[9]!.with(2, was));
      const after = TABLE.with(9, TABLE[9]!.with(2, is));
      whole(...plain(before));
      const again = cellsOf(...plain(after));
      expect(again).toEqual(whole(...plain(after)));
    }
  });

  it("cannot be spoiled by who was handed the cells", () => {
    const first = whole(...plain(TABLE));
    const right = structuredClone(first);
    first.forEach((line) => line.fill("spoiled"));
    expect(cellsOf(...plain(TABLE))).toEqual(right);
  });
});
