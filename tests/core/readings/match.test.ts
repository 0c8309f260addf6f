import { CATALOGUE, entryOf, checkOf } from "../../../src/core/readings/catalogue";
import { stepsOf } from "../../../src/core/readings/check-steps";
import { CHECKS } from "../../../src/core/readings/checks";
import { CAUTIONS } from "../../../src/core/readings/cautions";
import { jobFromCells, jobsFromTable } from "../../../src/core/readings/from-cells";
import { matchLabel } from "../../../src/core/readings/match";
import { SPANISH_LABELS } from "../../../src/core/readings/spanish-labels";

describe("catalogue", () => {
  it("has ids that are used once, kebab-case, with labels that differ", () => {
    const ids = CATALOGUE.map((e) => e.id);
    expect(new Set(ids).size).toBe(ids.length);
    expect(new Set(CATALOGUE.map((e) => e.label.toLowerCase())).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[a-z0-9]+(?:-[a-z0-9]+)*$/u);
  });
  it("names a check for every reading that has one, and every check yields readings", () => {
    for (const e of CATALOGUE) if (e.check) expect(checkOf(e.check)).toBeDefined();
    for (const c of CHECKS) {
      expect(CATALOGUE.filter((e) => e.check === c.id).length).toBeGreaterThan(0);
      expect(c.minutes).toBeGreaterThan(0);
      expect(stepsOf(c.id).length).toBeGreaterThan(0);
      for (const caution of c.cautions) expect(CAUTIONS[caution]).toBeTruthy();
    }
  });
  it("recognises its own ids and labels as exactly themselves", () => {
    for (const e of CATALOGUE) {
      expect([e.id, matchLabel(e.id)?.entry.id, matchLabel(e.id)?.confidence]).toEqual([e.id, e.id, 1]);
      for (const label of [e.label, SPANISH_LABELS[e.id]!])
        expect([label, matchLabel(label)?.entry.id, matchLabel(label)?.confidence]).toEqual([label, e.id, 1]);
    }
  });
  it("has no synonym that two entries claim", () => {
    const owner = new Map<string, string>();
    for (const e of CATALOGUE)
      for (const s of [e.label, SPANISH_LABELS[e.id]!, ...(e.synonyms ?? [])]) {
        const key = s
          .normalize("NFKD")
          .replace(/\p{M}/gu, "")
          .toLowerCase()
          .replace(/[^\p{L}\p{N}+]/gu, "");
        expect([s, owner.get(key) ?? e.id]).toEqual([s, e.id]);
        owner.set(key, e.id);
      }
  });
});

