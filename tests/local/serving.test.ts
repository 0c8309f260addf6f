import { mkdtemp, mkdir, rm, writeFile } from "node:fs/promises";
import { createServer, request, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import path from "node:path";
import { listenLocally, PortFault } from "../../src/local/listen";
import { hasScreen } from "../../src/local/open-browser";
import { fileOf } from "../../src/local/answering";
import { staticServer } from "../../src/local/static-server";

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}

/** Asks as it is told to, also for addresses that a browser would tidy up first. */
function ask(
  port: number,
  url: string,
  options: { method?: string; headers?: Record<string, string> } = {},
): Promise<Answer> {
  return new Promise((resolve, reject) => {
    request({ host: "127.0.0.1", port, path: url, agent: false, ...options }, (response) => {
      let body = "";
      response.setEncoding("utf8").on("data", (piece: string) => (body += piece));
      response.on("end", () => resolve({ status: response.statusCode!, headers: response.headers, body }));
    })
      .on("error", reject)
      .end();
  });
}

describe("the page's server", () => {
  let folder: string;
  let server: Server;
  let port: number;
  beforeAll(async () => {
    folder = path.join(await mkdtemp(path.join(tmpdir(), "serving-")), "site");
    await mkdir(folder);
    await writeFile(path.join(folder, "index.html"), "<title>page</title>");
    await writeFile(path.join(folder, "page.js"), "1;");
    await writeFile(path.join(folder, "..", "secret.txt"), "secret");
    server = staticServer(folder);
    port = (await listenLocally(server, 0)).port;
  });
  afterAll(async () => {
    server.close();
    server.closeAllConnections();
    await rm(path.dirname(folder), { recursive: true });
  });

  it("gives the page under a policy that lets nothing load from elsewhere", async () => {
    const { status, headers, body } = await ask(port, "/");
    expect([status, body]).toEqual([200, "<title>page</title>"]);
    expect(headers["content-type"]).toBe("text/html; charset=utf-8");
    const policy = String(headers["content-security-policy"]);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).not.toMatch(/https?:|\*|unsafe-eval/u);
    expect(headers["x-content-type-options"]).toBe("nosniff");
  });

  it("gives scripts as scripts, and nothing twice", async () => {
    const { status, headers } = await ask(port, "/page.js?v=1");
    expect([status, headers["content-type"]]).toEqual([200, "text/javascript; charset=utf-8"]);
    const again = await ask(port, "/page.js", { headers: { "If-None-Match": String(headers["etag"]) } });
    expect([again.status, again.body]).toEqual([304, ""]);
  });

  it.each([
    "/../secret.txt",
    "/..%2fsecret.txt",
    "/%2e%2e/secret.txt",
    "/..\\secret.txt",
    "/page.js/../../secret.txt",
    "/%00",
    "/%zz",
    "/missing.js",
  ])("gives nothing for %s", async (url) => {
    const { status, body } = await ask(port, url);
    expect(status).toBe(404);
    expect(body).not.toContain("secret");
  });

  it("only reads", async () => {
    expect((await ask(port, "/", { method: "POST" })).status).toBe(405);
    expect(await ask(port, "/", { method: "HEAD" })).toMatchObject({ status: 200, body: "" });
  });

  it("answers to names of this computer only, whatever a foreign page calls it", async () => {
    expect((await ask(port, "/", { headers: { Host: "shop.example:4747" } })).status).toBe(403);
    expect((await ask(port, "/", { headers: { Host: `localhost:${port}` } })).status).toBe(200);
  });

  it("keeps every address inside its folder", () => {
    expect(fileOf("/site", "/")).toBe(path.normalize("/site/index.html"));
    expect(fileOf("/site", "/a/b.js")).toBe(path.normalize("/site/a/b.js"));
    expect(fileOf("/site", "/..%2f..%2fetc/passwd")).toBeUndefined();
  });
});

describe("ports", () => {
  it("takes the next free port and names those that are taken", async () => {
    const first = createServer();
    const taken = (await listenLocally(first, 0)).port;
    const second = createServer();
    const listening = await listenLocally(second, taken);
    expect(listening.taken[0]).toBe(taken);
    expect(listening.port).toBeGreaterThan(taken);
    expect((second.address() as AddressInfo).address).toBe("127.0.0.1");
    first.close();
    second.close();
  });

  it("says so when there is none left", async () => {
    const last = createServer();
    await new Promise<void>((resolve) => last.listen(65_535, "127.0.0.1", resolve));
    await expect(listenLocally(createServer(), 65_535)).rejects.toThrow(PortFault);
    await expect(listenLocally(createServer(), 65_535)).rejects.toThrow("Port 65535 is in use");
    last.close();
  });
});

it.each([
  ["a desktop", "linux", { DISPLAY: ":0" }, true],
  ["a Wayland desktop", "linux", { WAYLAND_DISPLAY: "wayland-0" }, true],
  ["a bare Linux", "linux", {}, false],
  ["a Mac", "darwin", {}, true],
  ["Windows", "win32", {}, true],
  ["a build machine", "win32", { CI: "true" }, false],
  ["a remote shell", "darwin", { SSH_CONNECTION: "10.0.0.2 5 10.0.0.3 22" }, false],
] as const)("on %s a browser is opened only where someone can see it", (_, platform, env, expected) => {
  expect(hasScreen(platform, env)).toBe(expected);
});
