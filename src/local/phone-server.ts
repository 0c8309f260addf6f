import { createServer, type Server } from "node:https";
import type { IncomingMessage, ServerResponse } from "node:http";
import { bodyOf, giveFile, giveJson, isOwnPage, refuse, SAFE } from "./answering";
import type { Certificate } from "./certificate";
import { SESSION_LIVES_S, type Door } from "./door";
import { joinPage } from "./join-page";
import { joinWords, whyNot, type JoinWords } from "./join-words";
import type { Relay } from "./relay";

/** Sent back only to this very address, only over HTTPS, and never shown to a script. */
const COOKIE = "__Host-chargewright";

export interface PhoneServer {
  readonly folder: string;
  readonly certificate: Certificate;
  /** Addresses and names in the certificate; nothing else is answered. */
  readonly hosts: readonly string[];
  readonly door: Door;
  readonly relay: Relay;
  /** Called when a phone has come in. */
  readonly onJoined?: () => void;
}

/** Serves phones in the shop's own network: whoever has not joined with a code gets the join page alone. */
export function phoneServer(serving: PhoneServer): Server {
  return createServer({ key: serving.certificate.key, cert: serving.certificate.cert }, (request, response) => {
    void answer(serving, request, response).catch(() => refuse(response, 400, "This could not be understood."));
  });
}

async function answer(serving: PhoneServer, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { host = "" } = request.headers;
  if (!serving.hosts.includes(host.replace(/:\d+$/u, "").toLowerCase()))
    return refuse(response, 403, "This computer is not known by that name.");
  const path = new URL(request.url ?? "/", `https://${host}`).pathname;
  const own = isOwnPage(request, `https://${host}`);
  if (path === "/join" && request.method === "POST")
    return own ? join(serving, request, response) : refuse(response, 403, "Only the join page itself may ask this.");
  if (!serving.door.knows(sessionOf(request))) {
    if (path === "/join" || path === "/") return give(response, path === "/" ? 401 : 200, joinPage(wordsFor(request)));
    return refuse(response, 401, "Join with the code first.");
  }
  if (path.startsWith("/share/")) {
    if (!own) return refuse(response, 403, "Only the page itself may ask this.");
    if (path === "/share/events" && request.method === "GET") return serving.relay.joinPhone(response);
    if (path !== "/share/call" || request.method !== "POST")
      return refuse(response, 404, "There is no such file here.");
    const body = await bodyOf(request);
    if (body === undefined) return refuse(response, 413, "This is too long.");
    const { method, args } = JSON.parse(body) as { method?: unknown; args?: unknown };
    return giveJson(response, await serving.relay.call(method, args));
  }
  return giveFile(serving.folder, path === "/" || path === "/join" ? "/phone.html" : path, request, response);
}

async function join(serving: PhoneServer, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const typed = new URLSearchParams((await bodyOf(request)) ?? "").get("code") ?? "";
  const knock = serving.door.knock(typed);
  const words = wordsFor(request);
  if (!knock.opened) return give(response, knock.why === "wrong" ? 403 : 429, joinPage(words, whyNot(knock, words)));
  response.writeHead(303, {
    ...SAFE,
    Location: "/",
    "Set-Cookie": `${COOKIE}=${knock.session}; Path=/; Max-Age=${SESSION_LIVES_S}; HttpOnly; Secure; SameSite=Strict`,
  });
  response.end();
  serving.onJoined?.();
}

function wordsFor({ headers }: IncomingMessage): JoinWords {
  return joinWords(headers["accept-language"]);
}

function sessionOf({ headers }: IncomingMessage): string | undefined {
  const pair = (headers.cookie ?? "").split(/;\s*/u).find((one) => one.startsWith(`${COOKIE}=`));
  return pair?.slice(COOKIE.length + 1);
}

function give(response: ServerResponse, status: number, html: string): void {
  response.writeHead(status, {
    ...SAFE,
    "Content-Security-Policy":
      "default-src 'none'; style-src 'unsafe-inline'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    // Without a referrer a browser hides from us that the form came from our own page.
    "Referrer-Policy": "same-origin",
    "Content-Type": "text/html; charset=utf-8",
    "Cache-Control": "no-store",
  });
  response.end(html);
}
