import { readFile } from "node:fs/promises";
import type { RequestListener } from "node:http";
import path from "node:path";

const TYPES: Readonly<Record<string, string>> = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".png": "image/png",
  ".svg": "image/svg+xml",
  ".xml": "application/xml; charset=utf-8",
};

/** Pages that may show the add-in in a frame: Excel on the web. */
const FRAMED_BY =
  "frame-ancestors 'self' https://*.office.com https://*.officeapps.live.com https://*.live.com https://*.sharepoint.com https://*.cloud.microsoft";

/** Answers with the built files of the add-in and nothing else; what any web server for it must do. */
export function addinListener(folder: string): RequestListener {
  return (request, response) => {
    const refuse = (status: number) => response.writeHead(status, { "Content-Type": "text/plain" }).end();
    if (request.method !== "GET" && request.method !== "HEAD") return void refuse(405);
    const asked = path.posix.normalize(decodedPath(request.url ?? "/"));
    const type = TYPES[path.extname(asked)];
    if (type === undefined || asked.includes("..") || asked.includes("\0")) return void refuse(404);
    readFile(path.join(folder, asked)).then(
      (content) => {
        response.writeHead(200, {
          "Content-Type": type,
          "Content-Security-Policy": FRAMED_BY,
          "X-Content-Type-Options": "nosniff",
          "Cache-Control": "no-cache",
        });
        response.end(request.method === "HEAD" ? undefined : content);
      },
      () => refuse(404),
    );
  };
}

function decodedPath(url: string): string {
  try {
    return decodeURIComponent(url.split(/[?#]/u)[0]!);
  } catch {
    return "/";
  }
}
