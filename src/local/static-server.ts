import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname, join, normalize, sep } from "node:path";

/** What the page may load: its own files and what it draws itself; nothing from anywhere else. */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  // The grid places its own boxes with style attributes and writes two style sheets of its own.
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "font-src 'self' data:",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

const TYPES: Readonly<Record<string, string>> = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".ico": "image/x-icon",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".txt": "text/plain; charset=utf-8",
  ".webmanifest": "application/manifest+json",
  ".woff2": "font/woff2",
};

/** Answers with the files of one folder and with nothing else. */
export function staticServer(folder: string): Server {
  return createServer((request, response) => {
    void answer(folder, request, response).catch(() => refuse(response, 500, "The file could not be read."));
  });
}

async function answer(folder: string, request: IncomingMessage, response: ServerResponse): Promise<void> {
  if (!isLoopback(request.headers.host)) return refuse(response, 403, "This page is served to this computer only.");
  if (request.method !== "GET" && request.method !== "HEAD")
    return refuse(response, 405, "Only reading is possible here.");
  const file = fileOf(folder, request.url ?? "/");
  const found = file === undefined ? undefined : await stat(file).catch(() => undefined);
  if (file === undefined || !found?.isFile()) return refuse(response, 404, "There is no such file here.");
  const tag = `"${found.size.toString(36)}-${Math.floor(found.mtimeMs).toString(36)}"`;
  const unchanged = request.headers["if-none-match"] === tag;
  response.writeHead(unchanged ? 304 : 200, {
    ...SAFE,
    "Content-Type": TYPES[extname(file)] ?? "application/octet-stream",
    "Cache-Control": "no-cache",
    ETag: tag,
    ...(unchanged ? {} : { "Content-Length": found.size }),
  });
  if (unchanged || request.method === "HEAD") return void response.end();
  createReadStream(file)
    .on("error", () => response.destroy())
    .pipe(response);
}

const SAFE = {
  "Content-Security-Policy": CONTENT_SECURITY_POLICY,
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Referrer-Policy": "no-referrer",
  "X-Content-Type-Options": "nosniff",
} as const;

function refuse(response: ServerResponse, status: number, sentence: string): void {
  if (response.headersSent) return void response.destroy();
  response.writeHead(status, { ...SAFE, "Content-Type": TYPES[".txt"]! });
  response.end(`${sentence}\n`);
}

/** A page elsewhere may point a name of its own at this computer; only our own names are answered. */
function isLoopback(host: string | undefined): boolean {
  return /^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d+)?$/iu.test(host ?? "");
}

/** The file that an address means, or nothing where it leads out of the folder. */
export function fileOf(folder: string, url: string): string | undefined {
  let path: string;
  try {
    path = decodeURIComponent(new URL(url, "http://localhost").pathname);
  } catch {
    return undefined;
  }
  if (path.includes("\0")) return undefined;
  const file = normalize(join(folder, path.endsWith("/") ? `${path}index.html` : path));
  return file.startsWith(normalize(folder) + sep) ? file : undefined;
}
