import { existsSync } from "node:fs";
import { join } from "node:path";
import { readArguments } from "./arguments";
import { InputFault, UsageFault, type Command } from "./command";

/** A port that no common service claims. */
const USUAL_PORT = 4747;

/** `chargewright serve`: the workbook and the pane in the browser. */
export const serve: Command = {
  help: `Usage: chargewright serve [--port NUMBER] [--no-open]

Serves the local page (a spreadsheet with the demo workbook, and the task pane beside it)
on this computer only, prints its address and opens it in the browser. Nothing is sent
anywhere else. Ends with Ctrl+C.

Options:
  --port NUMBER   the port to use (${USUAL_PORT}); when it is taken, the next free one is used
  --no-open       print the address only
  --help          print this text`,

  async run(args, io) {
    const { options, operands } = readArguments(args, { port: { type: "string" }, "no-open": { type: "boolean" } });
    if (operands.length > 0) throw new UsageFault(`"${operands[0]}" is not expected here.`);
    const port = portFrom(options.port);
    const folder = join(__dirname, "..", "local");
    if (!existsSync(join(folder, "index.html"))) {
      throw new InputFault("the page is not built yet; run: npm run build:local");
    }
    const [{ staticServer }, { listenLocally, PortFault }, { hasScreen, openBrowser }] = await Promise.all([
      import("../local/static-server"),
      import("../local/listen"),
      import("../local/open-browser"),
    ]);
    const server = staticServer(folder);
    const listening = await listenLocally(server, port).catch((error: unknown) => {
      throw error instanceof PortFault ? new InputFault(error.message) : error;
    });
    if (listening.taken.length > 0) {
      io.complain(`Port ${listening.taken.join(", ")} is in use by another program; using ${listening.port} instead.`);
    }
    const address = `http://127.0.0.1:${listening.port}/`;
    io.out(`Chargewright is at ${address}  (Ctrl+C ends it)`);
    if (!options["no-open"] && hasScreen(process.platform, process.env)) openBrowser(address);
    await new Promise<void>((resolve) => {
      for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => resolve());
    });
    server.close();
    server.closeAllConnections();
    return 0;
  },
};

function portFrom(text: string | undefined): number {
  if (text === undefined) return USUAL_PORT;
  const port = Number(text);
  if (/^\d{1,5}$/u.test(text) && port <= 65_535) return port;
  throw new UsageFault(`--port ${text} is not a port; give a number from 1024 to 65535.`);
}
