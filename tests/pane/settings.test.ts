import { TYPICAL_HANDHELD, uncertaintyOf } from "../../src/core/judgement/meter";
import { meterOf } from "../../src/pane/assess";
import { DEFAULTS, Drafts, keepSettings, loadSettings, type Keeper } from "../../src/pane/settings";

class MemoryKeeper implements Keeper {
  readonly texts = new Map<string, string>();
  getItem(key: string): string | null {
    return this.texts.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    this.texts.set(key, value);
  }
}

const forbidden: Keeper = {
  getItem: () => {
    throw new Error("forbidden");
  },
  setItem: () => {
    throw new Error("forbidden");
  },
};

describe("settings of the pane", () => {
  it("come back as they were kept", () => {
    const keeper = new MemoryKeeper();
    const settings = {
      ...DEFAULTS,
      language: "es",
      temperatures: "°F",
      rule: "strict",
      meter: { ohms: { percent: 0.5, counts: 3 } },
    } as const;
    keepSettings(keeper, settings);
    expect(loadSettings(keeper, "en")).toEqual(settings);
  });

  it("[fault] what another program left there, or half of it, gives the defaults", () => {
    const keeper = new MemoryKeeper();
    for (const text of [
      "{",
      "7",
      "null",
      '{"language":"xx","rule":3,"meter":{"ohms":{"percent":-1,"counts":"2"},"dc volts":null}}',
    ]) {
      for (const key of ["chargewright.settings", "chargewright.drafts"]) keeper.texts.set(key, text);
      expect(loadSettings(keeper, "es")).toEqual({ ...DEFAULTS, language: "es" });
      expect(new Drafts(keeper).get("a")).toBeUndefined();
    }
  });

  it("a host that forbids storage costs only the memory", () => {
    expect(loadSettings(forbidden, "en")).toEqual(DEFAULTS);
    const drafts = new Drafts(forbidden);
    drafts.set("Job|rested-voltage", "abc");
    expect(drafts.get("Job|rested-voltage")).toBe("abc");
  });

  it("unreadable texts survive closing the pane and go when they are corrected", () => {
    const keeper = new MemoryKeeper();
    new Drafts(keeper).set("Job|rested-voltage", "12.6.1");
    expect(new Drafts(keeper).get("Job|rested-voltage")).toBe("12.6.1");
    new Drafts(keeper).set("Job|rested-voltage", undefined);
    expect(new Drafts(keeper).get("Job|rested-voltage")).toBeUndefined();
  });

  it("[jcgm100 4.3.7, own ±(0.1 % + 1) against typical ±(0.5 % + 2)] a better meter narrows, functions left out stay typical", () => {
    const meter = meterOf({ "dc volts": { percent: 0.1, counts: 1 } });
    const reading = { kind: "number", value: 12.6 } as const;
    // a = 0.001·12.6 + 1·0.01 = 0.0226 V and half a step 0.005 V, both rectangular.
    expect(uncertaintyOf(reading, meter, "dc volts")).toBeCloseTo(Math.hypot(0.0226, 0.005) / Math.sqrt(3), 6);
    expect(uncertaintyOf(reading, meter, "ac volts")).toBe(uncertaintyOf(reading, TYPICAL_HANDHELD, "ac volts"));
  });
});
