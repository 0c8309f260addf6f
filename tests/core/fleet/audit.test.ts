import fc from "fast-check";
import type { Block, Cell } from "../../../src/core/cell";
import { audit } from "../../../src/functions/fleet";
import { notices } from "../../../src/functions/notices";
import { nextCheck, verdict } from "../../../src/functions/verdict";
import { auditInParts, planAudit, type RestOfCall } from "../../../src/hosts/audit-threads/audit-in-parts";
import { fleetRows, machineRows } from "../../bench/fleet-rows";

/**
 * The audit takes rows in another order than they stand and shares work between them: none of that
 * may show. What each row must be comes from the functions of one machine, asked row by row.
 */
describe("audit of a fleet with gaps", () => {
  const rows = fleetRows(150, 12);
  const machines = machineRows(12);
  const dataOf = (name: unknown) => [machines[0]!, machines.find((m) => m[0] === name)!];
  const out = audit(rows, machines);

  it("says of each row what VERDICT says of its cells", () => {
    for (let r = 1; r < rows.length; r++) {
      const [[part, state, chance, sentence] = []] = verdict([rows[0]!, rows[r]!], dataOf(rows[r]![0]));
      expect([r, out[r]![0], out[r]![1], out[r]![6]]).toEqual([r, part, state, sentence]);
      expect(out[r]![2]).toBe(chance);
    }
  });

  it("names the check that NEXTCHECK names, and none where the verdict stands", () => {
    for (let r = 1; r < rows.length; r++) {
      const [[label] = []] = nextCheck([rows[0]!, rows[r]!], dataOf(rows[r]![0]));
      const settled = out[r]![1] === "faulty" || out[r]![1] === "serviceable";
      expect([r, out[r]![3]]).toEqual([r, settled ? "none" : label]);
    }
  });

  it("gives the same rows whatever order the table stands in", () => {
    const turned = audit([rows[0]!, ...rows.slice(1).reverse()], machines);
    const without = (row: unknown[]) => row.filter((_, column) => column !== 5 && column !== 2);
    expect(turned.slice(1).reverse().map(without)).toEqual(out.slice(1).map(without));
  });
});

describe("speeds in the headers of a fleet", () => {
  // How much a stator can give at a speed is known where its no-load voltage is.
  const machines: Cell[][] = [
    ["Machine", "no-load-nominal", "no-load-nominal-rpm"],
    ["Quad 1", 20, 2000],
  ];
  const row: Cell[] = ["Quad 1", 12.7, 12.9];
  const headed = (voltage: string): Cell[][] => [["Machine", "Rested voltage", voltage], row];

  it("are weighed as a column of speeds is, and as VERDICT weighs them", () => {
    const spelled = audit(
      [
        ["Machine", "Rested voltage", "Charging voltage", "Test rpm"],
        [...row, 2000],
      ],
      machines,
    );
    expect(audit(headed("Charging voltage @ 2000 rpm"), machines)).toEqual(spelled);
    const [[part, state, chance] = []] = verdict(headed("Charging voltage @ 2000 rpm"), machines);
    expect(spelled[1]!.slice(0, 3)).toEqual([part, state, chance]);
  });
  it("change what the same voltage means", () => {
    const chances = ["Charging voltage", "Charging voltage @ 2000 rpm", "Charging voltage @ 6000 rpm"].map(
      (voltage) => audit(headed(voltage), machines)[1]![2],
    );
    expect(new Set(chances).size).toBe(3);
  });
});

