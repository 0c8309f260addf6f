import { CAUTIONS } from "../core/readings/cautions";
import { NAMESPACE } from "../functions/registry";
import type { DescribedFunction } from "./function-metadata";
import type { WorkedExample } from "./worked-examples";

/**
 * Help on every worksheet function, from one source: the table of the README and a page for each
 * function that Excel opens from its formula help.
 */
const ROOMS: Readonly<Record<string, string>> = {
  battery: "Battery",
  charging: "Charging",
  stator: "Stator",
  rectifier: "Regulator-rectifier",
  wiring: "Wiring",
  judgement: "Judgement",
  verdict: "Verdict",
  quote: "Quote",
  fleet: "Fleet",
  notices: "Notices",
  capture: "Capture",
};

/** Functions by room, rooms in the order of the work. */
export function byRoom(functions: readonly DescribedFunction[]): [string, DescribedFunction[]][] {
  const unknown = functions.find((entry) => !(entry.group in ROOMS));
  if (unknown) throw new Error(`The functions of ${unknown.group}.ts need a name for their room in the help.`);
  return Object.entries(ROOMS)
    .map(([group, title]): [string, DescribedFunction[]] => [title, functions.filter((entry) => entry.group === group)])
    .filter(([, all]) => all.length > 0);
}

/** `CHG.SOC(volts, type, [temp])`. */
export function signature(entry: DescribedFunction): string {
  return `${NAMESPACE}.${entry.id}(${entry.parameters.map(({ name, optional }) => (optional ? `[${name}]` : name)).join(", ")})`;
}

const START = "<!-- functions -->";
const END = "<!-- /functions -->";

/** A Markdown document with the table of functions put between its two marks; as it is where it has none. */
export function withFunctionTable(
  markdown: string,
  functions: readonly DescribedFunction[],
  examples: readonly WorkedExample[],
): string {
  const start = markdown.indexOf(START);
  const end = markdown.indexOf(END);
  if (start < 0 || end < start) return markdown;
  // A formatter would pad the columns to the width of the longest description.
  const table = `<!-- prettier-ignore-start -->\n\n${functionTable(functions, examples)}\n<!-- prettier-ignore-end -->`;
  return `${markdown.slice(0, start + START.length)}\n${table}\n${markdown.slice(end)}`;
}

function functionTable(functions: readonly DescribedFunction[], examples: readonly WorkedExample[]): string {
  const rows = byRoom(functions).map(([title, all]) => {
    const lines = all.map((entry) => {
      const example = examples.find(({ name }) => name === entry.id);
      const shown = example ? `${code(example.formula)} gives ${inCell(example.gives)}` : "";
      return `| ${code(signature(entry))} | ${inCell(entry.description ?? "")} | ${shown} |`;
    });
    return [`**${title}**`, "", "| function | what it gives | example |", "| --- | --- | --- |", ...lines, ""].join(
      "\n",
    );
  });
  return rows.join("\n");
}

function code(text: string): string {
  return `\`${inCell(text)}\``;
}

function inCell(text: string): string {
  return text.replaceAll("|", "\\|").replaceAll("\n", " ");
}

/** Help pages by their path below the add-in's address. */
export function helpPages(
  functions: readonly DescribedFunction[],
  examples: readonly WorkedExample[],
): Map<string, string> {
  const pages = new Map([
    ["help/help.css", STYLE],
    ["help/index.html", indexPage(functions)],
  ]);
  for (const entry of functions) pages.set(`help/${entry.id}.html`, functionPage(entry, examples));
  return pages;
}

function indexPage(functions: readonly DescribedFunction[]): string {
  const rooms = byRoom(functions).map(
    ([title, all]) =>
      `<h2>${html(title)}</h2>\n<dl>\n${all
        .map(
          (entry) =>
            `<dt><a href="${entry.id}.html">${NAMESPACE}.${entry.id}</a></dt><dd>${html(entry.description ?? "")}</dd>`,
        )
        .join("\n")}\n</dl>`,
  );
  return page(
    "Chargewright functions",
    `<h1>Worksheet functions</h1>\n${CONVENTIONS}\n${rooms.join("\n")}\n<p class="care">${html(CAUTIONS.manual)}</p>`,
  );
}

function functionPage(entry: DescribedFunction, examples: readonly WorkedExample[]): string {
  const rows = entry.parameters.map(
    ({ name, description, optional }) =>
      `<tr><th scope="row"><code>${html(name)}</code></th><td>${html(description ?? "")}</td><td>${optional ? "optional" : "yes"}</td></tr>`,
  );
  const shown = examples
    .filter(({ name }) => name === entry.id)
    .map(({ formula, gives }) => `<p><code>${html(formula)}</code> gives ${html(gives)}.</p>`);
  return page(
    `${NAMESPACE}.${entry.id}`,
    [
      `<p><a href="index.html">All functions</a></p>`,
      `<h1>${NAMESPACE}.${entry.id}</h1>`,
      `<p>${html(entry.description ?? "")}</p>`,
      `<p class="syntax"><code>=${html(signature(entry))}</code></p>`,
      `<h2>Arguments</h2>`,
      `<table><thead><tr><th scope="col">Name</th><th scope="col">What to give</th><th scope="col">Needed</th></tr></thead><tbody>`,
      ...rows,
      `</tbody></table>`,
      `<h2>Result</h2>`,
      `<p>${html(entry.returns)}.</p>`,
      ...(shown.length > 0 ? [`<h2>Example</h2>`, ...shown] : []),
      `<h2>Good to know</h2>`,
      CONVENTIONS,
      `<p class="care">${html(CAUTIONS.manual)}</p>`,
    ].join("\n"),
  );
}

const CONVENTIONS = `<ul>
<li>Give a number in the unit named, or text with a unit: <code>12.6</code>, <code>"12.6 V"</code>, <code>"70 °F"</code>, <code>"350 mA"</code>, <code>"OL"</code>.</li>
<li>A blank reading gives a blank result or <em>not read</em>, never zero.</li>
<li>A range works wherever one reading works; the results fill the cells beside the formula.</li>
<li>A reading that cannot be read gives #VALUE! with a sentence that says what to enter: point at the cell's warning sign.</li>
</ul>`;

function page(title: string, body: string): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${html(title)}</title>
<link rel="stylesheet" href="help.css">
<link rel="icon" href="../icon.svg">
</head>
<body>
<main>
${body}
</main>
</body>
</html>
`;
}

const STYLE = `body { font: 1rem/1.5 system-ui, sans-serif; margin: 0; color: #1f2326; background: #fff; }
main { max-width: 46rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.5rem; }
h2 { font-size: 1.1rem; margin-top: 1.5rem; }
a { color: #0b6464; }
code { font-family: ui-monospace, monospace; overflow-wrap: anywhere; }
.syntax { padding: 0.5rem 0.75rem; border-left: 3px solid #0b6464; background: #f6f8f9; }
.care { margin-top: 2rem; border-top: 1px solid #d5dade; padding-top: 0.75rem; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; vertical-align: top; padding: 0.35rem 0.75rem 0.35rem 0; border-bottom: 1px solid #d5dade; }
th code { overflow-wrap: normal; }
dt { margin-top: 0.75rem; font-weight: 600; }
dd { margin: 0; }
@media (prefers-color-scheme: dark) {
  body { color: #e8ebed; background: #1d2123; }
  a { color: #62c7c0; }
  .syntax { border-color: #62c7c0; background: #272c2f; }
  th, td, .care { border-color: #41484d; }
}
`;

function html(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}
