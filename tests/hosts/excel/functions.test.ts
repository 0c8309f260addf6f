import fc from "fast-check";
import type { Cell } from "../../../src/core/cell";
import { number, optional } from "../../../src/functions/arguments";
import { overCells } from "../../../src/functions/over-cells";
import { FUNCTIONS, type WorksheetFunction } from "../../../src/functions/registry";
import { WordsNotAtHand } from "../../../src/functions/told";
import { ok } from "../../../src/core/result";
import { AT_ONCE } from "../../../src/hosts/excel/functions-at-once";
import { fetchOnCall, fetchOnNotice, ON_CALL, ON_NOTICE } from "../../../src/hosts/excel/function-parts";
import { fetchWords } from "../../../src/hosts/excel/function-words";
import {
  asExcelFunction,
  associateFunctions,
  associateOnCall,
  type FunctionRuntime,
} from "../../../src/hosts/excel/functions";

/** Stands for Excel's error value. */
class ExcelError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

function fakeRuntime() {
  const associated = new Map<string, (...given: unknown[]) => unknown>();
  const runtime: FunctionRuntime = {
    associate: (id, run) => void associated.set(id, run),
    Error: ExcelError,
  };
  return { runtime, associated };
}

const { runtime } = fakeRuntime();
const noWords = () => Promise.reject(new Error("No other words are asked for."));
const volts = number("volts", { unit: "V", min: 0, max: 20 });
const double: WorksheetFunction = (a, b) => overCells([volts, optional(volts, 0)], (x, y) => ok(2 * x + y), [a, b]);
const excelDouble = asExcelFunction(double, runtime);

/** What Excel shows: the returned block, or the error thrown for the whole call. */
function called(run: (...given: unknown[]) => unknown, ...given: unknown[]): unknown {
  try {
    return run(...given);
  } catch (thrown) {
    return thrown;
  }
}

