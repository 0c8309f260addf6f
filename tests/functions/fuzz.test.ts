import { FUNCTIONS, type FunctionTable } from "../../src/functions/registry";
import { fuzzFunctions } from "../../src/tools/fuzz-functions";

describe("nothing but values, blanks and documented errors leaves a function", () => {
  it("3,000 calls with a fixed seed (the command makes a million)", () => {
    const report = fuzzFunctions(3000, 20261125);
    expect(report.slips).toEqual([]);
    expect(report.calls).toBe(3000);
    expect(report.cells.values).toBeGreaterThan(1000);
    expect(report.cells.errors).toBeGreaterThan(1000);
    expect(report.cells.blanks).toBeGreaterThan(1000);
    expect(Object.keys(FUNCTIONS).length).toBeGreaterThan(20);
  });

  it("the same seed makes the same calls", () => {
    const table = { SOC: FUNCTIONS.SOC! };
    expect(fuzzFunctions(300, 5, table)).toEqual(fuzzFunctions(300, 5, table));
    expect(fuzzFunctions(300, 5, table).cells).not.toEqual(fuzzFunctions(300, 6, table).cells);
  });

  let turn = 0;
  const broken: [string, FunctionTable[string], RegExp][] = [
    [
      "throws",
      () => {
        throw new TypeError("no such thing");
      },
      /threw TypeError: no such thing/,
    ],
    ["NaN", () => [[Number.NaN]], /let NaN out/],
    ["infinity", () => [[1, Infinity]], /let Infinity out/],
    ["null", () => [[null]], /let null out/],
    ["undefined", () => [[undefined]], /let undefined out/],
    ["an object", () => [[{ error: 5 } as never]], /let object out/],
    ["a ragged block", () => [[1, 2], [3]], /ragged/],
    ["no rows", () => [], /did not answer with rows/],
    ["an empty row", () => [[]], /empty row/],
    ["an error that carries no message", () => [[{ error: "#REF!" }]], /#REF!, which carries no message/],
    ["an error without a sentence", () => [[{ error: "#VALUE!" }]], /without its sentence/],
    [
      "a message with undefined in it",
      () => [[{ error: "#VALUE!", message: "volts: undefined is not possible." }]],
      /said: volts: undefined/,
    ],
    ["two answers to one question", () => [[turn++]], /in two ways/],
  ];
  it.each(broken)("a function that gives %s is found", (_, run, expected) => {
    const { slips } = fuzzFunctions(60, 1, { BROKEN: run }, []);
    expect(slips.length).toBeGreaterThan(0);
    expect(slips[0]!.what).toMatch(expected);
  });
  it("a function that never answers is named", () => {
    expect(fuzzFunctions(60, 1, { SILENT: () => [[""]] }, []).neverAnswered).toEqual(["SILENT"]);
  });
});
