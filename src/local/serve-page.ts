import type { Server } from "node:http";
import { makeCertificate, networkNames } from "./certificate";
import { Door } from "./door";
import { listenOn, type Listening } from "./listen";
import { phoneServer } from "./phone-server";
import { Relay } from "./relay";
import { staticServer } from "./static-server";

export interface ServeOptions {
  /** The built page. */
  readonly folder: string;
  readonly port: number;
  /** Phones of the network are served too, at these addresses of this computer. */
  readonly network?: { readonly addresses: readonly string[]; readonly onJoined?: () => void };
}

export interface Serving {
  readonly local: Listening;
  readonly phones?: Phones;
  close(): void;
}

export interface Phones {
  /** One for each address of this computer: `https://192.168.1.5:4748/`. */
  readonly addresses: readonly string[];
  readonly fingerprint: string;
  newCode(): string;
}

/** Serves the page to this computer; to phones of its network only where that is asked for. */
export async function servePage({ folder, port, network }: ServeOptions): Promise<Serving> {
  const relay = network ? new Relay() : undefined;
  const servers: Server[] = [];
  const close = () => {
    relay?.close();
    for (const server of servers) {
      server.close();
      server.closeAllConnections();
    }
  };
  const open = async (server: Server, first: number, address: string) => {
    servers.push(server);
    return listenOn(server, first, address);
  };
  try {
    const local = await open(staticServer(folder, relay), port, "127.0.0.1");
    if (!network || !relay) return { local, close };
    const names = networkNames();
    const certificate = await makeCertificate([...network.addresses, ...names]);
    const door = new Door();
    const addresses: string[] = [];
    for (const address of network.addresses) {
      const server = phoneServer({
        folder,
        certificate,
        hosts: [address, ...names],
        door,
        relay,
        ...(network.onJoined ? { onJoined: network.onJoined } : {}),
      });
      const { port: found } = await open(server, port === 0 ? 0 : local.port + 1, address);
      addresses.push(`https://${address}:${found}/`);
    }
    const phones = { addresses, fingerprint: certificate.fingerprint, newCode: () => door.newCode() };
    return { local, phones, close };
  } catch (error) {
    close();
    throw error;
  }
}
