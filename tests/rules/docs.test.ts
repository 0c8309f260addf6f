import { existsSync } from "node:fs";
import path from "node:path";
import project from "../../package.json";
import { ROOT, textOf } from "./project";

const DOCUMENTS = ["README.md", "DEVELOPERS.md", "tests/excel-by-hand.md"];

/** Targets of links and pictures that lie in the project. */
function linksOf(markdown: string): string[] {
  return [...markdown.matchAll(/\]\(([^)\s]+)\)/gu)]
    .map(([, target]) => target!.split("#")[0]!)
    .filter((target) => target !== "" && !/^[a-z]+:/u.test(target));
}

/** npm scripts that a text tells the reader to run. */
function scriptsOf(markdown: string): string[] {
  return [...markdown.matchAll(/\bnpm (?:run )?([a-z][a-z:]*)/gu)]
    .map(([, name]) => name!)
    .filter((name) => !["ci", "i", "install"].includes(name));
}

/** Files and folders of the project that a text names in code spans. */
function pathsOf(markdown: string): string[] {
  const prose = markdown.replaceAll(/^```[\s\S]*?^```/gmu, "");
  return [...prose.matchAll(/`((?:src|tests|templates|manifest|\.config|\.ci)\/[\w./-]*)`/gu)].map(([, name]) => name!);
}

describe.each(DOCUMENTS)("%s", (document) => {
  const text = textOf(document);
  const beside = (target: string) => path.join(ROOT, path.dirname(document), target);

  it("links to what is there", () => expect(linksOf(text).filter((target) => !existsSync(beside(target)))).toEqual([]));

  it("names scripts that there are", () =>
    expect(scriptsOf(text).filter((name) => !(name in project.scripts))).toEqual([]));

  it("names files that there are", () =>
    expect(pathsOf(text).filter((name) => !existsSync(path.join(ROOT, name)))).toEqual([]));
});

describe("the documents together", () => {
  it("are looked at where it counts: links, scripts and files are found in them", () => {
    const all = DOCUMENTS.map(textOf).join("\n");
    expect([linksOf(all).length, scriptsOf(all).length, pathsOf(all).length].every((count) => count > 0)).toBe(true);
    expect(linksOf("[a](gone.md) ![b](x/y.png#z) [c](https://example.org)")).toEqual(["gone.md", "x/y.png"]);
    expect(scriptsOf("`npm ci && npm test`, npm run build:addin")).toEqual(["test", "build:addin"]);
    expect(pathsOf("see `src/core/cell.ts` and `src/nowhere/`")).toEqual(["src/core/cell.ts", "src/nowhere/"]);
  });

  it("say of every dependency why it is there", () => {
    const text = textOf("DEVELOPERS.md");
    const named = (name: string) =>
      text.includes(name) ||
      (name.startsWith("@univerjs/") && text.includes("@univerjs/*")) ||
      (name.startsWith("@types/") && text.includes("@types/*"));
    const all = Object.keys({ ...project.dependencies, ...project.devDependencies });
    expect(all.filter((name) => !named(name))).toEqual([]);
  });
});
