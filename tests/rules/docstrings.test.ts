import ts from "typescript";
import { SOURCES } from "../../src/core/sources";
import { filesBelow, textOf } from "./project";

/** Types that carry a unit. */
const QUANTITIES =
  /\b(?:Volt|Ampere|Milliampere|Ohm|Megohm|Watt|Celsius|Hour|Second|Day|AmpereHour|Rpm|Hertz|Metre|SquareMillimetre|SpecificGravity|Fraction)\b/u;

/** Rooms that compute: each of their formulas says its units and where it comes from. */
const ROOMS = /^src\/core\/(?:battery|stator|rectifier|wiring|circuit|judgement)\//u;

interface Documented {
  readonly place: string;
  readonly doc: string;
  readonly types: string;
}

/** Exported functions of a source text with their doc comments. */
function functionsIn(source: string, file: string): Documented[] {
  const found: Documented[] = [];
  ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true).forEachChild((node) => {
    if (!ts.isFunctionDeclaration(node) || !node.modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword))
      return;
    const doc = ts
      .getJSDocCommentsAndTags(node)
      .map((one) => one.getText())
      .join("\n");
    const types = [...node.parameters.map(({ type }) => type?.getText() ?? ""), node.type?.getText() ?? ""].join(" ");
    found.push({ place: `${file}: ${node.name?.text ?? "default"}`, doc, types });
  });
  return found;
}

/** Ids that the `@source` tags of a text name. */
function sourceIds(source: string): string[] {
  return [...source.matchAll(/@source\s+([^\n*]+)/gu)].map(([, rest]) => /^[\w-]+/u.exec(rest!)?.[0] ?? rest!.trim());
}

const CORE = filesBelow("src/core", /\.ts$/u).map((file) => ({ file, text: textOf(file) }));
const ALL = CORE.flatMap(({ file, text }) => functionsIn(text, file));

describe("doc comments of the computing rooms", () => {
  it("are read from everywhere", () => {
    expect(ALL.length).toBeGreaterThan(250);
    expect(CORE.flatMap(({ text }) => sourceIds(text)).length).toBeGreaterThan(60);
  });

  it("every quantity in or out has its unit in brackets", () => {
    expect(
      ALL.filter(({ types, doc }) => QUANTITIES.test(types) && !/\[[^\]]+\]/u.test(doc)).map(({ place }) => place),
    ).toEqual([]);
  });

  it("every quantity in or out has its formula documented", () => {
    expect(
      ALL.filter(({ place, types, doc }) => ROOMS.test(place) && QUANTITIES.test(types) && doc === "").map(
        ({ place }) => place,
      ),
    ).toEqual([]);
  });

  it("every @source is one of the list of sources", () => {
    const known = new Set([...Object.keys(SOURCES), "computed"]);
    const unknown = CORE.flatMap(({ file, text }) =>
      sourceIds(text)
        .filter((id) => !known.has(id))
        .map((id) => `${file}: ${id}`),
    );
    expect(unknown).toEqual([]);
  });

  it("would notice a missing unit and a source that is not listed", () => {
    const [bare] = functionsIn("/** Doubles. */ export function f(v: Volt): Volt { return v; }", "x.ts");
    expect(QUANTITIES.test(bare!.types) && !/\[[^\]]+\]/u.test(bare!.doc)).toBe(true);
    expect(sourceIds("/** x\n * @source some-book table 3\n */\n/** @source jcgm100 4 */")).toEqual([
      "some-book",
      "jcgm100",
    ]);
  });
});
