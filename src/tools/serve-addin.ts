import { existsSync } from "node:fs";
import { createServer } from "node:https";
import path from "node:path";
import { getHttpsServerOptions } from "office-addin-dev-certs";
import { addinListener } from "./addin-server";
import { DEFAULT_BASE } from "./manifest";

/**
 * Serves the built add-in to Excel on this machine: `npm run serve:addin`. The first time, the
 * system asks whether to trust a certificate for localhost that is made here.
 */
async function serve(): Promise<void> {
  const folder = path.resolve(__dirname, "../../dist/addin");
  if (!existsSync(path.join(folder, "manifest.xml"))) {
    throw new Error("The add-in is not built; run: npm run build:addin");
  }
  const server = createServer(await getHttpsServerOptions(), addinListener(folder));
  server.on("error", (error: NodeJS.ErrnoException) => {
    const { port } = new URL(DEFAULT_BASE);
    stop(
      error.code === "EADDRINUSE" ? new Error(`Port ${port} is in use; end what listens there and try again.`) : error,
    );
  });
  server.listen(Number(new URL(DEFAULT_BASE).port), "localhost", () => {
    process.stdout.write(
      `The add-in is served at ${DEFAULT_BASE} (Ctrl+C ends it). Its manifest: ${path.join(folder, "manifest.xml")}\n`,
    );
  });
}

function stop(error: Error): void {
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}

serve().catch(stop);
