import { once } from "node:events";
import { createServer, type IncomingHttpHeaders, request } from "node:http";
import type { AddressInfo } from "node:net";
import { expect, onTestFinished, test } from "vitest";
import { holdForwarded, peerOf } from "../../app/forwarded";

/* The names of the headers: RFC 7239 for Forwarded, common practice for X-Forwarded-. */

async function received(headers: Record<string, string>): Promise<IncomingHttpHeaders> {
  let seen: IncomingHttpHeaders = {};
  const server = createServer((asked, answer) => {
    seen = asked.headers;
    answer.end();
  }).listen(0, "127.0.0.1");
  onTestFinished(() => void server.close());
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;
  const asked = request({ port, host: "127.0.0.1", headers }).end();
  const [answer] = await once(asked, "response");
  answer.resume();
  await once(answer, "end");
  return seen;
}

const SENT = {
  forwarded: "for=10.0.0.9;proto=https",
  "x-forwarded-for": "10.0.0.9",
  "x-forwarded-host": "elsewhere.example",
  "x-forwarded-proto": "https",
  "x-real-ip": "10.0.0.9",
  "x-other": "kept",
};

test("what claims to be forwarded arrives where a proxy is trusted, and not where none is", async () => {
  holdForwarded({ isTrusted: true });
  expect(await received(SENT)).toMatchObject(SENT);
  holdForwarded({ isTrusted: false });
  const { host, connection, ...left } = await received(SENT);
  expect(left).toEqual({ "x-other": "kept" });
});

test("of several addresses the nearest proxy's own counts, for the others were sent to it", () => {
  expect(peerOf(new Headers({ "x-forwarded-for": "10.0.0.9, 192.0.2.7" }))).toBe("192.0.2.7");
  expect(peerOf(new Headers())).toBe("");
});
