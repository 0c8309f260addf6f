import { FAULTS, labelOfKey, type FaultKey } from "../../../src/core/diagnosis/faults";
import { FAULT_KEYS } from "../../../src/core/diagnosis/hypotheses";
import { CAUSES_WEIGHED, causesFromCells, faultsBehind } from "../../../src/core/quote/faults-behind";
import { inSpanish } from "../../../src/core/words/spanish/phrases";
import { templateOf } from "../../../src/workbook/templates";

const cause = (fault: FaultKey, chance: number) => ({ fault, chance });

describe("the faults behind a verdict", () => {
  it("are those of the part that hold its chance, likeliest first", () => {
    const causes = [
      cause("battery-sulfated+high-resistance-ground", 0.5),
      cause("high-resistance-bplus", 0.3),
      cause("high-resistance-ground", 0.1),
    ];
    expect(faultsBehind("wiring", causes)).toEqual(["high-resistance-ground", "high-resistance-bplus"]);
    expect(faultsBehind("battery", causes)).toEqual(["battery-sulfated"]);
    expect(faultsBehind("stator", causes)).toEqual([]);
  });

  it("leave out what is next to nothing beside the likeliest, and what a job sheet does not list", () => {
    const causes = [cause("high-resistance-ground", 0.8), cause("main-fuse-blown", 0.1), cause("healthy", 0.05)];
    expect(faultsBehind("wiring", causes)).toEqual(["high-resistance-ground"]);
    expect(faultsBehind("wiring", [...causes, cause("joint-fails-hot", 0.7)])).toEqual(["high-resistance-ground"]);
  });

  it.each([
    ["English", labelOfKey],
    ["Spanish", (key: FaultKey) => inSpanish(labelOfKey(key))],
  ])("are read back from what CAUSES writes in %s, every fault and every pair", (_, labelOf) => {
    const rows = FAULT_KEYS.map((key) => [labelOf(key), "", 0.5]);
    const read = causesFromCells(rows);
    expect(read.ok && read.value.map(({ fault }) => fault)).toEqual(FAULT_KEYS);
    expect(FAULT_KEYS.length).toBeGreaterThan(FAULTS.length);
  });

  it("are as many as the job sheet lists", () => {
    const job = templateOf("job")!;
    expect(job.kind === "page" && job.verdict.causeCount).toBe(CAUSES_WEIGHED);
  });
});
