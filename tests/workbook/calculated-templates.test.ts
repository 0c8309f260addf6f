import { isCellError, type Cell } from "../../src/core/cell";
import { FUNCTIONS } from "../../src/functions/registry";
import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { assess } from "../../src/pane/assess";
import { locateReadings, readJobSheet } from "../../src/workbook/job-sheet";
import { placeTemplates } from "../../src/workbook/place-templates";
import type { SheetPlan } from "../../src/workbook/sheet-plan";
import { DEMO } from "../../src/workbook/demo";
import { TEMPLATES } from "../../src/workbook/templates";

jest.setTimeout(120_000);

/** The sheets with a few readings typed in, and what the job page then shows. */
async function shopWith(readings: Readonly<Record<string, Cell>>, demo = true) {
  const workbook = new FileWorkbook();
  const [job] = await placeTemplates(workbook, TEMPLATES, demo ? { demo: DEMO } : {});
  await type(workbook, job!, readings);
  const { values } = await workbook.read({ ...job!.area, columns: 10 });
  const states = new Map(values.slice(35).map((line) => [line[0], line[4]]));
  return { workbook, values, states, headline: values[4]![4], at: (id: string) => values[job!.inputs.get(id)!.row]! };
}

async function type(workbook: FileWorkbook, plan: SheetPlan, readings: Readonly<Record<string, Cell>>): Promise<void> {
  await workbook.apply(
    Object.entries(readings).map(([id, value]) => {
      const cell = plan.inputs.get(id)!;
      return {
        do: "write",
        at: { sheet: plan.sheet, ...cell, rows: 1, columns: 1 },
        values: [[value as string | number]],
      };
    }),
  );
}

it.each([
  ["blank", false],
  ["demo", true],
])("shows no error in the %s workbook", async (_, demo) => {
  const { workbook } = await shopWith({}, demo);
  for (const sheet of await workbook.sheetNames()) {
    const { values } = await workbook.read(await workbook.usedArea(sheet));
    expect([sheet, values.flat().filter(isCellError)]).toEqual([sheet, []]);
  }
});

it("says in a blank job that nothing was read, and of no reading that it passes", async () => {
  const { headline, values } = await shopWith({}, false);
  expect(headline).toBe("Nothing read yet");
  const states = values.slice(35).map((line) => line[4]);
  expect(states.filter((state) => state === "pass" || state === "fail" || state === "unsure")).toEqual([]);
  expect(states.filter((state) => state === "not read").length).toBeGreaterThan(40);
});

it("names in a job in which nothing was read the check that the pane names", async () => {
  for (const machine of ["", "Mower 1"]) {
    const workbook = new FileWorkbook();
    const demo = { ...DEMO, pages: {} };
    const [job] = await placeTemplates(workbook, TEMPLATES, { demo });
    await type(workbook, job!, { "machine-name": machine });
    const { values } = await workbook.read({ ...job!.area, columns: 10 });
    const { job: known } = readJobSheet(values, locateReadings(values)!.cells);
    expect(known.size > 5).toBe(machine !== "");
    const [first] = assess(known, { knownGood: [], rule: "guarded", meter: {} }).nextChecks;
    const next = values.findIndex((line) => line[4] === "Next check") + 1;
    const words = `${first!.label} (${first!.minutes} min): ${first!.why}`;
    expect([values[4]![4], values[next]![4]]).toEqual(["Nothing read yet", words]);
  }
});

it("fetches the machine's data by its name, blanks kept blank", async () => {
  const { at } = await shopWith({ "machine-name": "Mower 1" });
  expect(at("battery-capacity")[1]).toBe(18);
  expect(at("no-load-nominal")[1]).toBe("");
  const unknown = await shopWith({ "machine-name": "Nobody" });
  expect(unknown.at("battery-capacity")[1]).toBe("");
});

describe("the low bank of a regulator-rectifier", () => {
  const low = ["A", "B", "C"].map((phase) => `Upper, forward, phase ${phase}`);

  it("passes against the shop's known-good parts of the same number", async () => {
    const { states, at } = await shopWith({});
    expect(low.map((label) => states.get(label))).toEqual(["pass", "pass", "pass"]);
    expect(at("upper-forward-a")[7]).toMatch(/known-good/u);
  });

  it("is neither passed nor failed without them", async () => {
    const { states, headline } = await shopWith({ "regulator-part-number": "REG-99" });
    expect(low.map((label) => states.get(label))).toEqual(["unsure", "unsure", "unsure"]);
    expect(headline).not.toMatch(/regulator-rectifier: faulty/iu);
  });

  it("passes where the circuit inside is known to be such", async () => {
    const { states } = await shopWith({ "regulator-part-number": "REG-99", "bridge-kind": "parallel path" });
    expect(low.map((label) => states.get(label))).toEqual(["pass", "pass", "pass"]);
  });

  it("fails on the one that differs from its sisters by a short", async () => {
    const { states } = await shopWith({ "upper-forward-b": 0.001, "upper-reverse-b": 0.001 });
    expect(states.get(low[1]!)).toBe("fail");
    expect([states.get(low[0]!), states.get(low[2]!)]).toEqual(["pass", "pass"]);
  });
});

