import { CATALOGUE, checkOf, entryOf, isReading } from "../../src/core/readings/catalogue";
import { CAUTIONS } from "../../src/core/readings/cautions";
import { CHECKS } from "../../src/core/readings/checks";
import { matchLabel } from "../../src/core/readings/match";
import { parseEntry } from "../../src/core/readings/parse";
import { spanishSheets } from "../../src/pane/words/sheets-spanish";
import { SPANISH } from "../../src/pane/words/spanish";
import { overlaps, parseRange } from "../../src/workbook/address";
import { locateReadings } from "../../src/workbook/job-sheet";
import { isKnownGoodList } from "../../src/workbook/known-good-sheet";
import { locateList } from "../../src/workbook/list-sheet";
import { COLUMN, pageLayout } from "../../src/workbook/page-layout";
import type { Area, CellWrite, Step } from "../../src/workbook/port";
import { planSheets, type SheetPlan } from "../../src/workbook/sheet-plan";
import { parseDemo, parseTemplate, type PageTemplate } from "../../src/workbook/template-schema";
import { DEMO } from "../../src/workbook/demo";
import { templateOf, TEMPLATES } from "../../src/workbook/templates";

const plans = planSheets(TEMPLATES);
const planOf = (id: string) => plans.find((plan) => plan.template === id)!;
const written = (plan: SheetPlan) => (plan.steps[0] as Extract<Step, { do: "write" }>).values;
const formulasOf = (plan: SheetPlan) =>
  written(plan).flatMap((line, row) =>
    line.flatMap((content, column) => (typeof content === "object" ? [{ row, column, ...content }] : [])),
  );
const job = templateOf("job") as PageTemplate;
type Rectangle = Omit<Area, "sheet">;
const contains = (outer: Rectangle, inner: Rectangle) =>
  inner.row >= outer.row &&
  inner.column >= outer.column &&
  inner.row + inner.rows <= outer.row + outer.rows &&
  inner.column + inner.columns <= outer.column + outer.columns;
const cellsIn = ({ row, column, rows, columns }: Rectangle) =>
  Array.from({ length: rows * columns }, (_, i) => ({
    row: row + Math.floor(i / columns),
    column: column + (i % columns),
  }));

it("has a sheet for the job, the machines, the reference parts, the fleet and the counter", () => {
  expect(TEMPLATES.map(({ id }) => id)).toEqual([
    "job",
    "machines",
    "reference",
    "fleet",
    "prices",
    "terms",
    "quote",
    "quotes",
  ]);
});

it.each(TEMPLATES)("$id is as the schema wants it, and names the lists as they are named in Spanish", (template) => {
  expect(parseTemplate(template)).toEqual(template);
  const { say } = spanishSheets(SPANISH);
  if (template.kind === "list" && template.alsoNamed) expect(template.alsoNamed).toEqual([say(template.sheet)]);
});

describe("the job sheet", () => {
  const plan = planOf("job");

  it("has every check and every reading of the catalogue, in the catalogue's working order", () => {
    const checks = job.stages.flatMap((stage) => stage.checks);
    expect(checks).toEqual(CHECKS.map(({ id }) => id));
    const readings = CATALOGUE.filter((entry) => isReading(entry) && entry.kind !== "text").map(({ id }) => id);
    expect(readings.filter((id) => !plan.inputs.has(id))).toEqual([]);
  });

  it("has every piece of machine data", () => {
    const machine = CATALOGUE.filter(({ stage }) => stage === "machine").map(({ id }) => id);
    expect(machine.filter((id) => !plan.inputs.has(id))).toEqual([]);
  });

  it("takes labels and units from the catalogue", () => {
    const values = written(plan);
    for (const [id, { row, column }] of plan.inputs) {
      const entry = entryOf(id)!;
      expect(values[row]![column - 1]).toBe(entry.label);
      if (entry.kind === "quantity" && entry.unit !== "1") expect(values[row]![column + 1]).toBe(entry.unit);
    }
  });

  it("is found again by its labels, each reading in the cell that the plan names", () => {
    const found = locateReadings(
      written(plan).map((line) => line.map((content) => (typeof content === "object" ? "" : content))),
    );
    expect(new Map([...found!.cells].map(([id, { row, column }]) => [id, { row, column }]))).toEqual(plan.inputs);
    expect([...found!.proof.keys()].filter((id) => id !== "technician")).toEqual(job.proof.entries);
  });

  it("says what is missing without the add-in in its first lines", () => {
    const first = written(plan).slice(0, 3).flat().join(" ");
    expect(first).toMatch(/without it these cells show their last values/iu);
  });

  it("shows every caution of a stage in the row above its checks", () => {
    const values = written(plan);
    for (const stage of pageLayout(job).stages) {
      const shown = String(values[stage.title]![COLUMN.unit]);
      for (const { check } of stage.checks) {
        for (const caution of check === undefined ? [] : checkOf(check)!.cautions)
          expect(shown).toContain(CAUTIONS[caution]);
      }
    }
  });

  it("prints upright on at most two pages, the workings left out", () => {
    const print = plan.steps.find((step) => step.do === "print");
    expect(print).toMatchObject({ setup: { orientation: "portrait", fitWidthPages: 1, fitHeightPages: 2 } });
    expect((print as Extract<Step, { do: "print" }>).at.columns).toBeLessThanOrEqual(COLUMN.workings);
  });
});

