import { FUNCTIONS } from "../../src/functions/registry";
import { describeFunctions, describeSource, helpUrl, metadataJson, slipsIn } from "../../src/tools/function-metadata";

/** A source text with one function; each argument replaces one part of a faultless one. */
function source(
  parts: { tag?: string; text?: string; params?: string; signature?: string; returns?: string } = {},
): string {
  return `
/**
${parts.text ?? " * Doubles a voltage."}
${parts.tag ?? " * @customfunction DOUBLE"}
${parts.params ?? " * @param volts Voltage, V (a cell or a range)"}
${parts.returns ?? " * @returns Twice the voltage, V"}
 */
${parts.signature ?? "export function double(volts: any[][]): any[][]"} { return volts; }
`;
}

/** Every slip of one or more sources, as the build would report them. */
function slipsOf(...sources: string[]): string[] {
  const read = sources.map((text, i) => describeSource(text, `room-${i + 1}`));
  return [...read.flatMap((one) => one.slips), ...slipsIn(read.flatMap((one) => one.functions))];
}

describe("description of the worksheet functions", () => {
  const functions = describeFunctions();

  it("covers exactly the functions that the hosts register", () => {
    expect(functions.map((entry) => entry.id).sort()).toEqual(Object.keys(FUNCTIONS).sort());
  });

  it("holds at least what a job sheet needs", () => {
    const needed =
      "SOC SOCBAND BAND BALANCE STATORAC STATOROHMS DIODES JOINT DRAINDAYS LOADTEST CHECK VERDICT CAUSES NEXTCHECK WHY";
    expect(functions.map((entry) => entry.id)).toEqual(expect.arrayContaining(needed.split(" ")));
  });

  it("documents every parameter and the result of each function", () => {
    const bare = functions.flatMap((entry) => [
      ...entry.parameters
        .filter((parameter) => (parameter.description ?? "").length < 3)
        .map((p) => `${entry.id}.${p.name}`),
      ...(entry.returns.length < 3 ? [`${entry.id} returns`] : []),
    ]);
    expect(bare).toEqual([]);
  });

  it("has as many parameters as each function takes", () => {
    const wrong = functions.filter((entry) => {
      const needed = entry.parameters.filter((parameter) => !parameter.optional && !parameter.repeating).length;
      const length = FUNCTIONS[entry.id]!.length;
      return length < needed || length > entry.parameters.length;
    });
    expect(wrong.map((entry) => entry.id)).toEqual([]);
  });

  it("writes a metadata file in which error cells and help pages are switched on", () => {
    const [entry] = describeSource(source(), "room").functions;
    expect(JSON.parse(metadataJson([entry!], "https://shop.example/tools"))).toEqual({
      allowCustomDataForDataTypeAny: true,
      allowErrorForDataTypeAny: true,
      functions: [
        {
          description: "Doubles a voltage.",
          id: "DOUBLE",
          name: "DOUBLE",
          helpUrl: "https://shop.example/tools/help/DOUBLE.html",
          parameters: [
            { description: "Voltage, V (a cell or a range)", dimensionality: "matrix", name: "volts", type: "any" },
          ],
          result: { dimensionality: "matrix" },
        },
      ],
    });
    expect(helpUrl("SOC", "https://shop.example/")).toBe("https://shop.example/help/SOC.html");
  });
});

describe("slips that the maker's parser lets pass", () => {
  it("finds none in a faultless function", () => {
    expect(slipsOf(source())).toEqual([]);
  });

  const slips: [string, string[], RegExp][] = [
    [
      "a needed argument after an optional one",
      [
        source({
          params: " * @param [a] First\n * @param b Second",
          signature: "export function double(a: any[][], b: any[][]): any[][]",
        }),
      ],
      /DOUBLE.*b: a needed argument stands before the optional a/u,
    ],
    [
      "a repeating argument that is not last",
      [
        source({
          params: " * @param a First\n * @param b Second",
          signature: "export function double(a: any[][][], b: any[][]): any[][]",
        }),
      ],
      /a: a repeating argument stands last/u,
    ],
    ["a name of two characters", [source({ tag: " * @customfunction OK" })], /OK .*at least three characters/u],
    ["a name like a cell", [source({ tag: " * @customfunction SOC12" })], /SOC12 .*looks like a cell/u],
    ["a name with a dot", [source({ tag: " * @customfunction SOC.BAND" })], /SOC\.BAND .*capital letters and digits/u],
    ["a shown name that differs", [source({ tag: " * @customfunction DOUBLE TWICE" })], /shown name "TWICE"/u],
    ["no description", [source({ text: " *" })], /DOUBLE .*description is missing/u],
    ["a parameter without description", [source({ params: " *" })], /volts: the description is missing/u],
    ["no @returns", [source({ returns: " *" })], /@returns is missing/u],
    [
      "the same name in two files",
      [source(), source()],
      /DOUBLE \(room-2\): the name is taken by a function of room-1/u,
    ],
    [
      "an arrow function",
      [source({ signature: "export const double = (volts: any[][]): any[][] =>" })],
      /1 @customfunction tags but 0 functions/u,
    ],
    [
      "a number parameter",
      [source({ signature: "export function double(volts: number): any[][]" })],
      /volts: the type is number/u,
    ],
    [
      "a single value as result",
      [source({ signature: "export function double(volts: any[][]): any" })],
      /result is a block of cells/u,
    ],
    ["a volatile function", [source({ tag: " * @customfunction DOUBLE\n * @volatile" })], /no volatile/u],
    [
      "a type the parser refuses",
      [source({ signature: "export function double(volts: Date): any[][]" })],
      /room-1: .*[Tt]ype/u,
    ],
  ];
  for (const [what, sources, message] of slips) {
    it(`refuses ${what}`, () => expect(slipsOf(...sources).join("\n")).toMatch(message));
  }
});
