import { readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import ts from "typescript";
import { SpokenWords } from "../../src/local/words";

const { refused } = new SpokenWords("es");
const SOURCE = path.resolve(__dirname, "../../src");
/** Rooms whose refusals reach the pane or the local page; the command line has tables of its own. */
const ROOMS = ["workbook", "local", "hosts/excel", "hosts/grid", "hosts/file"];
/** What a sentence is filled with: names, cells and numbers, which stay as they are. */
const FILLING = "7";

/** Every text that an expression can come to. */
function textsOf(node: ts.Expression): string[] {
  if (ts.isStringLiteralLike(node)) return [node.text];
  if (ts.isConditionalExpression(node)) return [...textsOf(node.whenTrue), ...textsOf(node.whenFalse)];
  if (ts.isTemplateExpression(node))
    return node.templateSpans.reduce(
      (texts, { expression, literal }) =>
        texts.flatMap((text) => textsOf(expression).map((filling) => text + filling + literal.text)),
      [node.head.text],
    );
  return [FILLING];
}

/** Texts of the first argument of a call or construction of `name`, in all files of the rooms. */
function saidBy(name: string): readonly string[] {
  const texts = new Set<string>();
  for (const room of ROOMS) {
    for (const file of readdirSync(path.join(SOURCE, room), { recursive: true, encoding: "utf8" })) {
      if (!file.endsWith(".ts")) continue;
      const place = path.join(SOURCE, room, file);
      const look = (node: ts.Node): void => {
        if (
          (ts.isNewExpression(node) || ts.isCallExpression(node)) &&
          node.expression.getText().split(".").at(-1) === name
        )
          for (const text of node.arguments?.[0] ? textsOf(node.arguments[0]) : []) texts.add(text);
        ts.forEachChild(node, look);
      };
      look(ts.createSourceFile(place, readFileSync(place, "utf8"), ts.ScriptTarget.Latest, true));
    }
  }
  return [...texts].filter((text) => text !== FILLING);
}

async function unknown(texts: readonly string[]): Promise<string[]> {
  const said = await Promise.all(texts.map((text) => refused(text)));
  return texts.filter((text, i) => said[i] === text);
}

describe("what a workbook refuses, in Spanish", () => {
  /** Filled in by what comes before or after, which is looked at by itself. */
  const made = new Set([
    `${FILLING} ${FILLING}; ${FILLING}.`,
    `${FILLING} Nothing was changed.`,
    `${FILLING} in the way: ${FILLING}. Nothing was written; clear it or choose another column.`,
  ]);

  it("is known, wherever the source refuses", async () => {
    const refusals = saidBy("WorkbookFault").filter(
      (text) => !made.has(text) && !text.startsWith(`${FILLING} Excel then`),
    );
    expect(refusals.length).toBeGreaterThan(50);
    // What Excel could not do comes first there.
    const doing = saidBy("#run").map((text) => `${text}: Excel refused.`);
    expect(doing.length).toBeGreaterThan(4);
    const told = refusals.map((text) => text.replace(new RegExp(`^${FILLING}: `, "u"), "Writing to the workbook: "));
    expect(await unknown([...told, ...doing])).toEqual([]);
  });

  it("is known where a file is none, or not all of it is kept", async () => {
    expect(await unknown(saidBy("lose").map((text) => `Bench: ${text}`))).toEqual([]);
  });

  it.each([
    [
      "Reading Job!A1:B2: a cell is being edited. Press Enter or Esc in the sheet and try again. Nothing was changed.",
      "Al leer Job!A1:B2: se está editando una celda. Pulse Entrar o Esc en la hoja y pruebe de nuevo. No se cambió nada.",
    ],
    [
      "yard.xls is a workbook of the old format (.xls); save it as .xlsx and try again.",
      "yard.xls es un libro del formato antiguo (.xls); guárdelo como .xlsx y pruebe de nuevo.",
    ],
    ["Job: 2 pictures", "Job: 2 imágenes"],
    ["Job: 1 pivot table", "Job: 1 tabla dinámica"],
    [
      "The shop's computer cannot be reached. What you typed stays in its field; try again when it is back.",
      "No se alcanza el ordenador del taller. Lo que escribió queda en su campo; pruebe de nuevo cuando vuelva.",
    ],
    ["The kettle boils.", "The kettle boils."],
  ])("%s", async (english, spanish) => expect(await refused(english)).toBe(spanish));
});
