import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { assess, type Assessment } from "../../src/pane/assess";
import { moneyIn } from "../../src/pane/counter-money";
import { minutesOf, minutesTaken, orderOf, pricesOf, type OrderTexts } from "../../src/pane/counter-quote";
import { openJob, type OpenJob } from "../../src/pane/open-job";
import { DEMO } from "../../src/workbook/demo";
import { findList } from "../../src/workbook/list-sheet";
import { isKnownGoodList, partNumberOf, partsOfNumber } from "../../src/workbook/known-good-sheet";
import { isMachineList, machineData } from "../../src/workbook/machines-sheet";
import { placeTemplates } from "../../src/workbook/place-templates";
import { findJobSources, findShopSheets, type ShopSheets } from "../../src/workbook/quote-sources";
import { templateOf } from "../../src/workbook/templates";

jest.setTimeout(60_000);

const TYPED: OrderTexts = { customer: " Lower yard ", minutes: "45", warranty: "" };
const workbook = new FileWorkbook();
let open: OpenJob;
let shop: ShopSheets;
let assessment: Assessment;
beforeAll(async () => {
  const templates = ["job", "machines", "reference", "fleet", "prices", "terms"].map((id) => templateOf(id)!);
  await placeTemplates(workbook, templates, { demo: DEMO });
  open = (await openJob(workbook, "Job"))!;
  shop = await findShopSheets(workbook);
  const parts = partsOfNumber(await findList(workbook, isKnownGoodList), partNumberOf(open.before.job));
  assessment = assess(open.before.job, { knownGood: parts.map(({ job }) => job), rule: "guarded", meter: {} });
});

it("the pane quotes the verdict that the sheet's own cells hold", async () => {
  const { verdictCells } = (await findJobSources(workbook, "Job"))!;
  const { part, state, chance, sentence } = assessment.explained!.diagnosis.verdict;
  expect(verdictCells).toEqual([part, state, expect.closeTo(chance, 9), sentence]);
});

it("prices a suspect part's further check as the sheet does, by hand", () => {
  const prices = pricesOf(open, assessment, shop, TYPED)!;
  if (!prices.priced.ok) throw new Error("It cannot be priced.");
  const { kind, alternatives } = prices.priced.value.quote;
  expect(kind).toBe("further check");
  // 45 min and 8 min, 0.75 h and 0.13 h, at 80 an hour: 60.00 and 10.40; 7 % on each: 4.20 and 0.73.
  expect(alternatives.map(({ total }) => total.toFixed(2))).toEqual(["75.33"]);
  const order = orderOf(open, assessment, prices.priced.value, alternatives[0]!, TYPED, "2026-11-25");
  expect(order).toMatchObject({
    day: "2026-11-25",
    job: { sheet: "Job", jobNumber: "J-118", machine: "Quad 7", customer: "Lower yard" },
    verdict: { part: "wiring", state: "suspect" },
    fixed: false,
    total: 75.33,
    currency: "USD",
    minutes: 45,
  });
});

it("is not priced before prices and terms are there, and testing that cannot be read is not charged", () => {
  expect(pricesOf(open, assessment, { ...shop, terms: undefined }, TYPED)).toBeUndefined();
  const prices = pricesOf(open, assessment, shop, { ...TYPED, minutes: "a while" })!;
  expect(prices.priced.ok && prices.priced.value.quote.alternatives[0]!.total.toFixed(2)).toBe("11.13");
});

it.each([
  ["", undefined],
  ["30", 30],
  [" 7,5 min", 7.5],
  ["0", 0],
  ["10001", Number.NaN],
  ["-3", Number.NaN],
  ["an hour", Number.NaN],
])("minutes of testing typed as %p are %p", (typed, minutes) => expect(minutesOf(typed)).toBe(minutes));

it("counts the minutes of the checks that were read, by the catalogue", () => {
  expect(minutesTaken(new Map([["rested-voltage", { kind: "number", value: 12.4 }]]))).toBe(3);
  expect(minutesTaken(new Map())).toBe(0);
});

it("a closed visit is read with its machine's own data", async () => {
  const machines = await findList(workbook, isMachineList);
  expect(machines!.sheet).toBe("Machines");
  expect(machineData(machines, "quad-7").get("regulated-max")).toMatchObject({ value: 14.9 });
  expect(machineData(machines, "Quad 99").size).toBe(0);
  expect(machineData(machines, "").size).toBe(0);
});

it.each([
  ["en", "USD", 2, 1234.5, "$1,234.50"],
  ["es", "EUR", 2, 1234.5, "1234,50\u00a0€"],
  ["es", "EUR", 2, 12345.6, "12.345,60\u00a0€"],
  ["en", "JPY", 0, 1234, "¥1,234"],
  ["en", "KWD", 3, 1.5, "KWD\u00a01.500"],
] as const)("[CLDR, %s] %s with %i decimals", (locale, currency, decimals, amount, said) =>
  expect(moneyIn(locale, currency, decimals)(amount)).toBe(said),
);
