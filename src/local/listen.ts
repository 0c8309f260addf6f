import type { Server } from "node:http";
import type { AddressInfo } from "node:net";

/** How many ports are tried after the one that was asked for. */
const TRIES = 20;

export interface Listening {
  readonly port: number;
  /** Ports that were asked for first and belong to other programs. */
  readonly taken: readonly number[];
}

/** The port cannot be used; the message says which one and why. */
export class PortFault extends Error {}

/** Listens for this computer only, on the port that is asked for or the next free one. */
export function listenLocally(server: Server, port: number): Promise<Listening> {
  return listenOn(server, port, "127.0.0.1");
}

/**
 * Listens at one address of this computer, on the port that is asked for or the next free one.
 *
 * @param port - First port to try; 0 lets the system choose
 */
export async function listenOn(server: Server, port: number, host: string): Promise<Listening> {
  const taken: number[] = [];
  for (let next = port; taken.length < TRIES && next <= 65_535; next++) {
    try {
      await listen(server, next, host);
      return { port: (server.address() as AddressInfo).port, taken };
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === "EACCES")
        throw new PortFault(
          `Port ${next} needs the rights of an administrator; choose one above 1023, for example --port 4747.`,
        );
      if (code !== "EADDRINUSE") throw error;
      taken.push(next);
    }
  }
  const tried = taken.length > 1 ? `Ports ${port} to ${taken.at(-1)} are all` : `Port ${port} is`;
  throw new PortFault(`${tried} in use; choose another one with --port.`);
}

function listen(server: Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const failed = (error: Error) => reject(error);
    server.once("error", failed);
    server.listen({ port, host, exclusive: true }, () => {
      server.off("error", failed);
      resolve();
    });
  });
}