describe("worksheet functions in Excel", () => {
  it("registers every function under its id", () => {
    const { runtime: fresh, associated } = fakeRuntime();
    const table = { ...FUNCTIONS, DOUBLE: double };
    associateFunctions(table, fresh, noWords);
    expect([...associated.keys()].sort()).toEqual(Object.keys(table).sort());
    expect(called(associated.get("DOUBLE")!, [[6]])).toEqual([[12]]);
  });

  it("holds every function either at once or on call", async () => {
    const onCall = await fetchOnCall();
    expect(Object.keys(onCall).sort()).toEqual([...ON_CALL].sort());
    const onNotice = await fetchOnNotice();
    expect(Object.keys(onNotice)).toEqual([...ON_NOTICE]);
    expect({ ...AT_ONCE, ...onCall, ...onNotice }).toEqual(FUNCTIONS);
  });

  it("fetches a function at its first call, and says so when it cannot", async () => {
    const { runtime: fresh, associated } = fakeRuntime();
    let online = false;
    const fetch = () => (online ? Promise.resolve({ DOUBLE: double }) : Promise.reject(new Error("offline")));
    associateOnCall(["DOUBLE"], fetch, fresh, noWords);
    const run = associated.get("DOUBLE")!;
    await expect(run([[6]])).rejects.toMatchObject({
      code: "#N/A",
      message: expect.stringMatching(/could not be fetched/u),
    });
    online = true;
    expect(await run([[6]], { address: "A1" })).toEqual([[12]]);
    await expect(run([["abc"]])).rejects.toMatchObject({ code: "#VALUE!", message: expect.stringMatching(/"abc"/u) });
  });

  it("fetches the words of another language when a call asks for them, and says so when it cannot", async () => {
    let [online, here] = [false, false];
    const inSpanish: WorksheetFunction = () => {
      if (!here) throw new WordsNotAtHand();
      return [["conforme"]];
    };
    const fetch = () => (online ? Promise.resolve(void (here = true)) : Promise.reject(new Error("offline")));
    const { runtime: fresh, associated } = fakeRuntime();
    associateFunctions({ NOW: inSpanish }, fresh, fetch);
    associateOnCall(["LATER"], () => Promise.resolve({ LATER: inSpanish }), fresh, fetch);
    associateOnCall(
      ["THERE"],
      () => Promise.resolve({}),
      fresh,
      fetch,
      {},
      { THERE: () => Promise.resolve(inSpanish) },
    );
    for (const id of ["NOW", "LATER", "THERE"]) {
      [online, here] = [false, false];
      await expect(associated.get(id)!()).rejects.toMatchObject({ code: "#N/A" });
      online = true;
      expect(await associated.get(id)!()).toEqual([["conforme"]]);
    }
    expect(associated.get("NOW")!()).toEqual([["conforme"]]);
    await fetchWords();
    expect(AT_ONCE["CHECK"]!("Key-off draw", "1 mA", "", "", "", "", "", "es")[0]![4]).toMatch(/^Consumo en reposo 1/u);
  });

  it("drops the invocation object behind the arguments", () => {
    expect(called(excelDouble, [[6]], [[1]], { address: "Sheet1!A1", functionName: "DOUBLE" })).toEqual([[13]]);
    expect(called(excelDouble, [[6]], null, {})).toEqual([[12]]);
    expect(called(excelDouble, [[6]], { functionName: "DOUBLE" })).toEqual([[12]]);
  });

  it("keeps an entity as the last argument, which is not an invocation", () => {
    const entity = { type: "FormattedNumber", basicType: "Double", basicValue: 6, numberFormat: "0.0" };
    expect(called(excelDouble, entity)).toEqual([[12]]);
    expect(called(excelDouble, [[6]], { type: "Double", basicValue: 2 })).toEqual([[14]]);
  });

  it("takes a blank as Excel on the web sends it, and an omitted argument", () => {
    expect(called(excelDouble, [[null]])).toEqual([[""]]);
    expect(called(excelDouble, null, null)).toEqual([[""]]);
  });

  it("gives a malformed reading as one #VALUE! that says what to enter", () => {
    const error = called(excelDouble, [["abc"]]);
    expect(error).toBeInstanceOf(ExcelError);
    expect(error).toMatchObject({ code: "#VALUE!", message: expect.stringMatching(/volts.*"abc".*number in V/u) });
  });

  it("keeps good cells beside a faulty one and puts the error in its place", () => {
    const block = called(excelDouble, [[6], ["abc"], [null], [99]]) as unknown[][];
    expect(block.map((row) => (row[0] instanceof ExcelError ? row[0].code : row[0]))).toEqual([
      12,
      "#VALUE!",
      "",
      "#VALUE!",
    ]);
    expect((block[3]![0] as ExcelError).message).toMatch(/99 V is not possible/u);
  });

  it("passes #N/A through with its code, and an error argument as an error value", () => {
    expect(called(excelDouble, [[{ type: "Error", basicType: "Error", basicValue: "#N/A" }]])).toMatchObject({
      code: "#N/A",
    });
    expect(called(excelDouble, [[{ code: "#DIV/0!" }]])).toMatchObject({
      code: "#VALUE!",
      message: expect.stringMatching(/#DIV\/0!/u),
    });
  });

  it("turns codes Excel does not accept from a function into #VALUE! with a word about them", () => {
    const gives = (cell: Cell) => called(asExcelFunction(() => [[cell]], runtime));
    expect(gives({ error: "#NAME?" })).toEqual(new ExcelError("#VALUE!", "An argument holds #NAME?."));
    expect(gives({ error: "#NUM!", message: "lost" })).toEqual(new ExcelError("#NUM!"));
  });

  it("never lets a null, a NaN or a thrown fault of ours out", () => {
    expect(called(asExcelFunction(() => [[null, undefined]], runtime))).toEqual([["", ""]]);
    expect(called(asExcelFunction(() => [[Number.NaN, 1]], runtime))).toEqual([[new ExcelError("#NUM!"), 1]]);
    const broken = asExcelFunction(() => {
      throw new TypeError("x is undefined");
    }, runtime);
    expect(called(broken)).toMatchObject({ code: "#VALUE!", message: expect.stringMatching(/fault of its own/u) });
  });

  it("[property] every function answers any argument with cells or one error value", () => {
    const cell = fc.oneof(
      fc.constantFrom<unknown>(null, "", "OL", "12.6 V", "abc", true, 0, -1, 1e308, Number.NaN, { code: "#REF!" }, {}),
      fc.double(),
      fc.string({ maxLength: 12 }),
    );
    const argument = fc.oneof(
      cell,
      fc.array(fc.array(cell, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 3 }),
    );
    const table: Record<string, WorksheetFunction> = { ...FUNCTIONS, DOUBLE: double };
    fc.assert(
      fc.property(fc.constantFrom(...Object.keys(table)), fc.array(argument, { maxLength: 6 }), (id, given) => {
        const answer = called(asExcelFunction(table[id]!, runtime), ...given);
        const rows = answer instanceof ExcelError ? [[answer]] : (answer as unknown[][]);
        expect(rows.length).toBeGreaterThan(0);
        for (const value of rows.flat()) {
          const good =
            value instanceof ExcelError ||
            typeof value === "string" ||
            typeof value === "boolean" ||
            (typeof value === "number" && Number.isFinite(value));
          if (!good) throw new Error(`${id} let ${String(value)} out`);
        }
        for (const error of rows.flat().filter((value) => value instanceof ExcelError)) {
          expect(error.message ?? "").not.toMatch(/fault of its own/u);
        }
      }),
      { seed: 20261125, numRuns: 600 },
    );
  });
});