it("calls no cause certain and none impossible, as the sentences do", async () => {
  const { headline, values } = await shopWith({ "bplus-drop": 0.12, "ground-drop": 1.05, "drop-current": 9.5 });
  expect(headline).toBe("Wiring: faulty (over 99 %)");
  const next = values.findIndex((line) => line[4] === "Next check");
  expect(values[next + 1]![4]).toBe("No further check could change this verdict.");
  const causes = values.findIndex((line) => line[4] === "What fits the readings");
  expect(values.slice(causes + 1, causes + 4).map((line) => line[4])).toEqual([
    "Resistance in the ground run, wiring: over 99 %",
    expect.stringMatching(/: under 1 %$/u),
    expect.stringMatching(/: under 1 %$/u),
  ]);
});

it("says that no fault is found, and names no part for it", async () => {
  const { headline, values } = await shopWith({ "rested-voltage": 12.8, "test-voltage": 14.3 }, false);
  expect(headline).toBe("No fault found so far");
  const causes = values.findIndex((line) => line[4] === "What fits the readings");
  expect(values.slice(causes + 1, causes + 4).map((line) => line[4])).toContainEqual(
    expect.stringMatching(/^No fault found: \d+ %$/u),
  );
});

it("shows what cannot be read in its own row, keeps what was typed, and judges the others", async () => {
  const { at, headline } = await shopWith({ "cranking-voltage": "abc" });
  expect(at("cranking-voltage")[1]).toBe("abc");
  expect(at("cranking-voltage")[4]).toMatchObject({ error: "#VALUE!" });
  expect(at("cranking-voltage")[7]).toMatch(/^Cannot be read as typed/u);
  expect(at("cranking-voltage")[9]).toMatchObject({ error: "#VALUE!", message: expect.stringContaining('"abc"') });
  expect(headline).toMatch(/cannot be read/u);
  expect(at("key-off-draw")[4]).toBe("pass");
  expect(at("load-test-voltage")[4]).toBe("pass");
});

it("refuses for a machine value that cannot be read what depends on it, and says there what to enter", async () => {
  const { at, headline } = await shopWith({ "battery-nominal": "abc" });
  expect(at("battery-nominal")[1]).toBe("abc");
  expect(headline).toMatch(/cannot be read/u);
  expect(at("rested-voltage")[4]).toMatchObject({ error: "#VALUE!" });
  expect(at("rested-voltage")[7]).toMatch(/^Cannot be read as typed/u);
  expect(at("rested-voltage")[9]).toMatchObject({
    message: expect.stringMatching(/^Battery nominal voltage: "abc" .*enter/u),
  });
  expect([at("key-off-draw")[4], at("upper-forward-a")[4]]).toEqual(["pass", "pass"]);
});

it("calls a repair in order only where the voltage at test speed passes and nothing fails", async () => {
  const workbook = new FileWorkbook();
  const [job] = await placeTemplates(workbook, TEMPLATES, { demo: DEMO });
  const proof = async (readings: Readonly<Record<string, number>>) => {
    const { values } = await workbook.read({ ...job!.area, columns: 9 });
    const start = values.findIndex((line) => line[0] === "Proof after repair");
    await workbook.apply(
      Object.entries(readings).map(([label, value]) => ({
        do: "write" as const,
        at: {
          sheet: "Job",
          row: values.findIndex((line, row) => row > start && line[0] === label),
          column: 1,
          rows: 1,
          columns: 1,
        },
        values: [[value]],
      })),
    );
    const after = await workbook.read({ ...job!.area, columns: 9 });
    return after.values.find((line) => line[0] === "Repair")![1];
  };
  expect(await proof({})).toBe("Not read yet");
  expect(await proof({ "Key-off draw": 1 })).toMatch(/^Not shown yet/u);
  expect(await proof({ "Test speed": 5000, "Running voltage at test speed": 14.3 })).toMatch(/^So far in order/u);
  expect(await proof({ "Key-off draw": 60 })).toMatch(/^Not in order/u);
});

it("audits the fleet's rows beside them", async () => {
  const { workbook } = await shopWith({});
  const { values } = await workbook.read({ sheet: "Fleet", row: 3, column: 0, rows: 8, columns: 18 });
  const state = values[0]!.indexOf("State");
  expect(values.slice(1, 7).map((line) => line[state])).not.toContain("");
  expect(values[7]![state]).toBe("");
});

it("takes the fleet's visits as routine: each row says what VERDICT says of it then", async () => {
  const { workbook } = await shopWith({});
  const block = async (sheet: string) => {
    const { rows: height, columns } = await workbook.usedArea(sheet);
    const { values } = await workbook.read({ sheet, row: 0, column: 0, rows: height, columns });
    return values.slice(values.findIndex(([first]) => first === "Machine"));
  };
  const [header, ...rows] = await block("Fleet");
  const verdict = header!.indexOf("Verdict");
  const [machineHeader, ...machines] = await block("Machines");
  const told = rows.filter(([machine]) => machine !== "");
  expect(told.length).toBeGreaterThan(4);
  for (const row of told) {
    const machine = [machineHeader!, machines.find(([name]) => name === row[0])!];
    const readings = [header!.slice(0, 12), row.slice(0, 12)];
    const [[, , , said]] = FUNCTIONS.VERDICT!(readings, machine, [[]], [["in order beforehand", 0.9]]) as [Cell[]];
    expect([row[0], row[verdict]]).toEqual([row[0], said]);
  }
});
