import type { Cell } from "../../../src/core/cell";
import { forgetAudits } from "../../../src/core/fleet/audits-lately";
import { FUNCTIONS } from "../../../src/functions/registry";
import {
  auditInParts,
  planAudit,
  type RestOfCall,
  type AuditCall,
  type AuditThread,
} from "../../../src/hosts/audit-threads/audit-in-parts";
import { fleetRows, machineRows } from "../../bench/fleet-rows";

/** All of it in one call, of which nothing is known beforehand. */
const whole = (...call: AuditCall) => {
  forgetAudits();
  return FUNCTIONS.AUDIT!(...call);
};

async function inParts(call: AuditCall, start: (rest: RestOfCall) => AuditThread, processors: number, worth?: number) {
  const plan = planAudit(call, processors, worth);
  return plan && (await auditInParts(plan, start));
}

/** Threads that answer in this one, last first, and count who was started, was done and was ended. */
function threads(answer: (call: AuditCall, thread: number) => Cell[][] = (call) => whole(...call)) {
  const count = { started: 0, done: 0, ended: 0, rows: [] as number[] };
  const start = (basis: RestOfCall): AuditThread => {
    const thread = count.started++;
    return {
      audit: async (rows) => {
        count.rows.push(rows.length);
        for (let wait = 0; wait < 10 - thread; wait++) await Promise.resolve();
        return answer([rows, ...basis], thread);
      },
      done: () => void count.done++,
      end: () => void count.ended++,
    };
  };
  return { count, start };
}

/** Rows as people have them: a blank one, totals at the end, a cell that cannot be read. */
function table(rows: number): Cell[][] {
  const cells = fleetRows(rows, 30);
  cells[5] = cells[5]!.map(() => "");
  cells[7]![1] = "twelve";
  cells.push(["Total", ...cells[0]!.slice(1).map(() => 1)]);
  return cells;
}

function withCell(cells: readonly Cell[][], row: number, column: number, value: Cell): Cell[][] {
  return cells.map((line, r) => (r === row ? line.with(column, value) : line));
}

beforeEach(forgetAudits);

describe("the audit of a long table, in threads", () => {
  const cells = table(420);
  const machines = machineRows(30);

  it("gives the cells that one call gives, order of risk and all", async () => {
    const { count, start } = threads();
    expect(await inParts([cells, machines], start, 2, 200)).toEqual(whole(cells, machines));
    expect(count).toEqual({ started: 2, done: 2, ended: 0, rows: [211, 210] });
  });

  it("gives rows alone where the names of the columns were given apart", async () => {
    const { start } = threads();
    const call = [cells.slice(1), machines, [[]], [[]], cells.slice(0, 1)];
    expect(await inParts(call, start, 4, 100)).toEqual(whole(...call));
  });

  it("hands a thread the next part while it works on one, so that none is left with much at the end", async () => {
    const long = table(10_000);
    const { count, start } = threads((call) =>
      (call[0] as Cell[][]).map((row) => [row[0]!, ...Array<string>(6).fill("")]),
    );
    const cells = await inParts([long, machines], start, 2);
    expect(cells!.slice(1).map(([machine]) => machine)).toEqual(long.slice(1).map(([machine]) => machine));
    expect(count).toEqual({ started: 2, done: 2, ended: 0, rows: [1_500, 1_500, 1_500, 1_500, 1_500, 1_500, 1_001] });
  });

  it("cuts smaller parts towards the end, which leave no thread with much", async () => {
    const long = table(40_000);
    const { count, start } = threads((call) =>
      (call[0] as Cell[][]).map((row) => [row[0]!, ...Array<string>(6).fill("")]),
    );
    await inParts([long, machines], start, 2);
    const sizes = count.rows;
    expect(sizes.reduce((sum, rows) => sum + rows, 0)).toBe(40_001);
    expect(sizes[0]).toBe(5_001);
    expect(sizes.every((rows, i) => i === 0 || rows <= sizes[i - 1]!)).toBe(true);
    expect(sizes.at(-1)).toBeLessThanOrEqual(1_500);
  });

  it("starts no more threads than there are processors and work", async () => {
    const { count, start } = threads();
    await inParts([cells, machines], start, 64, 200);
    expect(count.started).toBe(2);
    expect(await inParts([cells.slice(0, 150), machines], start, 64, 200)).toBeUndefined();
    expect(count.started).toBe(2);
  });

  it("says what is wrong with the arguments as one call does", async () => {
    const { start } = threads();
    const settings = [["Faulty from", 7]];
    const said = whole(cells, machines, [[]], settings);
    expect(said).toHaveLength(1);
    expect(await inParts([cells, machines, [[]], settings], start, 2, 200)).toEqual(said);
  });

  it("leaves the work to the caller where a thread fails, and ends the others", async () => {
    const failing = threads((call, thread) => {
      if (thread === 1) throw new Error("gone");
      return whole(...call);
    });
    expect(await inParts([cells, machines], failing.start, 2, 200)).toBeUndefined();
    expect(failing.count).toMatchObject({ started: 2, done: 0, ended: 2 });
    const none = () => {
      throw new Error("no threads here");
    };
    expect(await inParts([cells, machines], none, 2, 200)).toBeUndefined();
  });

  it("leaves a few rows that changed to the caller, who audits those alone", async () => {
    const { count, start } = threads();
    await inParts([cells, machines], start, 2, 200);
    const typed = withCell(cells, 31, 1, 11.2);
    expect(await inParts([typed, machines], start, 2, 200)).toBeUndefined();
    expect(count.started).toBe(2);
    expect(await inParts([typed, machineRows(29)], start, 2, 200)).toEqual(whole(typed, machineRows(29)));
    expect(count.started).toBe(4);
  });
});
