import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { ROOT } from "./project";

type Import = readonly [from: string, to: string];

/** Lays out a small project with these imports and tells which rules each breaks: `from → to: rule`. */
function broken(imports: readonly Import[]): string[] {
  const folder = mkdtempSync(path.join(tmpdir(), "layers-"));
  const texts = new Map<string, string>();
  for (const [from, to] of imports) {
    if (!texts.has(to)) texts.set(to, "");
    const way = path.posix.relative(path.posix.dirname(from), to.replace(/\.ts$/u, ""));
    texts.set(from, `${texts.get(from) ?? ""}import "${way.startsWith(".") ? way : `./${way}`}";\n`);
  }
  for (const [file, text] of texts) {
    mkdirSync(path.join(folder, path.dirname(file)), { recursive: true });
    writeFileSync(path.join(folder, file), `${text}export const here = 1;\n`);
  }
  writeFileSync(path.join(folder, "tsconfig.json"), "{}");
  const tool = path.join(ROOT, "node_modules/dependency-cruiser/bin/dependency-cruise.mjs");
  const config = path.join(ROOT, ".config/dependency-cruiser.cjs");
  const run = spawnSync(process.execPath, [tool, "--config", config, "--output-type", "json", "src"], {
    cwd: folder,
    encoding: "utf8",
  });
  const { summary } = JSON.parse(run.stdout) as {
    summary: { violations: { from: string; to: string; rule: { name: string } }[] };
  };
  return summary.violations.map(({ from, to, rule }) => `${from} → ${to}: ${rule.name}`);
}

describe("the arrows of the house", () => {
  const back: [from: string, to: string, rule: string][] = [
    ["src/core/battery/charge.ts", "src/workbook/port.ts", "core-is-pure"],
    ["src/core/readings/parse.ts", "src/core/judgement/types.ts", "core-readings"],
    ["src/core/judgement/rule.ts", "src/core/stator/ohms.ts", "core-judgement"],
    ["src/core/battery/charge.ts", "src/core/diagnosis/verdict.ts", "core-battery"],
    ["src/core/circuit/solve.ts", "src/core/limits/limit.ts", "core-circuit"],
    ["src/functions/soc.ts", "src/workbook/port.ts", "functions"],
    ["src/workbook/plan.ts", "src/hosts/excel/workbook.ts", "workbook"],
    ["src/hosts/grid/grid.ts", "src/pane/mount.ts", "hosts"],
    ["src/hosts/excel/workbook.ts", "src/pane/mount.ts", "hosts"],
    ["src/pane/view.ts", "src/local/page.ts", "pane"],
  ];
  const forth: Import[] = [
    ["src/core/judgement/rule.ts", "src/core/readings/types.ts"],
    ["src/core/diagnosis/verdict.ts", "src/core/circuit/solve.ts"],
    ["src/functions/soc.ts", "src/core/battery/charge.ts"],
    ["src/workbook/plan.ts", "src/core/readings/catalogue.ts"],
    ["src/hosts/excel/workbook.ts", "src/workbook/port.ts"],
    ["src/hosts/excel/entry.ts", "src/pane/mount.ts"],
    ["src/pane/view.ts", "src/workbook/port.ts"],
  ];
  const circle: Import[] = [
    ["src/core/wiring/drop.ts", "src/core/wiring/joint.ts"],
    ["src/core/wiring/joint.ts", "src/core/wiring/drop.ts"],
  ];
  let found: string[];
  beforeAll(() => {
    found = broken([...back.map(([from, to]): Import => [from, to]), ...forth, ...circle]);
  });

  it("let no import point back", () =>
    expect(back.map(([from, to, rule]) => `${from} → ${to}: ${rule}`).filter((one) => !found.includes(one))).toEqual(
      [],
    ));

  it("let what points forward be", () =>
    expect(found.filter((one) => forth.some(([from, to]) => one.startsWith(`${from} → ${to}:`)))).toEqual([]));

  it("let no two files import each other", () =>
    expect(found.join("\n")).toMatch(/src\/core\/wiring\/\w+\.ts: no-cycle/u));
});
