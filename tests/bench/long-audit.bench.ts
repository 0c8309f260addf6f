import { cpus } from "node:os";
import { addinInBrowser, type StandIn } from "../browser/addin-in-browser";
import { fleetRows, machineRows } from "./fleet-rows";

/**
 * How long one worksheet call of CHG.AUDIT takes for a long table, in the built page of the add-in in a browser:
 * in threads as it is, and with the threads taken away. Build first: npm run build:addin. Prints, and judges
 * nothing.
 *
 *   node -r ./.config/typescript.cjs tests/bench/long-audit.bench.ts [rows]
 */
const count = Number(process.argv[2] ?? 100_000);
const TYPES = 12;

void (async () => {
  const addin = await addinInBrowser();
  const audit = async (threads: boolean): Promise<number> => {
    const { page } = await addin.open("hidden");
    const seconds = await page.evaluate(
      async ([rows, machines, kept]) => {
        if (!kept) Reflect.deleteProperty(window, "Worker");
        const { associated } = (window as unknown as { standIn: StandIn }).standIn;
        await associated.AUDIT!(rows.slice(0, 100), machines);
        const start = performance.now();
        const cells = (await associated.AUDIT!(rows, machines)) as unknown[][];
        if (cells.length !== rows.length) throw new Error(`${cells.length} rows came back`);
        return (performance.now() - start) / 1000;
      },
      [fleetRows(count, TYPES), machineRows(TYPES), threads] as const,
    );
    await page.close();
    return seconds;
  };
  console.log(`${count} rows, ${cpus().length} processors (${cpus()[0]?.model ?? "unknown"})`);
  const alone = await audit(false);
  const together = await audit(true);
  console.log(
    `in the page itself ${alone.toFixed(2)} s, in threads ${together.toFixed(2)} s: ${(alone / together).toFixed(2)} times as fast`,
  );
  await addin.close();
})();
