import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import vm from "node:vm";
import { parse } from "csv-parse/sync";
import { execFileSync } from "node:child_process";
import { main } from "../../src/cli/main";
import type { WarehouseResult } from "../../src/warehouse/audit";

const ROOT = path.join(__dirname, "../..");
const folder = mkdtempSync(path.join(tmpdir(), "warehouse-"));
afterAll(() => rmSync(folder, { recursive: true }));
const FLEET = path.join(ROOT, "tests/fleet/demo-fleet.csv");

/** A context with the language and nothing else: what stands in it is what a warehouse's engine has as well. */
function bareContext(): vm.Context {
  const context = vm.createContext(Object.create(null));
  // This engine's own extras go too, so that the script cannot lean on them.
  vm.runInContext(
    "delete globalThis.WebAssembly; delete globalThis.console; delete globalThis.SharedArrayBuffer; delete globalThis.Atomics;",
    context,
  );
  return context;
}

describe("the audit script", () => {
  let context: vm.Context;
  let script: string;
  beforeAll(() => {
    execFileSync(
      process.execPath,
      [
        path.join(ROOT, "node_modules/webpack/bin/webpack.js"),
        "--config-name",
        "warehouse",
        "--mode",
        "production",
        "--output-path",
        folder,
      ],
      { cwd: ROOT },
    );
    script = readFileSync(path.join(folder, "chargewright-audit.js"), "utf8");
    context = bareContext();
    vm.runInContext(script, context);
  });

  const call = (row: object) =>
    JSON.parse(
      vm.runInContext(`JSON.stringify(chargewright.auditRow(${JSON.stringify(JSON.stringify(row))}))`, context),
    ) as WarehouseResult | null;

  it("runs where there is neither Node nor a browser", () => {
    for (const name of [
      "process",
      "require",
      "module",
      "Buffer",
      "window",
      "self",
      "document",
      "fetch",
      "console",
      "setTimeout",
      "TextDecoder",
      "URL",
      "performance",
      "structuredClone",
    ])
      expect(vm.runInContext(`typeof ${name}`, context)).toBe("undefined");
    expect(call({ Machine: "Quad 5", "Rested voltage": 11.9, "Key-off draw": "60 mA" })).toMatchObject({
      part: "load",
      state: "faulty",
    });
  });

  it("is one script that loads nothing, and defines one name", () => {
    expect(script).not.toMatch(/\brequire\(|\bimport\(|importScripts/u);
    const clean = bareContext();
    const before = vm.runInContext("Object.getOwnPropertyNames(globalThis)", clean) as string[];
    vm.runInContext(script, clean);
    const after = vm.runInContext("Object.getOwnPropertyNames(globalThis)", clean) as string[];
    expect(after.filter((name) => !before.includes(name))).toEqual(["chargewright"]);
  });

  it("says of every row of the demo fleet what the command line says", async () => {
    const output = path.join(folder, "fleet.json");
    const silent = { out: () => undefined, complain: () => undefined };
    expect(await main(["audit", FLEET, "-o", output, "--threads", "1"], silent)).toBe(0);
    const told = JSON.parse(readFileSync(output, "utf8")) as {
      rows: Record<string, unknown>[];
      notUnderstood: { row: number; column: string; what: string }[];
    };
    const rows = parse(readFileSync(FLEET), { columns: true }) as object[];
    expect(told.rows).toHaveLength(rows.length);
    rows.forEach((row, i) => {
      const { notUnderstood, notUsed, ...result } = call(row)!;
      expect(told.rows[i]).toMatchObject(result);
      expect(notUsed).toEqual(["Notes"]);
      expect(notUnderstood).toEqual(
        told.notUnderstood.filter((c) => c.row === i + 2).map(({ column, what }) => ({ column, what })),
      );
    });
  });

  it("takes machine data once for all rows, leaves totals and blank rows out", () => {
    const tables = {
      machines: [
        ["Machine", "Key-off draw, allowed"],
        ["Quad 5", 500],
      ],
    };
    const with500 = JSON.parse(
      vm.runInContext(
        `JSON.stringify(chargewright.auditor(${JSON.stringify(tables)})({ Machine: "Quad 5", "Key-off draw": "60 mA" }))`,
        context,
      ),
    ) as WarehouseResult;
    expect(with500.state).not.toBe("faulty");
    expect(call({ Machine: "Quad 5", "Key-off draw": "60 mA" })!.part).toBe("load");
    expect(call({ Machine: "Total", "Key-off draw": 99 })).toBeNull();
    expect(call({ Machine: "", "Key-off draw": null })).toBeNull();
  });
});
