import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import type { IncomingMessage, ServerResponse } from "node:http";
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

export const SAFE = {
  "Content-Security-Policy": CONTENT_SECURITY_POLICY,
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Referrer-Policy": "no-referrer",
  "X-Content-Type-Options": "nosniff",
} as const;

/** Answers with a file of the folder, or says that there is none. */
export async function giveFile(folder: string, url: string, request: IncomingMessage, response: ServerResponse) {
  if (request.method !== "GET" && request.method !== "HEAD")
    return refuse(response, 405, "Only reading is possible here.");
  const file = fileOf(folder, url);
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

export function refuse(response: ServerResponse, status: number, sentence: string): void {
  if (response.headersSent) return void response.destroy();
  response.writeHead(status, { ...SAFE, "Content-Type": TYPES[".txt"]! });
  response.end(`${sentence}\n`);
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

/** More than a batch of a whole job sheet is a mistake or an attack. */
const LARGEST_BODY = 2_000_000;

/** The body of a request as text; `undefined` where it is too long. */
export async function bodyOf(request: IncomingMessage): Promise<string | undefined> {
  const pieces: Buffer[] = [];
  let size = 0;
  for await (const piece of request as AsyncIterable<Buffer>) {
    size += piece.length;
    if (size > LARGEST_BODY) return undefined;
    pieces.push(piece);
  }
  return Buffer.concat(pieces).toString("utf8");
}

/** True of what a page of this very address asks; other sites and their forms name themselves. */
export function isOwnPage({ headers }: IncomingMessage, origin: string): boolean {
  const site = headers["sec-fetch-site"];
  if (site === "same-origin") return true;
  if (site !== undefined && site !== "none") return false;
  return headers.origin === undefined || headers.origin === origin;
}

export function giveJson(response: ServerResponse, value: unknown): void {
  response.writeHead(200, { ...SAFE, "Content-Type": TYPES[".json"]!, "Cache-Control": "no-store" });
  response.end(JSON.stringify(value));
}
