import { readFileSync } from "node:fs";
import path from "node:path";
import fc from "fast-check";
import { FAULT_KEYS } from "../../../src/core/diagnosis/hypotheses";
import { labelOfKey } from "../../../src/core/diagnosis/faults";
import { CATALOGUE } from "../../../src/core/readings/catalogue";
import { CAUTIONS } from "../../../src/core/readings/cautions";
import { stepsOf } from "../../../src/core/readings/check-steps";
import { CHECKS } from "../../../src/core/readings/checks";
import { jobsFromFile } from "../../../src/core/readings/from-job-file";
import { SPANISH_LABELS } from "../../../src/core/readings/spanish-labels";
import type { Entry, Job, Measured, QuantityEntry } from "../../../src/core/readings/types";
import { faultMessage } from "../../../src/core/result";
import { solveCurve } from "../../../src/pane/charts/solve-curve";
import { readTyped } from "../../../src/pane/open-job";
import { CHOICES } from "../../../src/core/words/spanish/catalogue";
import { CHECK_LABELS } from "../../../src/core/words/spanish/check-labels";
import { CHECK_PHRASES, CHECK_STEPS } from "../../../src/core/words/spanish/checks";
import { SPANISH_PHRASES } from "../../../src/core/words/spanish/phrases";
import { expectedOf, toldOf } from "./told";

/** What cells say, and beyond that how checks are taken: the book of the pane. */
const BOOK = SPANISH_PHRASES.with(CHECK_PHRASES);

/** English sentences that the book does not know, numbers taken out so that each is named once. */
function unknown(sentences: Iterable<string>): string[] {
  const missing = [...sentences].filter((text) => BOOK.said(text) === undefined);
  return [...new Set(missing.map((text) => text.replaceAll(/\d+(?:\.\d+)?/gu, "#")))];
}

describe("names in Spanish", () => {
  it("stand for every id of the catalogue and for no other", () => {
    expect(Object.keys(SPANISH_LABELS).sort()).toEqual(CATALOGUE.map(({ id }) => id).sort());
    const choices = CATALOGUE.filter((entry) => entry.kind === "choice");
    expect(Object.keys(CHOICES).sort()).toEqual(choices.map(({ id }) => id).sort());
    for (const { id, choices: all } of choices)
      expect(Object.keys(CHOICES[id]!).sort()).toEqual(all.map(({ value }) => value).sort());
  });

  it("stand for every check, step by step", () => {
    for (const known of [CHECK_LABELS, CHECK_STEPS])
      expect(Object.keys(known).sort()).toEqual(CHECKS.map(({ id }) => id).sort());
    for (const { id } of CHECKS) expect([id, CHECK_STEPS[id]!.length]).toEqual([id, stepsOf(id).length]);
    expect(unknown(CHECKS.flatMap(({ id, label, tools }) => [label, ...stepsOf(id), ...tools]))).toEqual([]);
    expect(unknown(Object.values(CAUTIONS))).toEqual([]);
  });

  it("keep the case of the sentence they stand in", () => {
    expect(SPANISH_PHRASES.said("Weak rotor")).toBe("Rotor débil");
    expect(SPANISH_PHRASES.said("Worn or sulfated battery and weak rotor")).toBe("Batería gastada o sulfatada y rotor débil");
    expect(unknown(FAULT_KEYS.map(labelOfKey))).toEqual([]);
  });
});