describe("labels as sheets have them", () => {
  const cases: [string, string, string | undefined][] = [
    ["Rested voltage (V)", "rested-voltage", "V"],
    ["OCV", "rested-voltage", undefined],
    ["Load test A", "load-test-current", undefined],
    ["Asset No.", "machine-name", undefined],
    ["Unit number", "machine-name", undefined],
    ["Fleet ID", "machine-name", undefined],
    ["Nº unidad", "machine-name", undefined],
    ["Matrícula", "machine-name", undefined],
    ["Nº de serie", "machine-serial", undefined],
    ["N° de serie", "machine-serial", undefined],
    ["S/N", "machine-serial", undefined],
    ["Date tested", "visit-date", undefined],
    ["Fecha de revisión", "visit-date", undefined],
    ["Consumo apagado", "key-off-draw", undefined],
    ["Voltage (engine off)", "rested-voltage", undefined],
    ["Key-off draw [mA]", "key-off-draw", "mA"],
    ["Key off draw, A", "key-off-draw", "A"],
    ["Parasitic draw mA", "key-off-draw", "mA"],
    ["rested voltge", "rested-voltage", undefined],
    ["Crankng voltage", "cranking-voltage", undefined],
    ["No-load AC A-B", "no-load-ab", undefined],
    ["No load AC, A–B (V)", "no-load-ab", "V"],
    ["Winding resistance B-C (Ω)", "winding-bc", "Ω"],
    ["Tensión en reposo", "rested-voltage", undefined],
    ["Ruhespannung", "rested-voltage", undefined],
    ["TENSION AU REPOS (V)", "rested-voltage", "V"],
    ["Idle voltage (lights on)", "idle-voltage", undefined],
    ["Upper, forward, phase B", "upper-forward-b", undefined],
    ["CCA", "battery-cca", undefined],
    ["ground a", "ground-a", undefined],
    ["Batt. volts rested", "rested-voltage", undefined],
    ["V rest", "rested-voltage", undefined],
    ["Batt V cranking", "cranking-voltage", undefined],
    ["Starting V", "cranking-voltage", undefined],
    ["Volts @ 5,000 rpm", "test-voltage", undefined],
    ["V @5000", "test-voltage", undefined],
    ["V at 1400 rpm", "idle-voltage", undefined],
    ["Gnd drop (mV)", "ground-drop", "mV"],
    ["AC volts 1-2", "no-load-ab", undefined],
    ["Stator AC 1–3 (V)", "no-load-ca", "V"],
    ["Ohms 2-3", "winding-bc", undefined],
    ["Voltaje batería en reposo", "rested-voltage", undefined],
    ["No laod AC A-B", "no-load-ab", undefined],
    ["Rested volatge", "rested-voltage", undefined],
  ];
  it.each(cases)("%s", (label, id, unit) => {
    const found = matchLabel(label);
    expect([found?.entry.id, found?.unit]).toEqual([id, unit]);
  });
  it.each(
    ["Invoice", "Total", "", "   ", "Hours", "Upper forward", "gear oil", "no-load ac"]
      // Near a name of the catalogue by their letters, and something else by their words.
      .concat(["Running hours", "Rated voltage", "Test time", "Charging time", "Idle hours", "Battery test V"])
      // Not enough to tell one reading from another.
      .concat(["Voltage", "V at 2500 rpm", "AC V", "Speed", "Charging", "1-2", "Resistance"]),
  )("does not guess %p", (label) => {
    expect(matchLabel(label)).toBeUndefined();
  });
  it.each([
    ["Voltage @ 5000 rpm", "test-voltage", 5000, undefined],
    ["Volts at 3,000 rpm (V)", "test-voltage", 3000, "V"],
    ["Charging voltage (mV) @ 4500rpm", "test-voltage", 4500, "mV"],
    ["Running voltage (2500 rpm)", "test-voltage", 2500, undefined],
    ["Running volts (1200 rpm)", "idle-voltage", 1200, undefined],
    ["V at 1400 rpm", "idle-voltage", 1400, undefined],
    ["Voltage at 5000", "test-voltage", 5000, undefined],
    ["Voltaje a 5000 rpm", "test-voltage", 5000, undefined],
    ["Tension à 5 000 tr/min", "test-voltage", 5000, undefined],
    ["Tension au ralenti (1300 tr/min)", "idle-voltage", 1300, undefined],
    ["Ladespannung bei 5000 U/min", "test-voltage", 5000, undefined],
    ["Charging amps @ 4500 rpm", "battery-current", 4500, undefined],
    ["AC under load A-B @ 5000 rpm", "loaded-ab", 5000, undefined],
    ["AC 1-2 @ 2000 rpm", "no-load-ab", 2000, undefined],
    ["Stator AC 2-3 3000rpm", "no-load-bc", 3000, undefined],
  ])("takes the speed with the reading: %s", (label, id, rpm, unit) => {
    const found = matchLabel(label);
    expect([found?.entry.id, found?.rpm, found?.unit]).toEqual([id, rpm, unit]);
  });
  it.each([
    "Idle voltage @ 5000 rpm",
    "Rested voltage @ 5000 rpm",
    "V at 1200 rpm and 5000 rpm",
    "Test speed 5000 rpm",
  ])("takes no speed that the reading cannot have: %s", (label) => {
    expect(matchLabel(label)?.rpm).toBeUndefined();
  });
  it("never swaps phases, pairs or cells by a misspelling", () => {
    expect(matchLabel("Uper, forward, phase B")?.entry.id).toBe("upper-forward-b");
    expect(matchLabel("Specific gravty, cell 3")?.entry.id).toBe("gravity-3");
    expect(matchLabel("Windng resistance C-A")?.entry.id).toBe("winding-ca");
  });
});

describe("a job from cells", () => {
  it("reads two columns in any order, skips titles and blanks, names what it cannot use", () => {
    const read = jobFromCells([
      ["Battery", ""],
      ["Key-off draw", 0.35, "A"],
      ["Rested voltage", "12,6 V"],
      ["Test speed", ""],
      ["Colour", "red"],
      ["Rested voltage", 12.1],
      ["Cranking voltage", "abc"],
    ]);
    if (!read.ok) throw new Error("refused");
    expect([...read.value.job]).toEqual([
      ["key-off-draw", { kind: "number", value: 350 }],
      ["rested-voltage", { kind: "number", value: 12.6, resolution: 0.1 }],
    ]);
    expect(read.value.issues.map((i) => [i.kind, i.row, i.label])).toEqual([
      ["unknown label", 4, "Colour"],
      ["doubled label", 5, "Rested voltage"],
      ["fault", 6, "Cranking voltage"],
    ]);
  });
  it("reads a header row with units and one row", () => {
    const read = jobFromCells([
      ["Machine", "Rested voltage (mV)", "Key-off draw"],
      ["Mule 4", 12600, "12 mA"],
    ]);
    if (!read.ok) throw new Error("refused");
    expect(read.value.job.get("rested-voltage")).toEqual({ kind: "number", value: 12.6 });
    expect(read.value.job.get("machine-name")).toEqual({ kind: "text", value: "Mule 4" });
  });
  it("reads a table row by row", () => {
    const rows = jobsFromTable([
      ["Machine", "OCV"],
      ["A1", 12.4],
      ["", ""],
      ["A2", ""],
    ]);
    expect(rows.map((r) => [...r.job.keys()])).toEqual([["machine-name", "rested-voltage"], ["machine-name"]]);
  });
  it("refuses a range without a known label, and says what is expected", () => {
    expect(
      jobFromCells([
        ["a", 1],
        ["b", 2],
      ]),
    ).toMatchObject({ ok: false, fault: { code: "not-understood", what: "readings" } });
  });
  it("takes a blank range as nothing read", () => {
    expect(
      jobFromCells([
        ["", null],
        [null, ""],
      ]),
    ).toEqual({ ok: true, value: { job: new Map(), issues: [] } });
  });
  it("knows every id it names", () => {
    expect(entryOf("rested-voltage")?.label).toBe("Rested voltage");
    expect(entryOf("nothing")).toBeUndefined();
  });
});
