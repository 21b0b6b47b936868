import { once } from "node:events";
import { createServer, request, type Server } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { expect, onTestFinished, test, vi } from "vitest";
import { readLimited } from "../../app/limited-body";
import { answerStraight, type MachineRequest } from "../../app/straight";

/*
 * Node's own server with a listener in Next's place. Each test has an address of its own, for what is answered
 * straight is so for every server of the process.
 */

const NEXT = "answered by the listener that was there before";

async function serverWith(address: string, handler: (request: MachineRequest) => Promise<Response>) {
  const onFault = vi.fn();
  answerStraight({ [`POST ${address}`]: handler }, onFault);
  const server = createServer((_, response) => response.end(NEXT)).listen(0, "127.0.0.1");
  await once(server, "listening");
  onTestFinished(() => void server.close());
  return { server, onFault };
}

type Sent = { method?: string; path: string; body?: string; headers?: Record<string, string> };

function send(server: Server, { method = "POST", body, ...sent }: Sent) {
  const { port } = server.address() as AddressInfo;
  return new Promise<{ status: number; text: string; headers: Record<string, unknown> }>(
    (resolve, reject) => {
      const asked = request({ port, host: "127.0.0.1", method, agent: false, ...sent }, (answer) => {
        let text = "";
        answer.setEncoding("utf8").on("data", (chunk: string) => {
          text += chunk;
        });
        answer.on("end", () =>
          resolve({ status: answer.statusCode ?? 0, text, headers: { ...answer.headers } }),
        );
      });
      asked.on("error", reject);
      asked.end(body);
    },
  );
}

test("a handler gets method, headers and body of its address, and its answer goes back with the plant's own headers", async () => {
  const { server, onFault } = await serverWith("/api/one", async ({ method, headers, body }) => {
    const read = await readLimited({ headers, body });
    return Response.json(
      { method, key: headers.get("authorization"), none: headers.get("idempotency-key"), read },
      { status: 201, headers: { "x-own": "yes" } },
    );
  });
  const answer = await send(server, {
    path: "/api/one",
    body: "25,003 µm",
    headers: { Authorization: "Bearer k" },
  });
  expect(answer.status).toBe(201);
  expect(JSON.parse(answer.text)).toEqual({
    method: "POST",
    key: "Bearer k",
    none: null,
    read: { ok: true, text: "25,003 µm" },
  });
  expect(answer.headers).toMatchObject({
    "content-type": "application/json",
    "x-own": "yes",
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
  });
  expect(onFault).not.toHaveBeenCalled();
});

test("every other method and address goes on to the listener that was there before", async () => {
  const handler = vi.fn(async () => new Response("straight"));
  const { server } = await serverWith("/api/two", handler);
  for (const other of [
    { method: "GET", path: "/api/two" },
    { method: "PUT", path: "/api/two" },
    { path: "/api/two/" },
    { path: "/api/two?a=1" },
    { path: "/api/twofold" },
    { path: "/" },
  ]) {
    expect(await send(server, other), JSON.stringify(other)).toMatchObject({ text: NEXT });
  }
  expect(handler).not.toHaveBeenCalled();
});

test("a body that is too large is answered although it goes on, and its connection is not used again", async () => {
  const { server, onFault } = await serverWith("/api/three", async (asked) => {
    const read = await readLimited(asked, 1000);
    return read.ok ? new Response("taken") : Response.json({ message: read.why }, { status: read.status });
  });
  // In chunks without a stated length, so that it shows only while it is read.
  const body = "x".repeat(3_000_000);
  const answer = await send(server, {
    path: "/api/three",
    body,
    headers: { "transfer-encoding": "chunked" },
  });
  expect(answer).toMatchObject({ status: 413, headers: { connection: "close" } });
  expect(await send(server, { path: "/api/three", body: "small" })).toMatchObject({ text: "taken" });
  expect(onFault).not.toHaveBeenCalled();
});

test("a handler that fails is told of, and its request answered that nothing was saved", async () => {
  const error = new Error("out of order");
  const { server, onFault } = await serverWith("/api/four", async () => {
    throw error;
  });
  const answer = await send(server, { path: "/api/four", body: "{}" });
  expect(answer).toMatchObject({ status: 500, text: expect.stringContaining("Nothing saved") });
  expect(answer.text).not.toContain("out of order");
  expect(onFault).toHaveBeenCalledExactlyOnceWith({ error, method: "POST", route: "/api/four" });
});

test("a request that breaks off half-way fails its reading, and is no fault of the program", async () => {
  const ended = vi.fn();
  const { server, onFault } = await serverWith("/api/five", async (asked) => {
    await readLimited(asked).catch((error: unknown) => {
      ended(error);
      throw error;
    });
    return new Response("taken");
  });
  const { port } = server.address() as AddressInfo;
  const line = connect(port, "127.0.0.1");
  line.write("POST /api/five HTTP/1.1\r\nHost: x\r\nContent-Length: 100\r\n\r\nhalf", () => {
    setTimeout(() => line.destroy(), 20);
  });
  await vi.waitFor(() => expect(ended).toHaveBeenCalled());
  await new Promise((resolve) => setImmediate(resolve));
  expect(onFault).not.toHaveBeenCalled();
});
