import { parseTree, type IFunction } from "custom-functions-metadata";
import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import ts from "typescript";

/**
 * What Excel must know of every worksheet function (functions.json), read from the doc comments of
 * `src/functions`. The maker's parser does the reading; the slips it lets pass are refused here.
 */
export interface DescribedFunction extends IFunction {
  /** The file the function stands in: the room of the trade it belongs to. */
  readonly group: string;
  /** What comes back, from `@returns`. */
  readonly returns: string;
}

export const FUNCTIONS_FOLDER = path.resolve(__dirname, "../functions");

/** Every source file that holds worksheet functions, in alphabetical order. */
export function functionFiles(folder = FUNCTIONS_FOLDER): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith(".ts"))
    .sort()
    .map((name) => path.join(folder, name))
    .filter((file) => readFileSync(file, "utf8").includes("@customfunction"));
}

/** Reads all functions of a folder; throws with every slip named, one a line. */
export function describeFunctions(folder = FUNCTIONS_FOLDER): DescribedFunction[] {
  const slips: string[] = [];
  const functions = functionFiles(folder).flatMap((file) => {
    const read = describeSource(readFileSync(file, "utf8"), path.basename(file, ".ts"));
    slips.push(...read.slips);
    return read.functions;
  });
  slips.push(...slipsIn(functions));
  if (slips.length > 0) throw new Error(`Worksheet functions are not described well:\n${slips.join("\n")}`);
  return functions;
}

/** Reads the functions of one source text; what the parser itself refuses comes back as slips. */
export function describeSource(source: string, group: string): { functions: DescribedFunction[]; slips: string[] } {
  const parsed = parseTree(source, `${group}.ts`);
  const slips = parsed.extras.flatMap((extra) => extra.errors.map((error) => `${group}: ${error}`));
  const tags = source.match(/^\s*\*\s*@customfunction\b/gmu)?.length ?? 0;
  if (tags !== parsed.functions.length) {
    slips.push(
      `${group}: ${tags} @customfunction tags but ${parsed.functions.length} functions read; only plain function declarations count.`,
    );
  }
  const returns = returnTexts(source, group);
  const names = new Map(parsed.associate.map((pair) => [pair.id, pair.functionName]));
  const functions = parsed.functions.map((entry) => ({
    ...entry,
    ...(entry.description ? { description: oneLine(entry.description) } : {}),
    parameters: entry.parameters.map((parameter) => ({
      ...parameter,
      ...(parameter.description ? { description: oneLine(parameter.description) } : {}),
    })),
    group,
    returns: returns.get(names.get(entry.id) ?? "") ?? "",
  }));
  return { functions, slips };
}

/** The `@returns` text of each function, which the parser drops. */
function returnTexts(source: string, group: string): Map<string, string> {
  const texts = new Map<string, string>();
  ts.createSourceFile(`${group}.ts`, source, ts.ScriptTarget.Latest, true).forEachChild((node) => {
    if (!ts.isFunctionDeclaration(node) || !node.name) return;
    const text = ts.getTextOfJSDocComment(ts.getJSDocReturnTag(node)?.comment);
    if (text) texts.set(node.name.text, oneLine(text));
  });
  return texts;
}

function oneLine(text: string): string {
  return text.replaceAll(/\s+/gu, " ").replace(/^-\s*/u, "").trim();
}

/** A name that the grid would take for a cell (`ABC12`), a row-and-column address or a column. */
const LIKE_A_CELL = /^(?:[A-Z]{1,3}\d+|R\d*C\d*)$/u;

/** What the parser accepts in silence and Excel, or the user, pays for later; one sentence a slip. */
export function slipsIn(functions: readonly DescribedFunction[]): string[] {
  const slips: string[] = [];
  const seen = new Map<string, string>();
  for (const entry of functions) {
    const say = (what: string) => slips.push(`${entry.id} (${entry.group}): ${what}`);
    const twin = seen.get(entry.id);
    if (twin !== undefined) say(`the name is taken by a function of ${twin}.`);
    seen.set(entry.id, entry.group);
    if (entry.name !== entry.id) say(`the shown name "${entry.name}" must be the id.`);
    if (!/^[A-Z][A-Z0-9]*$/u.test(entry.id)) say("a name is made of capital letters and digits only.");
    if (entry.id.length < 3) say("a name has at least three characters.");
    if (LIKE_A_CELL.test(entry.id)) say("the name looks like a cell.");
    if (!entry.description) say("the description is missing.");
    if (!entry.returns) say("@returns is missing.");
    if (entry.options) say(`only plain functions are wanted, no ${Object.keys(entry.options).join(", ")}.`);
    if ((entry.result?.type ?? "any") !== "any" || entry.result?.dimensionality !== "matrix") {
      say("the result is a block of cells: any[][].");
    }
    slips.push(...slipsInParameters(entry));
  }
  return slips;
}

function slipsInParameters(entry: DescribedFunction): string[] {
  const slips: string[] = [];
  const names = new Set<string>();
  let optional: string | undefined;
  for (const [i, parameter] of entry.parameters.entries()) {
    const say = (what: string) => slips.push(`${entry.id} (${entry.group}), ${parameter.name}: ${what}`);
    if (names.has(parameter.name)) say("the name is used twice.");
    names.add(parameter.name);
    if (!parameter.description) say("the description is missing.");
    // A number parameter that is handed "OL" never reaches the function at all.
    if (parameter.type !== "any") say(`the type is ${parameter.type}; only any lets every reading through.`);
    if (parameter.repeating && i < entry.parameters.length - 1) say("a repeating argument stands last.");
    if (parameter.optional) optional ??= parameter.name;
    else if (optional !== undefined && !parameter.repeating)
      say(`a needed argument stands before the optional ${optional}.`);
  }
  return slips;
}

/**
 * The metadata file as Excel reads it. Errors in cells reach the function as values
 * (`allowErrorForDataTypeAny`, which the maker's generator never writes) so that a faulty cell can
 * be named; `helpUrl` points to the help page of each function.
 */
export function metadataJson(functions: readonly DescribedFunction[], base?: string): string {
  const entries = functions.map(({ group: _group, returns: _returns, ...entry }) => ({
    ...entry,
    ...(base === undefined ? {} : { helpUrl: helpUrl(entry.id, base) }),
  }));
  return `${JSON.stringify(
    { allowCustomDataForDataTypeAny: true, allowErrorForDataTypeAny: true, functions: entries },
    null,
    2,
  )}\n`;
}

/** Address of a function's help page below the add-in's own base address. */
export function helpUrl(id: string, base: string): string {
  return new URL(`help/${id}.html`, base.endsWith("/") ? base : `${base}/`).href;
}
