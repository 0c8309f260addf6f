import { existsSync } from "node:fs";
import { join } from "node:path";
import { createInterface } from "node:readline";
import type { Phones } from "../local/serve-page";
import { readArguments } from "./arguments";
import { InputFault, UsageFault, type Command, type Io } from "./command";

/** A port that no common service claims. */
const USUAL_PORT = 4747;

/** `chargewright serve`: the workbook and the pane in the browser. */
export const serve: Command = {
  help: `Usage: chargewright serve [--host] [--port NUMBER] [--no-open]

Serves the local page (a spreadsheet with the demo workbook, and the task pane beside it)
on this computer only, prints its address and opens it in the browser. Nothing is sent
anywhere else. Ends with Ctrl+C.

Options:
  --host          let phones of this private network join: the pane on the phone works on
                  the workbook that is open here; prints the address, also as a QR code,
                  and a code that lets in one phone (Enter gives a new one)
  --port NUMBER   the port to use (${USUAL_PORT}); when it is taken, the next free one is used
  --no-open       print the address only
  --help          print this text`,

  async run(args, io) {
    const { options, operands } = readArguments(args, {
      host: { type: "boolean" },
      port: { type: "string" },
      "no-open": { type: "boolean" },
    });
    if (operands.length > 0) throw new UsageFault(`"${operands[0]}" is not expected here.`);
    const port = portFrom(options.port);
    const folder = join(__dirname, "..", "local");
    if (!existsSync(join(folder, "index.html"))) {
      throw new InputFault("the page is not built yet; run: npm run build:local");
    }
    const [{ servePage }, { networkAddresses }, { PortFault }, { hasScreen, openBrowser }] = await Promise.all([
      import("../local/serve-page"),
      import("../local/certificate"),
      import("../local/listen"),
      import("../local/open-browser"),
    ]);
    const addresses = options.host ? networkAddresses() : [];
    if (options.host && addresses.length === 0)
      throw new InputFault(
        "this computer has no address in a private network that a phone could reach; join one, or leave out --host",
      );
    const serving = await servePage({
      folder,
      port,
      ...(options.host
        ? {
            network: {
              addresses,
              onJoined: () => io.out("A phone has joined. Press Enter for a code for one more."),
            },
          }
        : {}),
    }).catch((error: unknown) => {
      throw error instanceof PortFault ? new InputFault(error.message) : error;
    });
    const { local, phones } = serving;
    if (local.taken.length > 0) {
      io.complain(`Port ${local.taken.join(", ")} is in use by another program; using ${local.port} instead.`);
    }
    const address = `http://127.0.0.1:${local.port}/`;
    io.out(`Chargewright is at ${address}  (Ctrl+C ends it)`);
    if (phones) await invitePhones(phones, io);
    if (!options["no-open"] && hasScreen(process.platform, process.env)) openBrowser(address);
    await new Promise<void>((resolve) => {
      for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => resolve());
    });
    process.stdin.destroy();
    serving.close();
    return 0;
  },
};

/** Prints how a phone gets in, and a new code at every Enter. */
async function invitePhones(phones: Phones, io: Io): Promise<void> {
  const { renderUnicodeCompact } = await import("uqr");
  io.out(`For a phone in the same network: ${phones.addresses.join("  or  ")}`);
  io.out(renderUnicodeCompact(phones.addresses[0]!, { border: 2 }));
  io.out("The phone will warn of a certificate it does not know: it was made here, just now. Its SHA-256 fingerprint:");
  io.out(phones.fingerprint);
  const invite = () => {
    const code = phones.newCode();
    io.out(
      `Code to join: ${code.slice(0, 3)} ${code.slice(3)}  (for one phone, within ten minutes; Enter gives a new one)`,
    );
  };
  invite();
  createInterface({ input: process.stdin }).on("line", invite);
}

function portFrom(text: string | undefined): number {
  if (text === undefined) return USUAL_PORT;
  const port = Number(text);
  if (/^\d{1,5}$/u.test(text) && port <= 65_535) return port;
  throw new UsageFault(`--port ${text} is not a port; give a number from 1024 to 65535.`);
}
