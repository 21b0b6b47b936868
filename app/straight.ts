import { subscribe } from "node:diagnostics_channel";
import type { IncomingMessage, Server, ServerResponse } from "node:http";
import { ANSWER_HEADERS } from "./answer-headers.mjs";

/*
 * Requests that go from the server straight to their handler. What Next does before and after a route handler (routing,
 * copying the request, tracing, streaming the answer) took 2 ms of the processor a request, more than all else that a
 * posted piece of fifty features costs. A machine that posts needs none of it, and its handler asks for its key by
 * itself. Everything else, and everything in development, goes through Next as ever.
 */

/** As much of a request as the handler of a machine's request looks at. */
export type MachineRequest = {
  method: string;
  headers: Pick<Headers, "get">;
  body: AsyncIterable<Uint8Array> | ReadableStream<Uint8Array> | null;
};

type Handler = (request: MachineRequest) => Promise<Response>;

/** By method and address, as in the access table. */
type Handlers = Record<string, Handler>;
type Fault = { error: unknown; method: string; route: string };

/** Holds for every server of this process, from its next request on; `onFault` hears of each handler that failed. */
export function answerStraight(handlers: Handlers, onFault: (fault: Fault) => void): void {
  const known = new WeakSet<Server>();
  subscribe("http.server.request.start", (message) => {
    const { server } = message as { server: Server };
    if (known.has(server)) return;
    known.add(server);
    const others = server.listeners("request");
    server.removeAllListeners("request");
    server.on("request", (request: IncomingMessage, response: ServerResponse) => {
      const handler = handlers[`${request.method} ${request.url}`];
      if (handler) void answer(handler, request, response, onFault);
      else for (const other of others) Reflect.apply(other, server, [request, response]);
    });
  });
}

async function answer(
  handler: Handler,
  request: IncomingMessage,
  response: ServerResponse,
  onFault: (fault: Fault) => void,
): Promise<void> {
  try {
    const answered = await handler(asked(request));
    const text = await answered.text();
    for (const { key, value } of ANSWER_HEADERS) response.setHeader(key, value);
    for (const [name, value] of answered.headers) response.setHeader(name, value);
    if (!request.complete) response.setHeader("connection", "close");
    response.writeHead(answered.status).end(text);
  } catch (error) {
    // One that broke off has nobody to be answered, and nothing of it was stored.
    if (request.destroyed && !request.complete) return;
    onFault({ error, method: request.method ?? "", route: request.url ?? "" });
    if (response.headersSent) response.destroy();
    else response.writeHead(500, { "content-type": "application/json" }).end(FAULT);
  }
  // What was not read of a request that is too large: whoever sends it hears the answer once it is through.
  if (!request.complete) request.resume();
}

const FAULT = JSON.stringify({ message: "Nothing saved: the server met a fault, which its log describes." });

function asked(request: IncomingMessage): MachineRequest {
  return {
    method: request.method ?? "",
    headers: {
      get(name) {
        const value = request.headers[name];
        return (Array.isArray(value) ? value.join(", ") : value) ?? null;
      },
    },
    body: request.iterator({ destroyOnReturn: false }),
  };
}
