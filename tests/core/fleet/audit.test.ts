import { audit } from "../../../src/functions/fleet";
import { nextCheck, verdict } from "../../../src/functions/verdict";
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
      expect(out[r]![2]).toBeCloseTo(chance as number, 12);
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
