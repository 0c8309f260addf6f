import path from "node:path";
import type { Browser } from "playwright-core";
import { servePage, type Serving } from "../../src/local/serve-page";
import { violationsInBothLights } from "./axe";
import { readCell, readCells, typeInto, waitUntilOpen } from "./grid";
import { launchBrowser, screenshot, watchedPage } from "./launch";

jest.setTimeout(300_000);

const folder = path.resolve(__dirname, "../../dist/local");
const FALSE_CODE = (code: string) => String((Number(code) + 1) % 1_000_000).padStart(6, "0");

let browser: Browser;
let serving: Serving;
let joined = 0;
beforeAll(async () => {
  serving = await servePage({ folder, port: 0, network: { addresses: ["127.0.0.1"], onJoined: () => joined++ } });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
  serving?.close();
});

it("a phone joins with the code, and what is typed on it is judged in the workbook on the shop's computer", async () => {
  // The shop speaks Spanish, whoever holds the phone English: one workbook, labels in the shop's language.
  const desk = await watchedPage(browser, `http://127.0.0.1:${serving.local.port}/`, { locale: "es-MX" });
  await waitUntilOpen(desk.page);
  const address = serving.phones!.addresses[0]!;
  const phone = await watchedPage(browser, address, {
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    // Whoever uses a phone accepts the certificate by hand.
    ignoreHTTPSErrors: true,
  });
  const { page } = phone;
  const code = serving.phones!.newCode();
  const typeCode = async (text: string) => {
    await page.getByLabel("Code").fill(text);
    await page.getByRole("button", { name: "Join" }).click();
  };
  await typeCode(FALSE_CODE(code));
  await page.getByRole("alert").getByText("That is not the code. 4 tries are left.").waitFor();
  await screenshot(page, "phone-join");
  await typeCode(code);
  await page.getByText("Wiring: suspect").waitFor();
  expect(joined).toBe(1);
  expect(await page.evaluate(() => document.cookie)).toBe("");
  await desk.page.locator("#notices").getByText("Un teléfono trabaja en este libro.").waitFor();
  expect(await violationsInBothLights(desk.page, "#notices")).toEqual([]);

  // The ground run of the demo job, typed at the machine.
  await page.getByRole("button", { name: /^Next/u }).click();
  const type = async (entry: string, text: string) => {
    const field = page.locator(`input[data-entry="${entry}"]`);
    await field.fill(text);
    await field.press("Enter");
  };
  await type("ground-drop", "1,05 V");
  await page.locator('[data-reading="ground-drop"] .cw-state[data-state="fail"]').waitFor();
  await screenshot(page, "phone-check");
  const { values } = await readCells(desk.page, "Trabajo", "A1:A220");
  const row = values.findIndex(([text]) => text === "Caída de tensión, tramo de masa") + 1;
  expect(await readCell(desk.page, "Trabajo", `B${row}`)).toBe("1,05 V");
  expect(await readCell(desk.page, "Trabajo", `E${row}`)).toBe("no conforme");

  // And the other way: what is typed at the computer is seen on the phone.
  await typeInto(desk.page, `B${row}`, "0.05");
  await page.locator('[data-reading="ground-drop"] .cw-state[data-state="pass"]').waitFor();
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('input[data-entry="ground-drop"]')?.value === "0.050",
  );

  // Written, but the line broke before it was read back: the field shows what now stands in the sheet.
  const line = "**/share/call";
  const broken = { fault: { message: "The workbook is not open on the shop's computer.", reason: "host" } };
  let written = false;
  await page.route(line, (route) => {
    if (written) return route.fulfill({ json: broken });
    written = route.request().postData()!.includes('"apply"');
    return route.continue();
  });
  await type("ground-drop", "0.06");
  await page.getByRole("alert").getByText(broken.fault.message).waitFor();
  expect(await page.locator('input[data-entry="ground-drop"]').inputValue()).toBe("0.060");
  expect(await readCell(desk.page, "Trabajo", `B${row}`)).toBe(0.06);
  await page.unroute(line);
  await typeInto(desk.page, `B${row}`, "0.05");
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('input[data-entry="ground-drop"]')?.value === "0.050",
  );

  // Without the computer's page the phone says so and keeps what was typed. Left first, then closed: a page
  // that is being closed may still answer.
  await desk.page.goto("about:blank");
  await desk.page.close();
  await type("ground-drop", "0.9");
  await page.getByRole("alert").getByText("The workbook is not open on the shop's computer.").waitFor();
  expect(await page.locator('input[data-entry="ground-drop"]').inputValue()).toBe("0.9");

  // A job with a reading and an error, and the line that says that the computer is gone, in either language.
  serving.close();
  await page.locator("#link").getByText("The shop's computer cannot be reached.").waitFor();
  expect(await violationsInBothLights(page)).toEqual([]);
  await page.click("[data-section=settings]");
  await page.getByRole("radio", { name: "Español" }).check();
  await page.locator('html[lang="es"]').waitFor();
  await page.locator("#link").getByText("No se alcanza el ordenador del taller.").waitFor();
  await page.click("[data-section=job]");
  expect(await violationsInBothLights(page)).toEqual([]);
  expect(phone.foreign).toEqual([]);
  // The browser itself reports a computer that it cannot reach.
  expect(phone.errors.filter((error) => !/401|403|ERR_CONNECTION_REFUSED/u.test(error))).toEqual([]);
});
