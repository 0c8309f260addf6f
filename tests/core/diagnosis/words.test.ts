import { explain } from "../../../src/core/diagnosis/why";
import { numberWords } from "../../../src/core/judgement/words";
import { jobOf, MACHINE_IN_ORDER, READINGS_IN_ORDER } from "./jobs";

const said = (values: Parameters<typeof jobOf>[0]) => {
  const { evidence } = explain(jobOf({ ...MACHINE_IN_ORDER, ...values }))!;
  return evidence.flatMap((e) => [...e.for, ...e.against]).map((item) => item.words);
};

describe("what is said of a reading", () => {
  it("does not round it to another one", () => {
    expect(said({ "ground-a": 0.4, "ground-b": 0.52 }).join("\n")).toContain("Winding A to ground 0.4 Ω");
    expect(numberWords(0.4, { unit: "Ω", decimals: 0 })).toBe("0.4 Ω");
    expect(numberWords(3, { unit: "Ω", decimals: 0 })).toBe("3 Ω");
    expect(numberWords(12.64, { unit: "V", decimals: 2 })).toBe("12.64 V");
    expect(numberWords(20000, { unit: "Ω", decimals: 0 })).toBe("20000 Ω");
  });

  it("expects no more volts across an open lead than the machine makes", () => {
    const blown = {
      "rested-voltage": 12.3,
      "test-voltage": 12.1,
      "bplus-drop": 13.5,
      "ground-drop": 0,
      "drop-current": 0,
    };
    const words = said(blown).filter((w) => w.includes("13.500 V"));
    expect(words.length).toBeGreaterThan(0);
    for (const w of words) {
      expect(w).toContain("the full voltage in the B+ run");
      expect(Math.max(...[...w.matchAll(/(\d+\.?\d*) V/gu)].map((m) => Number(m[1])))).toBeLessThan(20);
    }
  });

  it("calls a rest after charging no load test that was passed or failed", () => {
    const rested = {
      ...READINGS_IN_ORDER,
      "load-test-recharged": "yes",
      "load-test-rested": 12.4,
      "load-test-voltage": null,
    };
    expect(said({ ...rested, "load-test-current": null }).join("\n")).not.toMatch(
      /holds its voltage|collapse under load/u,
    );
  });

  it("does not call a part-less outcome a clean bill while something is wrong", () => {
    const { nextChecks } = explain(jobOf({ ...MACHINE_IN_ORDER, "rested-voltage": 11.9, "test-voltage": 13.1 }))!;
    const means = nextChecks.flatMap((c) => c.outcomes.map((o) => o.means));
    expect(means.join("\n")).toMatch(/no part named yet \(\S+ % that all is in order\)/u);
    expect(means.join("\n")).not.toMatch(/still no fault found/u);
  });
});
