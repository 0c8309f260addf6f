import Decimal from "decimal.js";
import type { Cell } from "../../src/core/cell";
import { readPriceList } from "../../src/core/quote/price-list";
import { readTerms } from "../../src/core/quote/terms";
import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { DEMO } from "../../src/workbook/demo";
import { placeTemplates } from "../../src/workbook/place-templates";
import { planSheets, type SheetPlan } from "../../src/workbook/sheet-plan";
import { TEMPLATES, templateOf, withCompanions } from "../../src/workbook/templates";

jest.setTimeout(120_000);

const quote = templateOf("quote")!;
const workbook = new FileWorkbook();
let plans: readonly SheetPlan[];

beforeAll(async () => {
  plans = await placeTemplates(workbook, withCompanions(quote), { demo: DEMO });
});

const placeOf = (sheet: string, name: string) => plans.find((plan) => plan.sheet === sheet)!.inputs.get(name)!;
async function type(sheet: string, name: string, value: string | number): Promise<void> {
  const at = { sheet, ...placeOf(sheet, name), rows: 1, columns: 1 };
  await workbook.apply([{ do: "write", at, values: [[value]] }]);
}
/** The printed columns: reason, mark, and the lines below the header. */
async function printed(): Promise<{ reason: Cell; mark: Cell; lines: readonly (readonly Cell[])[] }> {
  const { values } = await workbook.read({ sheet: "Quote", row: 0, column: 0, rows: 44, columns: 8 });
  const head = values.findIndex((line) => line[0] === "Kind");
  return { reason: values[3]![3], mark: values[9]![3], lines: values.slice(head + 1).filter((line) => line[2] !== "") };
}
const amountOf = (lines: readonly (readonly Cell[])[], kind: string) => lines.find((line) => line[0] === kind)?.[5];

it("comes with the sheets it is worked out from", () => {
  expect(withCompanions(quote).map(({ id }) => id)).toEqual([
    "job",
    "machines",
    "reference",
    "prices",
    "terms",
    "quote",
  ]);
  expect(() => planSheets([quote])).toThrow(/must be laid out with it/u);
});

it("prints on one page, from its title to where the customer signs", () => {
  const [step] = plans.find(({ sheet }) => sheet === "Quote")!.steps.filter((s) => s.do === "print");
  expect(step).toMatchObject({ at: { row: 0, column: 0, columns: 8 }, setup: { fitWidthPages: 1, fitHeightPages: 1 } });
});

it("shows the minutes that were spent as they are charged, not as whole ones", () => {
  const { row, column } = placeOf("Quote", "Diagnosis minutes");
  const formats = plans
    .find(({ sheet }) => sheet === "Quote")!
    .steps.flatMap((step) =>
      step.do === "format" && step.at.row <= row && row < step.at.row + step.at.rows && step.at.column === column
        ? [step.format.number]
        : [],
    );
  expect(formats.filter((format) => format !== undefined && format !== "General")).toEqual([]);
  expect(formats.length).toBeGreaterThan(0);
});

it("quotes the check while the part is only suspect, and says why", async () => {
  const { reason, mark, lines } = await printed();
  expect(reason).toMatch(/not proven, so it is not sold/u);
  expect(mark).toBe("");
  expect(lines.map((line) => line[0])).toEqual(["testing", "further check", "net", "tax", "total", "", "way"]);
});

it("quotes repair beside replacement once it is proven, and adds up as printed", async () => {
  await type("Job", "bplus-drop", 0.12);
  await type("Job", "ground-drop", 1.35);
  await type("Job", "drop-current", 12);
  const { lines } = await printed();
  expect(lines.filter((line) => line[0] === "way").map((line) => line[2])).toEqual([
    "1. Renew the joint",
    "2. Replace the cable run",
  ]);
  // The fault is the ground run's: no other run is worked on, and no fuse stands in it.
  const labour = lines.find((line) => line[0] === "labour")!;
  expect(labour[7]).toBe("resistance in the ground run; the shop's own hours");
  const goods = lines.slice(
    0,
    lines.findIndex((line) => line[0] === "net"),
  );
  const sum = (column: number) => goods.reduce((total, line) => total.plus(line[column] as number), new Decimal(0));
  expect(sum(5).toNumber()).toBe(amountOf(lines, "net"));
  expect(sum(6).toNumber()).toBe(amountOf(lines, "tax"));
  expect(sum(5).plus(sum(6)).toNumber()).toBe(amountOf(lines, "total"));
});

