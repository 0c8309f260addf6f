import { FileWorkbook } from "../../src/hosts/file/file-workbook";
import { DEMO } from "../../src/workbook/demo";
import { placeTemplates } from "../../src/workbook/place-templates";
import type { Workbook } from "../../src/workbook/port";
import { findJobSources, findShopSheets } from "../../src/workbook/quote-sources";
import type { QuoteOrder } from "../../src/workbook/quote-write";
import type { SheetPlan } from "../../src/workbook/sheet-plan";
import { templateOf } from "../../src/workbook/templates";

/** A shop with the demo's job, and what it quotes. */

export const ORDER: QuoteOrder = {
  day: "2026-11-25",
  validDays: 30,
  job: { sheet: "Job", jobNumber: "J-118", machine: "Quad 7", customer: "Lower yard" },
  verdict: { part: "wiring", state: "faulty", chance: 0.97, sentence: "Wiring: faulty (97 %)." },
  way: "Replace the cable run",
  fixed: true,
  partNumber: "",
  total: 0,
  currency: "USD",
  minutes: 45,
  warranty: "",
};

/** The demo's job, its ground run proven bad or not measured, beside the shop's prices and terms. */
export async function shop(
  ground: "proven bad" | "as it is" = "proven bad",
): Promise<{ workbook: FileWorkbook; job: SheetPlan }> {
  const workbook = new FileWorkbook();
  const templates = ["job", "machines", "reference", "prices", "terms"].map((id) => templateOf(id)!);
  const plans = await placeTemplates(workbook, templates, { demo: DEMO });
  const job = plans.find(({ template }) => template === "job")!;
  if (ground === "proven bad") {
    await type(workbook, job, "ground-drop", 1.35);
    await type(workbook, job, "drop-current", 12);
  }
  return { workbook, job };
}
export const type = (workbook: FileWorkbook, { sheet, inputs }: SheetPlan, id: string, value: string | number) =>
  workbook.apply([{ do: "write", at: { sheet, ...inputs.get(id)!, rows: 1, columns: 1 }, values: [[value]] }]);

export async function tiesIn(workbook: Workbook) {
  const [job, found] = [await findJobSources(workbook, "Job"), await findShopSheets(workbook)];
  return { ...job!, prices: found.prices!.range, terms: found.terms!.range };
}
