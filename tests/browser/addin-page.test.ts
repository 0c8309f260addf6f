import type { Page } from "playwright-core";
import { FUNCTIONS } from "../../src/functions/registry";
import { fleetRows, machineRows } from "../bench/fleet-rows";
import { addinInBrowser, type AddinInBrowser, type StandIn } from "./addin-in-browser";

jest.setTimeout(240_000);

let addin: AddinInBrowser;
const open = (how?: string) => addin.open(how);

beforeAll(async () => {
  addin = await addinInBrowser();
});

afterAll(async () => {
  await addin?.close();
});

const called = (page: Page, id: string, ...given: unknown[]) =>
  page.evaluate(
    async ([name, args]) => {
      const { associated } = (window as unknown as { standIn: StandIn }).standIn;
      return Promise.resolve(associated[name]!(...args)).catch((error: unknown) => error);
    },
    [id, given] as const,
  );

describe("the built page of the add-in", () => {
  it("hands Excel every function; the diagnosis is fetched at its first call", async () => {
    const { page, errors, foreign, loaded } = await open("hidden");
    const ids = await page.evaluate(() => Object.keys((window as unknown as { standIn: StandIn }).standIn.associated));
    expect(ids.sort()).toEqual(Object.keys(FUNCTIONS).sort());
    expect(await called(page, "SOC", [[12.45], [null]], [["flooded"]], { address: "Sheet1!A1" })).toEqual([
      [0.75],
      [""],
    ]);
    expect(loaded.some((file) => file.endsWith("diagnosis.js"))).toBe(false);
    const verdict = await called(page, "VERDICT", [
      ["Rested voltage", 11.9],
      ["Key-off draw", "60 mA"],
    ]);
    expect((verdict as unknown[][])[0]!.slice(0, 2)).toEqual(["load", "faulty"]);
    expect(loaded.some((file) => file.endsWith("spanish.js"))).toBe(false);
    const spanish = ["Key-off draw", "60 mA", null, null, null, null, null, "es"];
    expect(await called(page, "CHECK", ...spanish)).toEqual(FUNCTIONS.CHECK!(...spanish));
    expect(loaded.filter((file) => file.endsWith("spanish.js")).length).toBe(2);
    expect(loaded.some((file) => file.endsWith("diagnosis.js"))).toBe(true);
    expect([errors, foreign]).toEqual([[], []]);
    await page.close();
  });

  it("audits a long table in threads, with the cells that one call gives, sentences in Spanish", async () => {
    const { page, errors, foreign } = await open("hidden");
    const table = fleetRows(8_100, 40);
    const machines = machineRows(40);
    const [cells, answers] = await page.evaluate(
      async ([rows, data]) => {
        const answered: number[] = [];
        const Plain = window.Worker;
        window.Worker = class extends Plain {
          constructor(address: string | URL, options?: WorkerOptions) {
            super(address, options);
            this.addEventListener("message", ({ data: part }) => answered.push((part as unknown[]).length));
          }
        };
        const { associated } = (window as unknown as { standIn: StandIn }).standIn;
        return [(await associated.AUDIT!(rows, data, null, null, null, "es")) as unknown[][], answered] as const;
      },
      [table, machines] as const,
    );
    expect(answers.reduce((sum, rows) => sum + rows, 0)).toBe(8_100);
    expect(cells).toEqual(FUNCTIONS.AUDIT!(table, machines, null, null, null, "es"));
    expect([errors, foreign]).toEqual([[], []]);
    await page.close();
  });

  it("has the threads of one long table audit the next, by what that is called with", async () => {
    const { page, errors } = await open("hidden");
    const table = fleetRows(8_100, 40);
    const machines = machineRows(40);
    const others = machines.map((row, r) => (r === 0 ? row : row.with(1, "lithium")));
    const [threads, before, cells] = await page.evaluate(
      async ([rows, one, other]) => {
        let started = 0;
        const Plain = window.Worker;
        window.Worker = class extends Plain {
          constructor(address: string | URL, options?: WorkerOptions) {
            super(address, options);
            started += 1;
          }
        };
        const { associated } = (window as unknown as { standIn: StandIn }).standIn;
        await associated.AUDIT!(rows, one);
        const first = started;
        const after = (await associated.AUDIT!(rows, other)) as unknown[][];
        return [started, first, after] as const;
      },
      [table, machines, others] as const,
    );
    expect(before).toBeGreaterThan(0);
    expect(threads).toBe(before);
    expect(cells).toEqual(FUNCTIONS.AUDIT!(table, others));
    expect(errors).toEqual([]);
    await page.close();
  });

  it("fetches the pane only when Excel shows it", async () => {
    const { page, loaded } = await open("hidden");
    await called(page, "SOC", [[12.45]], [["flooded"]]);
    expect(loaded.some((file) => file.endsWith("pane.js"))).toBe(false);
    await page.evaluate(() => (window as unknown as { standIn: StandIn }).standIn.show());
    await page.waitForSelector(".cw-body");
    expect(loaded.some((file) => file.endsWith("pane.js"))).toBe(true);
    await page.close();
  });

  it("lays out a job sheet in the workbook from the pane, by keyboard", async () => {
    const { page, errors, foreign } = await open();
    const start = page.getByRole("button", { name: "Start a job" });
    await start.focus();
    await page.keyboard.press("Enter");
    await page.waitForFunction(
      () => (window as unknown as { standIn: StandIn }).standIn.book.sheets.length > 1,
      undefined,
      { timeout: 30_000 },
    );
    const sheet = await page.evaluate(() => {
      const made = (window as unknown as { standIn: StandIn }).standIn.book.sheets[1]!;
      const cells = [...made.cells.values()];
      return {
        labels: cells.map(({ value }) => value),
        formulas: cells.map(({ formula }) => formula).filter((formula) => formula.includes("CHG.")),
      };
    });
    expect(sheet.labels).toContain("Rested voltage");
    expect(sheet.formulas.length).toBeGreaterThan(10);
    expect([errors, foreign]).toEqual([[], []]);
    await page.close();
  });

  it("tells an older Excel what works and what is needed, and gives it the functions", async () => {
    const { page } = await open("old");
    await page.waitForFunction(() =>
      /too old for the pane.*functions work all the same.*Excel 2021/su.test(document.body.innerText),
    );
    expect(await called(page, "SOC", [[12.45]], [["flooded"]])).toEqual([[0.75]]);
    await page.close();
  });

  it("says what it is when it is opened outside Excel", async () => {
    const { page } = await open("none");
    await page.waitForFunction(() => /Excel add-in and has no workbook here/u.test(document.body.innerText));
    await page.close();
  });

  it("says so when Excel's own library cannot be fetched", async () => {
    const { page } = await open("offline");
    await page.waitForFunction(() => /own library could not be fetched.*office=local/su.test(document.body.innerText));
    await page.close();
  });

  it("says so when the pane cannot be fetched, and tries again on a press", async () => {
    const { page } = await open("hidden");
    await page.route("**/pane.js", (route) => route.abort());
    await page.evaluate(() => (window as unknown as { standIn: StandIn }).standIn.show());
    await page.getByRole("button", { name: "Try again" }).waitFor();
    expect(await page.getByRole("status").first().textContent()).toMatch(/could not be fetched/u);
    await page.unroute("**/pane.js");
    await page.getByRole("button", { name: "Try again" }).click();
    await page.waitForSelector(".cw-body");
    await page.close();
  });

  it("speaks the other language when its own words cannot be fetched, and tries again without any", async () => {
    const { page } = await open("hidden");
    await page.route(/\/(?:english|spanish)\.js$/u, (route) => route.abort());
    await page.evaluate(() => (window as unknown as { standIn: StandIn }).standIn.show());
    const again = page.getByRole("button", { name: "Try again" });
    await again.waitFor();
    await page.unroute(/\/(?:english|spanish)\.js$/u);
    await page.route("**/english.js", (route) => route.abort());
    await again.click();
    await page.waitForSelector(".cw-body[lang=es]");
    await page.close();
  });
});

describe("the server for the add-in", () => {
  const get = (file: string, method = "GET") => fetch(`${addin.origin}${file}`, { method });

  it("lets Excel on the web frame it and names every type", async () => {
    const answer = await get("/addin.html");
    expect(answer.headers.get("content-security-policy")).toMatch(
      /frame-ancestors .*https:\/\/\*\.officeapps\.live\.com/u,
    );
    expect(answer.headers.get("content-type")).toBe("text/html; charset=utf-8");
    expect((await get("/help/SOC.html")).status).toBe(200);
    expect((await get("/manifest.xml")).headers.get("content-type")).toMatch(/xml/u);
  });

  it("gives nothing but its own files", async () => {
    for (const file of ["/", "/..%2f..%2fpackage.json", "/%00.js", "/nothing.js", "/%E0%A4%A.js"])
      expect((await get(file)).status).toBe(404);
    expect((await get("/addin.html", "POST")).status).toBe(405);
  });
});
