import { cpus } from "node:os";
import { addinInBrowser, type StandIn } from "../browser/addin-in-browser";
import { fleetRows, machineRows } from "./fleet-rows";

/**
 * How long one worksheet call of CHG.AUDIT takes for a long table, in the built page of the add-in in a browser:
 * in threads as it is, and with the threads taken away; and how long the next calls take, after one reading has
 * changed and after a machine's data has, for which all rows are audited again. Build first: npm run build:addin. Prints, and judges nothing.
 *
 *   node -r ./.config/typescript.cjs tests/bench/long-audit.bench.ts [rows]
 */
const count = Number(process.argv[2] ?? 100_000);
const TYPES = 12;

void (async () => {
  const addin = await addinInBrowser();
  const audit = async (threads: boolean) => {
    const { page } = await addin.open("hidden", true);
    const times = await page.evaluate(
      async ([rows, machines, kept]) => {
        if (!kept) Reflect.deleteProperty(window, "Worker");
        const { associated } = (window as unknown as { standIn: StandIn }).standIn;
        await associated.AUDIT!(rows.slice(0, 100), machines);
        // What was left over from handing the page its rows is cleared away first.
        await new Promise((resolve) => setTimeout(resolve, 1500));
        const timed = async () => {
          const start = performance.now();
          const cells = (await associated.AUDIT!(rows, machines)) as unknown[][];
          if (cells.length !== rows.length) throw new Error(`${cells.length} rows came back`);
          return (performance.now() - start) / 1000;
        };
        const whole = await timed();
        rows[rows.length >> 1]![1] = 11.9;
        const typed = await timed();
        machines[1]![2] = 9;
        return { whole, typed, anew: await timed() };
      },
      [fleetRows(count, TYPES), machineRows(TYPES), threads] as const,
    );
    await page.close();
    return times;
  };
  console.log(`${count} rows, ${cpus().length} processors (${cpus()[0]?.model ?? "unknown"})`);
  const alone = await audit(false);
  const together = await audit(true);
  console.log(
    `in the page itself ${alone.whole.toFixed(2)} s, in threads ${together.whole.toFixed(2)} s: ` +
      `${(alone.whole / together.whole).toFixed(2)} times as fast`,
  );
  console.log(
    `again with one reading changed ${together.typed.toFixed(2)} s: ` +
      `${(together.whole / together.typed).toFixed(0)} times as fast as the whole`,
  );
  console.log(
    `again with a machine's data changed ${together.anew.toFixed(2)} s: ` +
      `${(together.whole / together.anew).toFixed(2)} times as fast as the first time`,
  );
  await addin.close();
})();
