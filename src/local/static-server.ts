import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { bodyOf, giveFile, isOwnPage, refuse, SAFE } from "./answering";
import type { Relay } from "./relay";
import type { AnswerMessage } from "./share-protocol";

/**
 * Answers this computer with the files of one folder, and with nothing else. With a relay the page that
 * holds the workbook also lets phones work on it.
 */
export function staticServer(folder: string, relay?: Relay): Server {
  return createServer((request, response) => {
    void answer(folder, relay, request, response).catch(() => refuse(response, 500, "The file could not be read."));
  });
}

async function answer(folder: string, relay: Relay | undefined, request: IncomingMessage, response: ServerResponse) {
  const { host } = request.headers;
  if (!isLoopback(host)) return refuse(response, 403, "This page is served to this computer only.");
  const { url = "/" } = request;
  if (!url.startsWith("/share/")) return giveFile(folder, url, request, response);
  if (!isOwnPage(request, `http://${host}`)) return refuse(response, 403, "Only the page itself may ask this.");
  if (!relay) return void response.writeHead(204, SAFE).end();
  if (url === "/share/desk" && request.method === "HEAD") return void response.writeHead(200, SAFE).end();
  if (url === "/share/desk" && request.method === "GET") return relay.joinDesk(response);
  const body = request.method === "POST" ? await bodyOf(request) : undefined;
  if (body === undefined) return refuse(response, 400, "This cannot be asked here.");
  if (url === "/share/answer") relay.answer(JSON.parse(body) as AnswerMessage);
  else if (url === "/share/event") relay.tell(JSON.parse(body));
  else return refuse(response, 404, "There is no such file here.");
  response.writeHead(204, SAFE).end();
}

/** A page elsewhere may point a name of its own at this computer; only our own names are answered. */
function isLoopback(host: string | undefined): boolean {
  return /^(?:localhost|127\.0\.0\.1|\[::1\])(?::\d+)?$/iu.test(host ?? "");
}