it("quotes the way that is asked for", async () => {
  const first = amountOf((await printed()).lines, "total");
  await type("Quote", "Way to quote", 2);
  const second = amountOf((await printed()).lines, "total");
  expect(second).not.toBe(first);
  await type("Quote", "Way to quote", "Renew the joint");
  expect(amountOf((await printed()).lines, "total")).toBe(first);
});

it("marks what was quoted as outdated once the verdict is another, and says where prices changed", async () => {
  const total = amountOf((await printed()).lines, "total") as number;
  await type("Quote", "Quoted verdict", "wiring: faulty");
  await type("Quote", "Quoted total", total);
  expect((await printed()).mark).toBe("");
  await type("Terms", "Labour rate", 99);
  expect((await printed()).mark).toBe(`Prices or terms have changed since: it was quoted at ${total}`);
  await type("Terms", "Labour rate", 92);
  await type("Job", "ground-drop", "");
  expect((await printed()).mark).toMatch(/^Outdated: .*wiring: faulty; now it is wiring: suspect$/u);
});

it("marks a quote that nobody decided on once its last day is over, by the workbook's own calendar", async () => {
  const before = (await printed()).mark;
  // 31 January 2020 and 1 January 2100, as a sheet numbers its days.
  await type("Quote", "Valid until", 43861);
  expect((await printed()).mark).toBe(`Expired on 2020-01-31. ${String(before)}`);
  await type("Quote", "Valid until", 73051);
  expect((await printed()).mark).toBe(before);
  await type("Quote", "Valid until", 43861);
  await type("Quote", "Decision", "accepted");
  expect((await printed()).mark).toBe(before);
  await type("Quote", "Decision", "");
  await type("Quote", "Valid until", "");
});

it("says where a way is asked for that the verdict no longer has", async () => {
  expect((await printed()).reason).toMatch(/^This cannot be quoted/u);
  await type("Quote", "Way to quote", "");
  expect((await printed()).reason).toMatch(/not proven/u);
});

it("puts warranty work at zero, with the reason on every line", async () => {
  await type("Quote", "Warranty", "came back within a month");
  const { lines } = await printed();
  expect(amountOf(lines, "total")).toBe(0);
  const goods = lines.filter((line) => typeof line[3] === "number");
  expect(goods.length).toBeGreaterThan(0);
  for (const line of goods) expect(line[7]).toBe("Warranty: came back within a month");
});

it("keeps what was typed when it is laid out once more", async () => {
  await type("Prices", "description", "Our own battery");
  await placeTemplates(workbook, withCompanions(quote));
  const at = { sheet: "Prices", ...placeOf("Prices", "description"), rows: 1, columns: 1 };
  expect((await workbook.read(at)).values).toEqual([["Our own battery"]]);
});

describe("the words of the sheets", () => {
  it("have headers and labels that the quote reads, every one", () => {
    const prices = TEMPLATES.find(({ id }) => id === "prices")!;
    const terms = TEMPLATES.find(({ id }) => id === "terms")!;
    if (prices.kind !== "table" || terms.kind !== "terms") throw new Error("The templates changed their kinds.");
    // A list whose every column is filled in: what is not understood would be named or lost.
    const row = prices.columns.map(({ id, choices }) =>
      choices ? choices[0]! : ["part-number", "description", "fits", "superseded-by"].includes(id) ? id : 0.5,
    );
    const list = readPriceList([prices.columns.map(({ label }) => label), row]);
    expect(list.ok && list.value.issues).toEqual([]);
    const [part] = list.ok ? list.value.parts : [];
    expect(part).toMatchObject({
      partNumber: "part-number",
      fits: ["fits"],
      supersededBy: "superseded-by",
      stock: 0.5,
    });
    for (const amount of [part!.price, part!.coreCharge, part!.deposit]) expect(amount!.toNumber()).toBe(0.5);
    expect(part!.leadDays).toBe(0.5);
    // A label that is not known would be passed over; one that is known refuses what it cannot take.
    for (const { label } of terms.terms) expect([label, readTerms([[label, "?!"]]).ok]).toEqual([label, false]);
  });
});