describe("units in the row below the headers of a fleet", () => {
  const header = ["Machine", "Rested voltage", "Key-off draw", "Remarks"];
  const units = ["", "V", "A", "free text"];
  const rows: Cell[][] = [
    ["Quad 1", 12.7, 0.06, ""],
    ["Quad 2", 12.7, 0.001, "parked"],
  ];

  it("count as those in the headers, and nothing stands beside them", () => {
    const spelled = audit([["Machine", "Rested voltage (V)", "Key-off draw (A)", "Remarks"], ...rows]);
    const out = audit([header, units, ...rows]);
    expect(out).toEqual([spelled[0], units.map(() => "").concat("", "", ""), ...spelled.slice(1)]);
    // 60 mA drain a battery that is allowed 20; bare numbers would be milliamperes.
    expect(out[2]!.slice(0, 2)).toEqual(["load", "faulty"]);
  });
  it("are nothing that must be said of it", () => {
    expect(notices([header, units, ...rows]).map(([row, column]) => [row, column])).toEqual([
      ["Row", "Column"],
      [1, "Remarks"],
    ]);
  });
  it("hold in each part of a long table", async () => {
    const thread = (basis: RestOfCall) => ({
      audit: async (rows: Block) => audit(...([rows, ...basis] as unknown as Parameters<typeof audit>)),
      done: () => undefined,
      end: () => undefined,
    });
    const table = [header, units, ...rows, ...rows];
    expect(await auditInParts(planAudit([table], 2, 2)!, thread)).toEqual(audit(table));
  });
});

describe("random rows", () => {
  /** Cells as people type them, by column: bare, with units, with a comma, blank, and what cannot be read. */
  const volts = (low: number, high: number) =>
    fc.oneof(
      { weight: 6, arbitrary: fc.integer({ min: low * 100, max: high * 100 }).map((v): Cell => v / 100) },
      {
        weight: 1,
        arbitrary: fc.integer({ min: low * 10, max: high * 10 }).map((v): Cell => `${v / 10} V`.replace(".", ",")),
      },
      { weight: 3, arbitrary: fc.constant<Cell>("") },
    );
  const rare = (cell: fc.Arbitrary<Cell>, odd: readonly Cell[]) =>
    fc.oneof({ weight: 20, arbitrary: cell }, { weight: 1, arbitrary: fc.constantFrom<Cell>(...odd) });
  const COLUMNS: readonly (readonly [label: string, cell: fc.Arbitrary<Cell>])[] = [
    ["Battery type", fc.constantFrom<Cell>("agm", "flooded", "")],
    ["Battery capacity", fc.constantFrom<Cell>(12, 14, "")],
    ["Rated output", fc.constantFrom<Cell>(250, 400, "")],
    ["Rested voltage", rare(volts(11, 13), ["abc", 126])],
    ["Cranking voltage", volts(6, 12)],
    ["Key-off draw", rare(fc.oneof(fc.integer({ min: 0, max: 400 }), fc.constant<Cell>("")), ["0.3 A", "OL"])],
    ["Idle voltage", volts(11, 15)],
    ["Voltage at test speed", rare(volts(11, 17), ["?"])],
    ["B+ drop", fc.oneof(fc.constantFrom<Cell>("", "120 mV", 0.1, 0.9), fc.constant<Cell>(""))],
  ];
  const table = fc
    .subarray([...COLUMNS], { minLength: 2 })
    .chain((columns) =>
      fc.tuple(
        fc.constant(columns.map(([label]): Cell => label)),
        fc.array(fc.tuple(...columns.map(([, cell]) => cell)), { minLength: 1, maxLength: 12 }),
      ),
    );

  it("[property] are to the last bit what VERDICT says of each alone", () => {
    let weighed = 0;
    fc.assert(
      fc.property(table, ([header, rows]) => {
        const out = audit([header, ...rows]);
        rows.forEach((row, i) => {
          const [part, state, chance, , , , sentence] = out[i + 1]!;
          if (row.every((cell) => cell === "")) return expect(out[i + 1]!.every((cell) => cell === "")).toBe(true);
          const [[first, ...rest] = []] = verdict([header, row]);
          if (typeof first === "object")
            return expect([state, sentence]).toEqual(["not understood", (first as { message?: string }).message]);
          if (first === "not read") return expect([part, state, chance]).toEqual(["", "not read", ""]);
          weighed += 1;
          expect([part, state, sentence]).toEqual([first, rest[0], rest[2]]);
          expect(Object.is(chance, rest[1])).toBe(true);
        });
      }),
      { seed: 20261125, numRuns: 60 },
    );
    expect(weighed).toBeGreaterThan(200);
  });
});
