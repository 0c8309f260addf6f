import { existsSync, readFileSync } from "node:fs";
import path from "node:path";
import { byRoom, helpPages, signature, withFunctionTable } from "../../src/tools/function-help";
import { describeFunctions, describeSource } from "../../src/tools/function-metadata";
import { examplesIn, workedExamples } from "../../src/tools/worked-examples";

const SOURCE = `
/**
 * Voltage across a <joint> | its drop.
 * @customfunction JOINT
 * @param volts Drop across it, V
 * @param [amps] Current, A
 * @returns Resistance, Ω
 * @example =CHG.JOINT(0.35, "14 A") gives 0.025
 */
export function joint(volts: any[][], amps?: any[][]): any[][] { return volts; }
`;
const one = describeSource(SOURCE, "wiring").functions;
const examples = examplesIn(SOURCE);

describe("help on the worksheet functions", () => {
  it("shows the call with what may be left out in brackets", () =>
    expect(signature(one[0]!)).toBe("CHG.JOINT(volts, [amps])"));

  it("writes the table between the two marks of a document and leaves the rest", () => {
    const text = "# A\n<!-- functions -->\nold\n<!-- /functions -->\nend\n";
    const written = withFunctionTable(text, one, examples);
    expect(written).toBe(
      [
        "# A",
        "<!-- functions -->",
        "<!-- prettier-ignore-start -->",
        "",
        "**Wiring**",
        "",
        "| function | what it gives | example |",
        "| --- | --- | --- |",
        '| `CHG.JOINT(volts, [amps])` | Voltage across a <joint> \\| its drop. | `=CHG.JOINT(0.35, "14 A")` gives 0.025 |',
        "",
        "<!-- prettier-ignore-end -->",
        "<!-- /functions -->",
        "end",
        "",
      ].join("\n"),
    );
    expect(withFunctionTable(written, one, examples)).toBe(written);
    expect(withFunctionTable("no marks", one, examples)).toBe("no marks");
  });

  it("makes a page for each function, with its arguments, result and example, and an index", () => {
    const pages = helpPages(one, examples);
    expect([...pages.keys()]).toEqual(["help/help.css", "help/index.html", "help/JOINT.html"]);
    const page = pages.get("help/JOINT.html")!;
    expect(page).toContain("<title>CHG.JOINT</title>");
    expect(page).toContain("Voltage across a &lt;joint&gt; | its drop.");
    expect(page).toMatch(/<code>amps<\/code><\/th><td>Current, A<\/td><td>optional/u);
    expect(page).toContain("=CHG.JOINT(0.35, &quot;14 A&quot;)</code> gives 0.025.");
    expect(page).toMatch(/service manual/u);
    expect(pages.get("help/index.html")).toContain('<a href="JOINT.html">CHG.JOINT</a>');
  });

  it("wants a room's name for a new file of functions", () => {
    expect(() => byRoom(describeSource(SOURCE, "attic").functions)).toThrow(/attic\.ts need a name/u);
  });

  it("has no link that leads nowhere", () => {
    const pages = helpPages(describeFunctions(), workedExamples());
    const broken: string[] = [];
    for (const [name, text] of pages) {
      for (const [, link] of text.matchAll(/href="([^"#]+)"/gu)) {
        const target = path.posix.join("help", link!);
        if (!pages.has(target) && target !== "icon.svg") broken.push(`${name} → ${link}`);
      }
    }
    expect(broken).toEqual([]);
  });

  it("every function has a worked example of its own", () => {
    const shown = new Set(workedExamples().map(({ name }) => name));
    expect(
      describeFunctions()
        .filter(({ id }) => !shown.has(id))
        .map(({ id }) => id),
    ).toEqual([]);
  });

  it("the README lists the functions as they are (npm run docs brings it up to date)", () => {
    const file = path.resolve(__dirname, "../../README.md");
    expect(existsSync(file)).toBe(true);
    const text = readFileSync(file, "utf8");
    expect(text).toContain("<!-- functions -->");
    expect(withFunctionTable(text, describeFunctions(), workedExamples())).toBe(text);
  });
});
