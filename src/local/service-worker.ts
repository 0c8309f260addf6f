/** The files of one build and a digest of them all, put in front of this script by the build. */
declare const BUILD: { readonly digest: string; readonly files: readonly string[] };

/** What is used here of a service worker's surroundings; the types of pages know nothing of it. */
interface Surroundings {
  addEventListener(kind: "install" | "activate", listener: (event: Lasting) => void): void;
  addEventListener(kind: "message", listener: (event: { readonly data: unknown }) => void): void;
  addEventListener(kind: "fetch", listener: (event: Asked) => void): void;
  skipWaiting(): Promise<void>;
  readonly clients: { claim(): Promise<void> };
  readonly registration: { readonly scope: string };
}
interface Lasting {
  waitUntil(work: Promise<unknown>): void;
}
interface Asked {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}

const worker = globalThis as unknown as Surroundings;

/**
 * Keeps one whole build of the page: it is fetched completely or not at all, and every file is given
 * from the same build. What the build does not hold (the shop's own network) is not its business.
 */
const CACHE = `chargewright-${BUILD.digest}`;

worker.addEventListener("install", (event) => {
  // Asked of the server itself: the browser's own store may hold a file of the build before.
  const requests = BUILD.files.map((file) => new Request(file, { cache: "no-cache" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(requests)));
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys())
        if (name.startsWith("chargewright-") && name !== CACHE) await caches.delete(name);
      await worker.clients.claim();
    })(),
  );
});

worker.addEventListener("message", ({ data }) => {
  if (data === "use") void worker.skipWaiting();
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const file = fileOf(request);
  if (file === undefined) return;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(file))
      .then((kept) => kept ?? fetch(request)),
  );
});

/** The file of the build that a request asks for. */
function fileOf(request: Request): string | undefined {
  const { origin, pathname } = new URL(request.url);
  const scope = new URL(worker.registration.scope);
  if (request.method !== "GET" || origin !== scope.origin || !pathname.startsWith(scope.pathname)) return undefined;
  const path = pathname.slice(scope.pathname.length);
  const file = path === "" ? "index.html" : path;
  return BUILD.files.includes(file) ? file : undefined;
}
