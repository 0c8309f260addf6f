import { PLACEMENTS, type Placement } from "../../src/pane/drawings/placements";
import { CHECKS } from "../../src/core/readings/checks";
import { entriesOfCheck } from "../../src/core/readings/catalogue";
import { PanePages } from "../pane/open-pane";

jest.setTimeout(240_000);

const pages = new PanePages();
beforeAll(() => pages.start());
afterAll(() => pages.stop());

/** Distance in drawing units within which a tip lies on its place. */
const ON_IT = 12;

interface Measured {
  readonly drawn: string | null;
  readonly title: string;
  readonly description: string;
  readonly leads: readonly {
    readonly colour: string;
    readonly touches: string;
    readonly distance: number;
    /** Places that the lead passes over on its way. */
    readonly over: readonly string[];
  }[];
  readonly clamps: number;
  readonly outside: readonly string[];
  readonly tested: readonly string[];
}

/** What the drawing on the page shows, measured in its own units. */
function measure(): Measured {
  const figure = document.querySelector(".cw-figure")!;
  const svg = figure.querySelector<SVGSVGElement>("svg.cw-drawing")!;
  const { x, y, width, height } = svg.viewBox.baseVal;
  const centreOf = (element: SVGGraphicsElement) => {
    const box = element.getBBox();
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };
  const leads = [...svg.querySelectorAll<SVGGElement>("[data-lead]")].map((lead) => {
    const tip = centreOf(lead.querySelector<SVGGraphicsElement>(".cw-tip")!);
    const touches = lead.dataset["touches"]!;
    const places =
      touches === "other lead"
        ? [...svg.querySelectorAll<SVGGraphicsElement>(".cw-tip")].filter((other) => !lead.contains(other))
        : [...svg.querySelectorAll<SVGGraphicsElement>(`[data-place="${touches}"]`)];
    const distance = Math.min(...places.map(centreOf).map((place) => Math.hypot(place.x - tip.x, place.y - tip.y)));
    const skin = lead.querySelector<SVGPathElement>(".cw-lead-skin")!;
    const over = [...svg.querySelectorAll<SVGGraphicsElement>("[data-place]")]
      .filter((place) => place.dataset["place"] !== touches && skin.isPointInStroke(centreOf(place)))
      .map((place) => place.dataset["place"]!);
    return { colour: lead.dataset["lead"]!, touches, distance, over };
  });
  const outside = [...svg.querySelectorAll<SVGTextElement>("text")]
    .filter((text) => {
      const box = text.getBBox();
      return (
        box.width > 0 &&
        (box.x < x - 0.5 ||
          box.y < y - 0.5 ||
          box.x + box.width > x + width + 0.5 ||
          box.y + box.height > y + height + 0.5)
      );
    })
    .map((text) => text.textContent);
  const labels = svg
    .getAttribute("aria-labelledby")!
    .split(" ")
    .map((id) => document.getElementById(id)!.textContent!);
  return {
    drawn: figure.getAttribute("data-drawn"),
    title: labels[0]!,
    description: labels[1]!,
    leads,
    clamps: svg.querySelectorAll(".cw-clamp").length,
    outside,
    tested: [...svg.querySelectorAll<SVGGElement>(".cw-device-tested")].map((device) => device.dataset["device"]!),
  };
}

/** Everything that a drawing says otherwise than its placement. */
function wrongIn(drawing: Measured, placement: Placement | undefined): string[] {
  const wrong = drawing.outside.map((text) => `"${text}" is cut off`);
  if (drawing.title.length < 9 || drawing.description.length < 31) wrong.push("no words for who cannot see it");
  if (!placement) return wrong;
  if (drawing.clamps !== (placement.clamp ? 1 : 0)) wrong.push(`${drawing.clamps} clamps`);
  if (placement.clamp) return wrong;
  const touches = Object.fromEntries(drawing.leads.map((lead) => [lead.colour, lead.touches]));
  if (touches["red"] !== placement.red || touches["black"] !== placement.black)
    wrong.push(`leads on ${JSON.stringify(touches)}`);
  for (const lead of drawing.leads) {
    if (lead.over.length > 0) wrong.push(`${lead.colour} lead lies over ${lead.over.join(", ")}`);
    // Shorted tips lie side by side.
    if (!(lead.distance <= (lead.touches === "other lead" ? 16 : ON_IT)))
      wrong.push(`${lead.colour} is ${lead.distance} from ${lead.touches}`);
  }
  const device = placement.device ? `${placement.device.bank} ${placement.device.phase}` : "";
  if (drawing.tested.join() !== device) wrong.push(`device ${drawing.tested.join()} marked`);
  return wrong;
}

for (const language of ["en", "es"] as const) {
  describe(`drawings, ${language}`, () => {
    it("show whole what each device of the bridge was read as, clear of the next one", async () => {
      const { page } = await pages.open({ demo: true, language });
      await page.evaluate(async () => {
        const book = window.pane.workbook;
        const { values } = await book.read(await book.usedArea("Job"));
        const row = values.findIndex((line) => line[0] === "Circuit inside the regulator-rectifier");
        book.edit({ sheet: "Job", row, column: 1, rows: 1, columns: 1 }, [["parallel path"]]);
      });
      await page.click("#cw-open-diode-check");
      await page.waitForFunction(() => /paral/u.test(document.querySelector(".cw-map")?.textContent ?? ""));
      const words = await page.evaluate(() => {
        const map = document.querySelector<SVGSVGElement>(".cw-map")!;
        const phases = [...map.querySelectorAll<SVGGraphicsElement>(".cw-node")].map((node) => node.getBBox().x);
        return [...map.querySelectorAll<SVGTextElement>(".cw-shows")].map((text) => {
          const { x, width } = text.getBBox();
          const next = Math.min(map.viewBox.baseVal.width, ...phases.filter((phase) => phase > x));
          return { said: text.textContent, over: Math.max(0, x + width - next) };
        });
      });
      const parallel = words.filter(({ said }) => said === (language === "en" ? "parallel path" : "camino paralelo"));
      expect([words.length, parallel.length]).toEqual([6, 3]);
      expect(words.filter(({ over }) => over > 0)).toEqual([]);
      await page.close();
    });

    it("put each tip on the place that the placement names, with nothing cut off, for every reading", async () => {
      const { page, errors } = await pages.open({ demo: true, language });
      const seen = new Set<string>();
      const problems: string[] = [];
      for (const check of CHECKS) {
        await page.evaluate((id) => {
          document.querySelectorAll("details").forEach((details) => (details.open = true));
          document.getElementById(`cw-open-${id}`)!.click();
        }, check.id);
        await page.waitForSelector(`[data-check="${check.id}"]`);
        for (const entry of entriesOfCheck(check.id)) {
          if ((await page.locator(`[data-entry="${entry.id}"]`).count()) === 0) continue;
          await page.locator(`[data-entry="${entry.id}"]`).focus();
          const drawing = await page.evaluate(measure);
          if (drawing.drawn !== entry.id) continue;
          seen.add(entry.id);
          problems.push(...wrongIn(drawing, PLACEMENTS.get(entry.id)).map((wrong) => `${entry.id}: ${wrong}`));
        }
        await page.click(".cw-back");
      }
      expect(problems).toEqual([]);
      expect([...PLACEMENTS.keys()].filter((id) => !seen.has(id))).toEqual([]);
      expect(errors).toEqual([]);
      await page.close();
    });
  });
}
