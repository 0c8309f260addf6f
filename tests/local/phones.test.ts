import { X509Certificate } from "node:crypto";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { request as plainRequest } from "node:http";
import { request } from "node:https";
import { createConnection } from "node:net";
import { networkInterfaces, tmpdir } from "node:os";
import path from "node:path";
import { connect } from "node:tls";
import jsQR from "jsqr";
import { encode } from "uqr";
import { makeCertificate, networkAddresses, networkNames } from "../../src/local/certificate";
import { servePage, type Phones, type Serving } from "../../src/local/serve-page";

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}
interface Asking {
  readonly method?: string;
  readonly headers?: Record<string, string>;
  readonly body?: string;
}

function ask(address: string, url: string, { body, ...options }: Asking = {}): Promise<Answer> {
  const { hostname: host, port, protocol } = new URL(address);
  const send = protocol === "https:" ? request : plainRequest;
  return new Promise((resolve, reject) => {
    send({ host, port, path: url, agent: false, rejectUnauthorized: false, ...options }, (response) => {
      let text = "";
      response.setEncoding("utf8").on("data", (piece: string) => (text += piece));
      response.on("end", () => resolve({ status: response.statusCode!, headers: response.headers, body: text }));
    })
      .on("error", reject)
      .end(body);
  });
}

const other = (code: string) => String((Number(code) + 1) % 1_000_000).padStart(6, "0");
const outside = Object.values(networkInterfaces())
  .flatMap((all) => all ?? [])
  .filter(({ family, internal }) => family === "IPv4" && !internal)
  .map(({ address }) => address);

/** Whether anything answers at an address of this computer. */
function answers(host: string, port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = createConnection({ host, port, timeout: 3000 }, () => {
      socket.destroy();
      resolve(true);
    });
    socket.on("error", () => resolve(false)).on("timeout", () => resolve(false));
  });
}

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), "phones-"));
  await writeFile(path.join(folder, "index.html"), "<title>page</title>");
  await writeFile(path.join(folder, "phone.html"), "<title>phone</title>");
});
afterAll(() => rm(folder, { recursive: true }));

describe("without being asked to", () => {
  it("serves this computer alone", async () => {
    const serving = await servePage({ folder, port: 0 });
    expect(serving.phones).toBeUndefined();
    expect(await answers("127.0.0.1", serving.local.port)).toBe(true);
    for (const address of outside)
      expect([address, await answers(address, serving.local.port)]).toEqual([address, false]);
    // Another loopback address shows that not every address is listened at, also where there is no network.
    expect(await answers("127.0.0.2", serving.local.port)).toBe(false);
    expect((await ask(`http://127.0.0.1:${serving.local.port}/`, "/share/desk")).status).toBe(204);
    serving.close();
  });
});

