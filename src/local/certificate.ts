import { X509Certificate } from "node:crypto";
import { hostname, networkInterfaces } from "node:os";
import { isIPv4 } from "node:net";
import { generate } from "selfsigned";

/** The key and certificate of one run; they are never written down. */
export interface Certificate {
  readonly key: string;
  readonly cert: string;
  /** SHA-256, as browsers show it, to be compared by whoever wants to be sure. */
  readonly fingerprint: string;
}

const DAY_MS = 24 * 60 * 60 * 1000;

/** Addresses by which other devices of a private network reach this computer. */
export function networkAddresses(interfaces: ReturnType<typeof networkInterfaces> = networkInterfaces()): string[] {
  return Object.values(interfaces)
    .flatMap((all) => all ?? [])
    .filter(({ family, internal, address }) => family === "IPv4" && !internal && isPrivate(address))
    .map(({ address }) => address);
}

/** Ranges that are never routed on the internet: RFC 1918, and RFC 3927 for networks without a router. */
function isPrivate(address: string): boolean {
  return /^(?:10\.|192\.168\.|172\.(?:1[6-9]|2\d|3[01])\.|169\.254\.)/u.test(address);
}

/** Names of this computer besides its addresses. */
export function networkNames(host = hostname()): string[] {
  const plain = host.toLowerCase().replace(/\.local$/u, "");
  return /^[a-z\d](?:[a-z\d.-]*[a-z\d])?$/u.test(plain) ? [plain, `${plain}.local`] : [];
}

/** Makes a certificate that names exactly these addresses and names, good for one working day. */
export async function makeCertificate(hosts: readonly string[], now = new Date()): Promise<Certificate> {
  const made = await generate([{ name: "commonName", value: "Chargewright" }], {
    keyType: "ec",
    curve: "P-256",
    algorithm: "sha256",
    // The clock of a phone may be a little behind.
    notBeforeDate: new Date(now.getTime() - DAY_MS),
    notAfterDate: new Date(now.getTime() + DAY_MS),
    extensions: [
      { name: "basicConstraints", cA: false, critical: true },
      { name: "keyUsage", digitalSignature: true, critical: true },
      { name: "extKeyUsage", serverAuth: true },
      {
        name: "subjectAltName",
        altNames: hosts.map((host) =>
          isIPv4(host) ? { type: 7 as const, ip: host } : { type: 2 as const, value: host },
        ),
      },
    ],
  });
  return { key: made.private, cert: made.cert, fingerprint: new X509Certificate(made.cert).fingerprint256 };
}
