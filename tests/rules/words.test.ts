import { filesBelow, linesWith, textOf } from "./project";

/** What no file of the project may hold. The patterns are put together so that this file does not hold them itself. */
const FORBIDDEN: readonly [what: string, pattern: RegExp, sample: string][] = [
  [
    "a path of somebody's machine",
    new RegExp(String.raw`(?<![\w.$}])/(?:${["work", "root", "home", "Users"].join("|")})/\w`, "u"),
    `see /${"root"}/notes`,
  ],
  ["a temporary folder by its path", new RegExp(String.raw`(?<![\w.$}])/${"tmp"}/\w`, "u"), `write to /${"tmp"}/out`],
  ["a drive letter", new RegExp(String.raw`\b[C-Z]:\\+(?:Users|Temp)\\`, "u"), `C:\\${"Users"}\\me`],
  [
    "unfinished work",
    new RegExp(String.raw`\b(?:${["TO" + "DO", "FIX" + "ME", "XX" + "X", "TB" + "D", "HA" + "CK"].join("|")})\b`, "u"),
    `// TO${"DO"}: later`,
  ],
  ["a placeholder text", new RegExp(["lorem", "ipsum"].join(" "), "iu"), `Lorem ${"ipsum"} dolor`],
  ["a secret", new RegExp(`-----BEGIN [A-Z ]*PRIVATE ${"KEY"}-----`, "u"), `-----BEGIN PRIVATE ${"KEY"}-----`],
];

/** Paths that are not of a machine: where Excel for Mac looks for add-ins, the pseudo files of a system. */
const ALLOWED = /~\/Library\/Containers\/|\/dev\/|<username>/u;

const FILES = filesBelow(".", /\.(?:ts|tsx|cjs|mjs|js|json|md|html|css|xml|svg|csv)$|^\.ci\//u).filter(
  (file) => file !== "package-lock.json",
);

describe("words that no file holds", () => {
  it("looks at the whole project", () => {
    expect(FILES.length).toBeGreaterThan(200);
    for (const file of ["README.md", "src/functions/registry.ts", "manifest/manifest.xml", ".ci/run"])
      expect(FILES).toContain(file);
  });

  for (const [what, pattern, sample] of FORBIDDEN) {
    it(what, () => {
      expect(sample).toMatch(pattern);
      const found = FILES.flatMap((file) =>
        linesWith(textOf(file), pattern)
          .filter((line) => !ALLOWED.test(line))
          .map((line) => `${file}:${line}`),
      );
      expect(found).toEqual([]);
    });
  }

  it("the lockfile names no host but the public registry", () => {
    const hosts = new Set(
      [...textOf("package-lock.json").matchAll(/"resolved": "https?:\/\/([^/"]+)/gu)].map(([, host]) => host),
    );
    hosts.delete("registry.npmjs.org");
    expect([...hosts]).toEqual([]);
  });
});