describe("sentences in Spanish", () => {
  it.each([
    [
      "Regulator-rectifier: suspect (49 %), regulator never fires; not proven.",
      "Regulador-rectificador: bajo sospecha (49 %), el regulador nunca dispara; no está probado.",
    ],
    [
      "Voltage drop, B+ run 2.340 V misses the limit of at most 0.100 V (0.2 to 0.4 V at 20 A, common practice).",
      "Caída de tensión, tramo B+ 2,340 V no cumple el límite: como mucho 0,100 V (de 0,2 a 0,4 V a 20 A, práctica habitual).",
    ],
    [
      "Upper, forward 0.532 / OL V, Lower, reverse over 2 / OL V (expected with this cause: one upper device OL both ways)",
      "Superior, directo 0,532 / OL V, Inferior, inverso más de 2 / OL V (con esta causa se espera: un dispositivo superior OL en ambos sentidos)",
    ],
    [
      'Rested voltage: "14..2" cannot be read; enter a number in V.',
      "Tensión en reposo: «14..2» no se puede leer; escriba un número en V.",
    ],
    [
      "No-load AC, A–B: 900 V AC is not possible; enter 0 to 500 V AC.",
      "CA sin carga, A–B: 900 V CA no es posible; escriba de 0 a 500 V CA.",
    ],
    [
      'The sheet "Job" is protected; unprotect it and type again.',
      "La hoja «Job» está protegida; desprotéjala y escriba de nuevo.",
    ],
  ])("%s", (english, spanish) => expect(SPANISH_PHRASES.said(english)).toBe(spanish));

  it("are not made up: what the book does not know it leaves alone", () => {
    expect(SPANISH_PHRASES.said("The kettle boils at 100 °C.")).toBeUndefined();
    expect(SPANISH_PHRASES.said("Rested voltage 12.6 V means that the kettle boils.")).toBeUndefined();
  });

  it("are known for all that is said of every third simulated job", () => {
    const file = readFileSync(path.resolve(__dirname, "../../jobs/simulated-jobs.json"), "utf8");
    const jobs = jobsFromFile(JSON.parse(file));
    if (!jobs.ok) throw new Error(faultMessage(jobs.fault));
    const third = jobs.value.filter((_, i) => i % 3 === 0);
    expect(third.length).toBe(40);
    expect(unknown(third.flatMap(({ job }) => [...toldOf(job)]))).toEqual([]);
  });

  it("are known for jobs that nobody would take, and for what stands in for missing data", () => {
    const told = new Set<string>();
    let run = 0;
    fc.assert(
      fc.property(strangeJob(), (job) => {
        run += 1;
        const knownGood = run % 3 === 0 ? [job] : [];
        for (const text of toldOf(job, { knownGood, rule: "guarded", meter: {} })) told.add(text);
        if (run % 10 !== 0) return;
        for (const text of expectedOf(job)) told.add(text);
        const curve = solveCurve(job, 800, 6000);
        for (const text of curve?.assumed ?? []) told.add(text);
        if (curve && !curve.points.ok) told.add(faultMessage(curve.points.fault));
      }),
      { numRuns: 60, seed: 20261125, endOnFailure: true },
    );
    expect(told.size).toBeGreaterThan(500);
    expect(unknown(told)).toEqual([]);
  });

  it("are known for everything that can be wrong with what is typed", () => {
    const typed = ["abc", "12..3", "1e30", "-5000", "12 or 13", "1,234", "5 m", "5 mohm", "OL", ">50", "70 °F", "5 A"];
    const told = CATALOGUE.flatMap((entry) =>
      typed.flatMap((text) => {
        const read = readTyped(text, entry, "°C");
        return read.ok ? [] : [faultMessage(read.fault)];
      }),
    );
    expect(told.length).toBeGreaterThan(300);
    expect(unknown(told)).toEqual([]);
  });
});

/** Volts and ohms near those of real machines, in any combination: most of these machines cannot be. */
const USUAL: Readonly<Record<string, readonly [number, number]>> = {
  V: [0, 16],
  "V AC": [0, 120],
  A: [-20, 60],
  mA: [1, 200],
  Ω: [0, 3],
  rpm: [500, 7000],
  "°C": [-30, 60],
};

function strangeJob(): fc.Arbitrary<Job> {
  const one = (entry: Entry): fc.Arbitrary<Measured> => {
    if (entry.kind === "text") return fc.constant<Measured>({ kind: "text", value: "x" });
    if (entry.kind === "choice")
      return fc.constantFrom(...entry.choices).map(({ value }): Measured => ({ kind: "choice", value }));
    return fc.oneof(
      { weight: 3, arbitrary: number(entry) },
      ...(entry.overload
        ? [
            { weight: 2, arbitrary: fc.constant<Measured>({ kind: "overload" }) },
            { weight: 1, arbitrary: fc.constant<Measured>({ kind: "above", value: Math.min(entry.max, 3) }) },
          ]
        : []),
    );
  };
  const number = (entry: QuantityEntry): fc.Arbitrary<Measured> => {
    const [low, high] = USUAL[entry.unit] ?? [entry.min, entry.max];
    const values =
      entry.check === "diode-check"
        ? fc.constantFrom(0, 0.002, 0.12, 0.5, 0.55, 0.9, 2.2)
        : fc.integer({ min: 0, max: 1000 }).map((share) => low + ((high - low) * share) / 1000);
    return values.map((value): Measured => {
      const shown = Number(value.toFixed(entry.decimals));
      const possible = Math.min(entry.max, Math.max(entry.min, shown));
      return { kind: "number", value: possible, resolution: 10 ** -entry.decimals };
    });
  };
  return fc
    .integer({ min: 1, max: 10 })
    .chain((tenths) =>
      fc.tuple(
        ...CATALOGUE.map((entry) =>
          fc
            .tuple(fc.integer({ min: 1, max: 10 }), one(entry))
            .map(([drawn, measured]) => (drawn <= tenths ? ([entry.id, measured] as const) : undefined)),
        ),
      ),
    )
    .map((all) => new Map(all.filter((pair) => pair !== undefined)));
}
