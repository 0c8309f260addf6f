import { openPageGrid, type GridStart, type PageGrid } from "../hosts/grid/page-grid";
import { mountPane } from "../pane/mount";
import type { Language } from "../pane/settings";
import { demoIn } from "../workbook/demo";
import { placeTemplates } from "../workbook/place-templates";
import type { Step } from "../workbook/port";
import { ENGLISH, type SheetLanguage } from "../workbook/sheet-language";
import { TEMPLATES } from "../workbook/templates";

/** What lies on the desk: one workbook in the grid, and the pane that follows it. */
export class Desk {
  /** The name that a file made of the workbook gets, without its ending. */
  name = DEMO_NAME;
  private grid: PageGrid | undefined;
  private takeDown: (() => void)[] = [];
  private readonly listeners = new Set<() => void>();

  constructor(
    private readonly sheet: HTMLElement,
    private readonly pane: HTMLElement,
    private language: Language,
    private readonly onLanguage: (language: Language) => void,
    private readonly onWait: (waiting: boolean) => void,
  ) {}

  get workbook() {
    return this.shown().workbook;
  }

  /** Called after every change of the workbook that lies here, and when another one is laid here. */
  onChange(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => void this.listeners.delete(listener);
  }

  /** The workbook of the demo shop. */
  async showDemo(): Promise<void> {
    const language = await sheetLanguage(this.language);
    await this.show(DEMO_NAME, { firstSheet: language.say(TEMPLATES[0]!.sheet) }, async (grid) => {
      await placeTemplates(grid.workbook, TEMPLATES, { demo: demoIn(language), language });
    });
  }

  async showSnapshot(name: string, snapshot: unknown): Promise<void> {
    await this.show(name, { snapshot }, async (grid) => void (await grid.workbook.sheetNames()));
  }

  /** A workbook that is told in steps; its first sheet comes first among them. */
  async showSteps(name: string, steps: readonly Step[]): Promise<void> {
    const first = steps.find((step) => step.do === "add sheet");
    const others = steps.filter((step) => step !== first);
    await this.show(name, { firstSheet: first?.sheet ?? "Sheet1" }, (grid) => grid.workbook.apply(others));
  }

  snapshot(): unknown {
    return this.shown().snapshot();
  }

  file(): Promise<Uint8Array> {
    return this.shown().file(this.name, new Date());
  }

  private speak(language: Language): void {
    this.language = language;
    this.onLanguage(language);
    void this.grid?.speak(language);
  }

  /** The new workbook is built first: where that fails, what lies here stays. */
  private async show(name: string, start: GridStart, fill: (grid: PageGrid) => Promise<void>): Promise<void> {
    const place = document.createElement("div");
    place.className = "grid building";
    this.sheet.append(place);
    let grid: PageGrid | undefined;
    try {
      grid = await openPageGrid(place, FUNCTION_HELP, start, this.language, this.onWait);
      await fill(grid);
    } catch (error) {
      grid?.close();
      place.remove();
      throw error;
    }
    for (const step of this.takeDown.splice(0)) step();
    place.classList.remove("building");
    this.grid = grid;
    // Another language may have been chosen meanwhile, in the pane of what lay here before.
    void grid.speak(this.language);
    this.name = name;
    const changed = () => this.listeners.forEach((listener) => listener());
    this.takeDown = [
      grid.onChange(changed),
      mountPane(this.pane, grid.workbook, { onLanguage: (chosen) => this.speak(chosen) }),
      () => {
        grid.close();
        place.remove();
      },
    ];
    changed();
  }

  private shown(): PageGrid {
    if (!this.grid) throw new Error("No workbook is shown yet.");
    return this.grid;
  }
}

const DEMO_NAME = "chargewright";

/** What new sheets are written in; what English does not need is fetched. */
async function sheetLanguage(language: Language): Promise<SheetLanguage> {
  if (language === "en") return ENGLISH;
  const [{ SPANISH }, { spanishSheets }] = await Promise.all([
    import(/* webpackChunkName: "spanish" */ "../pane/words/spanish"),
    import(/* webpackChunkName: "sheets-spanish" */ "../pane/words/sheets-spanish"),
  ]);
  return spanishSheets(SPANISH);
}
