import { subscribe } from "node:diagnostics_channel";
import type { IncomingMessage } from "node:http";

/*
 * What a request says about the connection it came by before a proxy: the X-Forwarded- headers. Anybody can send
 * them, so they are believed only when STEADYREST_TRUST_PROXY says that a proxy stands before this server and
 * sets them itself. Otherwise they are taken off as a request comes in, before anything reads it; Next then
 * fills them in from the connection, and Host is all that an Origin is compared with.
 */

const SAID_BY_PROXIES = /^(forwarded$|x-forwarded-|x-real-ip$)/;

/** Holds for every server of this process, from the next request on. */
export function holdForwarded({ isTrusted }: { isTrusted: boolean }): void {
  if (isTrusted) return;
  subscribe("http.server.request.start", (message) => {
    const { headers } = (message as { request: IncomingMessage }).request;
    for (const name of Object.keys(headers)) if (SAID_BY_PROXIES.test(name)) delete headers[name];
  });
}

/** The address of whoever sent the request, "" where it is not known: the last one, which the nearest proxy has seen. */
export function peerOf(headers: Pick<Headers, "get">): string {
  return headers.get("x-forwarded-for")?.split(",").at(-1)?.trim() ?? "";
}