describe("phones of the network", () => {
  let serving: Serving;
  let phones: Phones;
  let address: string;
  let joined = 0;
  beforeAll(async () => {
    serving = await servePage({ folder, port: 0, network: { addresses: ["127.0.0.1"], onJoined: () => joined++ } });
    phones = serving.phones!;
    address = phones.addresses[0]!;
  });
  afterAll(() => serving?.close());

  const form = { "Content-Type": "application/x-www-form-urlencoded" };
  const join = (code: string, headers: Record<string, string> = {}) =>
    ask(address, "/join", { method: "POST", headers: { ...form, ...headers }, body: `code=${code}` });

  it("get nothing without having joined but the page to join by", async () => {
    const first = await ask(address, "/");
    expect([first.status, first.body]).toEqual([401, expect.stringContaining('action="/join"')]);
    expect(String(first.headers["content-security-policy"])).not.toContain("script-src");
    for (const url of ["/phone.html", "/index.html", "/page.js", "/share/events"])
      expect([url, (await ask(address, url)).status]).toEqual([url, 401]);
    const call = { method: "POST", body: JSON.stringify({ method: "sheetNames", args: [] }) };
    expect((await ask(address, "/share/call", call)).status).toBe(401);
    expect((await ask(address, "/", { headers: { Cookie: "__Host-chargewright=guess" } })).status).toBe(401);
  });

  it("are locked out after five wrong codes", async () => {
    const code = phones.newCode();
    const statuses = [];
    for (let i = 0; i < 5; i++) statuses.push((await join(other(code))).status);
    expect(statuses).toEqual([403, 403, 403, 403, 429]);
    const right = await join(code);
    expect([right.status, right.headers["set-cookie"]]).toEqual([429, undefined]);
    expect(right.body).toContain("Press Enter at the computer for a new one");
  });

  it("come in with the right code once, by a cookie that no script and no other site sees", async () => {
    const code = phones.newCode();
    const { status, headers } = await join(code);
    expect([status, headers["location"], joined]).toEqual([303, "/", 1]);
    const [cookie] = headers["set-cookie"] as string[];
    expect(cookie).toMatch(
      /^__Host-chargewright=[\w-]{43}; Path=\/; Max-Age=43200; HttpOnly; Secure; SameSite=Strict$/u,
    );
    expect((await join(code)).status).toBe(429);

    const Cookie = cookie!.split(";")[0]!;
    expect((await ask(address, "/", { headers: { Cookie } })).body).toBe("<title>phone</title>");
    const call = (headers: Record<string, string>, method = "sheetNames") =>
      ask(address, "/share/call", {
        method: "POST",
        headers: { Cookie, ...headers },
        body: JSON.stringify({ method, args: [] }),
      });
    // Nobody holds a workbook here: that is what the phone is told.
    expect(JSON.parse((await call({})).body)).toMatchObject({
      fault: { message: expect.stringContaining("not open") },
    });
    expect(JSON.parse((await call({}, "constructor")).body)).toMatchObject({ fault: { reason: "unsupported" } });
    expect((await call({ Origin: "https://elsewhere.example" })).status).toBe(403);
    expect((await call({ "Sec-Fetch-Site": "cross-site" })).status).toBe(403);
  });

  it("reach it by the names in its certificate only, and not the part for the computer itself", async () => {
    expect((await ask(address, "/", { headers: { Host: "elsewhere.example" } })).status).toBe(403);
    const local = `http://127.0.0.1:${serving.local.port}/`;
    expect((await ask(local, "/share/desk", { method: "HEAD" })).status).toBe(200);
    expect((await ask(local, "/share/desk", { headers: { "Sec-Fetch-Site": "cross-site" } })).status).toBe(403);
    const answer = { method: "POST", headers: { Origin: "http://elsewhere.example" }, body: "{}" };
    expect((await ask(local, "/share/answer", answer)).status).toBe(403);
  });

  it("are shown the certificate whose fingerprint is printed", async () => {
    const shown = await new Promise<string>((resolve, reject) => {
      const { port } = new URL(address);
      const socket = connect({ host: "127.0.0.1", port: Number(port), rejectUnauthorized: false }, () => {
        resolve(socket.getPeerX509Certificate()!.fingerprint256);
        socket.destroy();
      }).on("error", reject);
    });
    expect(shown).toBe(phones.fingerprint);
  });
});

describe("the certificate", () => {
  it("names the addresses and names of the host and nothing else, for a day or two, for a server alone", async () => {
    const made = await makeCertificate(
      ["192.168.1.5", "10.0.0.7", "bench", "bench.local"],
      new Date("2026-11-25T08:00:00Z"),
    );
    const certificate = new X509Certificate(made.cert);
    for (const address of ["192.168.1.5", "10.0.0.7"]) expect(certificate.checkIP(address)).toBe(address);
    for (const name of ["bench", "bench.local"]) expect(certificate.checkHost(name)).toBe(name);
    expect([certificate.checkIP("192.168.1.6"), certificate.checkHost("other.local"), certificate.ca]).toEqual([
      undefined,
      undefined,
      false,
    ]);
    expect(certificate.keyUsage).toEqual(["1.3.6.1.5.5.7.3.1"]);
    expect([certificate.validFrom, certificate.validTo].map((date) => new Date(date).toISOString())).toEqual([
      "2026-11-24T08:00:00.000Z",
      "2026-11-26T08:00:00.000Z",
    ]);
    expect(certificate.verify(certificate.publicKey)).toBe(true);
    expect((await makeCertificate(["bench"])).key).not.toBe(made.key);
  });

  it("is for addresses of private networks [RFC 1918, section 3]", () => {
    const found = (address: string, internal = false) =>
      networkAddresses({
        lan: [{ address, internal, family: "IPv4", netmask: "", mac: "", cidr: null }],
      });
    for (const address of ["10.1.2.3", "172.16.0.1", "172.31.255.1", "192.168.0.9"])
      expect(found(address)).toEqual([address]);
    for (const address of ["172.15.0.1", "172.32.0.1", "192.169.0.1", "203.0.113.7", "11.0.0.1"])
      expect(found(address)).toEqual([]);
    expect(found("127.0.0.1", true)).toEqual([]);
    expect(networkNames("Bench-PC.local")).toEqual(["bench-pc", "bench-pc.local"]);
    expect(networkNames("tom's pc")).toEqual([]);
  });
});

it("the QR code reads as the address [read by another library]", () => {
  const address = "https://192.168.1.5:4748/";
  const { data, size } = encode(address, { border: 2 });
  const scale = 4;
  const edge = size * scale;
  const pixels = new Uint8ClampedArray(edge * edge * 4).fill(255);
  for (let y = 0; y < edge; y++)
    for (let x = 0; x < edge; x++)
      if (data[Math.floor(y / scale)]![Math.floor(x / scale)])
        pixels.fill(0, (y * edge + x) * 4, (y * edge + x) * 4 + 3);
  expect(jsQR(pixels, edge, edge)?.data).toBe(address);
});
