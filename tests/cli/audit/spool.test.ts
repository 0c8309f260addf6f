import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import fc from "fast-check";
import { Spool } from "../../../src/cli/audit/spool";

const folder = mkdtempSync(path.join(tmpdir(), "spool-"));
afterAll(() => rmSync(folder, { recursive: true }));
const file = path.join(folder, "lines.part");

describe("lines set aside on disk", () => {
  it("[property] come back whole, by rising keys, those of one key as they were added", () => {
    fc.assert(
      fc.property(fc.array(fc.record({ key: fc.nat(20), text: fc.string({ unit: "binary" }) })), (lines) => {
        const spool = new Spool<{ key: number; text: string }>(file);
        for (const line of lines) spool.add(line.key, line);
        expect(spool.length).toBe(lines.length);
        const sorted = [...lines].sort((a, b) => a.key - b.key);
        expect([...spool.inOrder()]).toEqual(sorted);
        expect([...spool.inOrder()]).toEqual(sorted);
        spool.remove();
        expect(existsSync(file)).toBe(false);
      }),
      { seed: 20261125, numRuns: 50 },
    );
  });

  it("are taken up in pieces: more than a piece comes back as well", () => {
    const spool = new Spool<string>(file);
    const lines = Array.from({ length: 3000 }, (_, i) => `${i} ${"x".repeat(i % 200)}`);
    lines.forEach((line, i) => spool.add(-i, line));
    expect([...spool.inOrder()]).toEqual([...lines].reverse());
    spool.remove();
  });
});
