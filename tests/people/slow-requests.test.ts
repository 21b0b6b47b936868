import { once } from "node:events";
import { createServer } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { expect, onTestFinished, test } from "vitest";
import { limitSlowRequests } from "../../app/slow-requests";

/* 408 for a request that does not come: RFC 9110, 15.5.9; 431 for a head that is too long: RFC 6585, 5. */

let ended = 0;
limitSlowRequests({ seconds: 0.2, onEnded: () => void ended++ });

async function serving() {
  const bodies: Promise<string>[] = [];
  // Node looks every 30 s by itself, which is a server's business and not this test's.
  const server = createServer({ connectionsCheckingInterval: 20 }, (asked, answer) => {
    const body = asked.toArray().then((chunks) => Buffer.concat(chunks).toString());
    bodies.push(body);
    body.then(
      (text) => answer.end(`got ${text}`),
      () => undefined,
    );
  }).listen(0, "127.0.0.1");
  onTestFinished(() => void server.close());
  await once(server, "listening");
  const { port } = server.address() as AddressInfo;
  /** What a server says to these bytes, sent one after the other `everyMs`. */
  async function said(pieces: readonly string[], everyMs: number): Promise<string> {
    const socket = connect(port, "127.0.0.1");
    let heard = "";
    socket.on("data", (chunk) => {
      heard += chunk;
    });
    const closed = once(socket, "close");
    socket.on("error", () => undefined);
    for (const piece of pieces) {
      if (socket.destroyed) break;
      socket.write(piece);
      await new Promise((settle) => setTimeout(settle, everyMs));
    }
    await closed;
    return heard;
  }
  return { said, bodies };
}

const post = (length: number) =>
  `POST / HTTP/1.1\r\nHost: here\r\nConnection: close\r\nContent-Length: ${length}\r\n\r\n`;

test("a request that is quick enough is answered", async () => {
  const { said } = await serving();
  const heard = await said([post(4), "ab", "cd"], 5);
  expect(heard).toMatch(/^HTTP\/1\.1 200 OK/);
  expect(heard).toContain("got abcd");
});

test("one that trickles is ended in words, and whoever read it sees it break off", async () => {
  const { said, bodies } = await serving();
  await said([post(2), "ab"], 1);
  const before = ended;
  const heard = await said([post(1000), ..."abcdefghijklmnopqrstuvwxyz"], 50);
  expect(heard).toMatch(/^HTTP\/1\.1 408 /);
  expect(heard).toContain("within 0.2 s");
  expect(heard).toContain("STEADYREST_REQUEST_SECONDS");
  expect(ended).toBe(before + 1);
  await expect(bodies[1]).rejects.toThrow();
});

test("what is no request, or has too long a head, is refused as by Node itself", async () => {
  const { said } = await serving();
  await said([post(2), "ab"], 1);
  expect(await said(["what is this\r\n\r\n"], 1)).toMatch(/^HTTP\/1\.1 400 /);
  const long = `GET / HTTP/1.1\r\nHost: here\r\nX-Long: ${"x".repeat(20_000)}\r\n\r\n`;
  expect(await said([long], 1)).toMatch(/^HTTP\/1\.1 431 /);
});