describe("every sheet", () => {
  it.each(plans.map((plan) => [plan.template, plan] as const))(
    "%s: no spill crosses a written cell, another spill or a merged area",
    (_, plan) => {
      const values = written(plan);
      const merges = plan.steps.flatMap((step) => (step.do === "merge" ? [step.at] : []));
      const spills: Rectangle[] = [];
      for (const { row, column, spills: size } of formulasOf(plan)) {
        if (!size) continue;
        const area = { row, column, ...size };
        for (let r = row; r < row + size.rows; r++) {
          for (let c = column; c < column + size.columns; c++) {
            if (r !== row || c !== column) expect([r, c, values[r]?.[c]]).toEqual([r, c, undefined]);
          }
        }
        expect(spills.filter((other) => overlaps(area, other))).toEqual([]);
        expect(merges.filter((merged) => overlaps(area, merged))).toEqual([]);
        spills.push(area);
      }
    },
  );

  it.each(plans.map((plan) => [plan.template, plan] as const))("%s: merged areas do not overlap", (_, plan) => {
    const merges = plan.steps.flatMap((step) => (step.do === "merge" ? [step.at] : []));
    merges.forEach((area, i) => expect(merges.slice(i + 1).filter((other) => overlaps(area, other))).toEqual([]));
  });

  it.each(plans.map((plan) => [plan.template, plan] as const))(
    "%s: ranges reach our functions with their blanks kept blank",
    (_, plan) => {
      const formulas = formulasOf(plan);
      const guardedSpills = formulas.filter(
        ({ formula, spills }) => spills && /^=IF\(.*=""/u.test(formula) && !formula.includes("CHG."),
      );
      let looked = 0;
      for (const { formula } of formulas) {
        for (const call of formula.matchAll(/CHG\.[A-Z]+\((.*)\)/gu)) {
          // Every range of a call stands inside IF(range="","",range), is such a thing spilled, or holds labels.
          const bare = call[1]!.replaceAll(/IF\(([^,()]+)="","",\1\)/gu, "kept");
          looked += bare === call[1] ? 0 : 1;
          for (const range of bare.match(/\$?[A-Z]+\$?\d+:\$?[A-Z]+\$?\d+/gu) ?? []) {
            looked += 1;
            const area = parseRange(range.replaceAll("$", ""))!;
            if (guardedSpills.some(({ row, column, spills }) => contains({ row, column, ...spills! }, area))) continue;
            const cells = cellsIn(area).map(({ row, column }) => written(plan)[row]?.[column]);
            expect([range, cells.every((cell: CellWrite) => typeof cell === "string" && cell !== "")]).toEqual([
              range,
              true,
            ]);
          }
        }
      }
      if (plan.template === "job") expect(looked).toBeGreaterThan(60);
      if (plan.template === "fleet") expect(looked).toBe(1);
    },
  );

  it.each(plans.map((plan) => [plan.template, plan] as const))(
    "%s: pick lists and hints fit into what hosts allow",
    (_, plan) => {
      const rules = plan.steps.flatMap((step) => (step.do === "validate" ? [step.rule] : []));
      for (const rule of rules) {
        expect(rule.message.length).toBeLessThanOrEqual(255);
        if (rule.kind === "hint") expect(rule.title.length).toBeLessThanOrEqual(32);
        // The words of a list are parted by commas in the file.
        else expect(rule.choices.filter((word) => word.includes(","))).toEqual([]);
        if (rule.kind === "list") expect(rule.choices.join(",").length).toBeLessThanOrEqual(255);
      }
    },
  );
});

it("has colours beside words only: every rule is decided by a state", () => {
  const rules = planOf("job").steps.flatMap((step) => (step.do === "colour rule" ? [step.rule] : []));
  expect(rules.length).toBeGreaterThan(20);
  const words = new Set(rules.flatMap((rule) => rule.words.map(({ equals }) => equals)));
  expect([...words].sort()).toEqual(["fail", "faulty", "pass", "serviceable", "suspect", "unproven", "unsure"]);
});

it("lays the reference sheet out so that it is found by its headers", () => {
  const values = written(planOf("reference")).map((line) =>
    line.map((content) => (typeof content === "object" ? "" : content)),
  );
  const found = locateList("Reference", values, isKnownGoodList);
  expect(found?.columns.size).toBe((TEMPLATES[2] as { columns: string[] }).columns.length);
});

it("looks machine data up on the Machines sheet only where there is one", () => {
  const alone = planSheets([job])[0]!;
  expect(formulasOf(alone).filter(({ formula }) => formula.includes("Machines!"))).toEqual([]);
  expect(formulasOf(planOf("job")).filter(({ formula }) => formula.includes("Machines!")).length).toBeGreaterThan(15);
});

it("gives sheets the names it is told, in formulas too", () => {
  const [sheet] = planSheets([job, templateOf("machines")!], { sheets: { job: "Job 2", machines: "Our fleet" } });
  expect(sheet!.sheet).toBe("Job 2");
  expect(formulasOf(sheet!).some(({ formula }) => formula.includes("'Our fleet'!"))).toBe(true);
});

describe("the demo", () => {
  it("holds only values that can be read as their entries ask", () => {
    const rows = [...Object.values(DEMO.pages), ...Object.values(DEMO.lists).flat()];
    for (const row of rows) {
      for (const [id, value] of Object.entries(row))
        expect([id, parseEntry(value, entryOf(id)!).ok]).toEqual([id, true]);
    }
  });

  it("is a job half done", () => {
    const readings = Object.keys(DEMO.pages["job"]!).filter((id) => isReading(entryOf(id)!));
    expect(readings.length).toBeGreaterThan(15);
    expect(readings).not.toContain("no-load-ab");
  });
});

describe("data that are wrong", () => {
  it.each([
    ["an entry that the catalogue lacks", { entries: ["job-nummer"] }, /no catalogue entry "job-nummer"/u],
    ["an empty block", { entries: [] }, /facts\.0\.entries/u],
  ])("names %s", (_, facts, message) => {
    expect(() => parseTemplate({ ...job, facts: [{ title: "Intake", ...facts }] })).toThrow(message);
  });

  it("names a check that the catalogue lacks", () => {
    expect(() => parseTemplate({ ...job, stages: [{ stage: "battery", checks: ["battery-at-work"] }] })).toThrow(
      /no check "battery-at-work"/u,
    );
  });

  it("refuses what it does not know", () => {
    expect(() => parseTemplate({ ...job, colour: "red" })).toThrow(/colour/u);
    expect(() => parseDemo({ about: "x", pages: { job: { "no-such": 1 } }, lists: {} })).toThrow(/no-such/u);
  });

  it("refuses a verdict that needs more rows than stand beside it", () => {
    const long = parseTemplate({ ...job, verdict: { ...job.verdict, whyLines: 12, causeCount: 6 } });
    expect(() => planSheets([long])).toThrow(/more rows than the facts beside it have/u);
  });
});

it("has no label twice in the label column, so that every reading has one place", () => {
  const labels = written(planOf("job")).map((line) => line[COLUMN.label]);
  const layout = pageLayout(job);
  const before = labels
    .slice(0, layout.proof.title)
    .filter((label): label is string => typeof label === "string" && label.length <= 80);
  const ids = before.flatMap((label) => matchLabel(label)?.entry.id ?? []);
  expect(ids.length).toBe(new Set(ids).size);
});
