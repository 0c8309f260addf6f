import { isCellError } from "../../src/core/cell";
import type { FunctionTable } from "../../src/functions/function-table";
import { batteryFunctions } from "../../src/functions/battery";
import { judgementFunctions } from "../../src/functions/judgement";
import { rectifierFunctions } from "../../src/functions/rectifier";
import { statorFunctions } from "../../src/functions/stator";
import { wiringFunctions } from "../../src/functions/wiring";
import { argumentsOf, examplesIn, workedExamples } from "../../src/tools/worked-examples";

const TABLE: FunctionTable = {
  ...batteryFunctions,
  ...judgementFunctions,
  ...rectifierFunctions,
  ...statorFunctions,
  ...wiringFunctions,
};

describe("the worked example of every function gives what it says", () => {
  const examples = workedExamples().filter(({ name }) => name in TABLE);

  it.each(examples.map((example) => [example.formula, example] as const))("%s", (_, { name, given, gives }) => {
    const [row] = TABLE[name]!(...given);
    const said = gives.split(/, | and /u);
    expect(row!.some(isCellError)).toBe(false);
    said.forEach((word, i) => {
      const cell = row![i];
      const number = Number(word);
      if (word === "blank") expect(cell).toBe("");
      else if (Number.isFinite(number)) {
        // As many digits as are printed.
        const digits = word.split(".")[1]?.length ?? 0;
        expect(typeof cell).toBe("number");
        expect(Math.abs((cell as number) - number)).toBeLessThanOrEqual(0.5 * 10 ** -digits + 1e-12);
      } else if (/^(?:the|a) /u.test(word)) expect(String(cell)).toMatch(/\w+ \w+/u);
      else expect(cell).toBe(word);
    });
  });

  it("every function of battery, stator, rectifier, wiring and judgement has one", () => {
    expect(new Set(examples.map(({ name }) => name))).toEqual(new Set(Object.keys(TABLE)));
  });
});

describe("reading an example", () => {
  it("numbers, text with commas and quotes, blanks, arrays", () => {
    expect(argumentsOf('12.5, "a, ""b""", , {1,2;"x",4}, TRUE, -1e-3')).toEqual([
      12.5,
      'a, "b"',
      null,
      [
        [1, 2],
        ["x", 4],
      ],
      true,
      -0.001,
    ]);
    expect(argumentsOf("")).toEqual([]);
  });
  it("refuses what is no literal", () => {
    expect(() => argumentsOf("A1")).toThrow(/literals only: A1/);
    expect(examplesIn('* @example =CHG.SOC(12, "agm") gives 0.2\n * nothing else')).toHaveLength(1);
  });
});
