import { subscribe } from "node:diagnostics_channel";
import type { Server } from "node:http";
import type { Socket } from "node:net";

/*
 * A request that trickles in holds a connection, and with an upload a file in the folder of uploads, for as long as
 * its sender likes. So each must be here as a whole within STEADYREST_REQUEST_SECONDS, its head within a minute of
 * that; Node looks every half minute. One that is not is ended with a message that names the setting, and whoever
 * was reading it sees it break off: nothing of it is stored.
 */

export const REQUEST_SECONDS = 300;
const HEAD_SECONDS = 60;

type Limit = { seconds: number; onEnded: () => void };

/** Holds for every server of this process, from its first request on. `onEnded` hears of each that was ended. */
export function limitSlowRequests(limit: Limit): void {
  const known = new WeakSet<Server>();
  subscribe("http.server.request.start", (message) => {
    const { server } = message as { server: Server };
    if (known.has(server)) return;
    known.add(server);
    server.requestTimeout = limit.seconds * 1000;
    server.headersTimeout = Math.min(HEAD_SECONDS, limit.seconds) * 1000;
    server.on("clientError", (error: NodeJS.ErrnoException, socket: Socket) => refuse(error, socket, limit));
  });
}

function refuse({ code }: NodeJS.ErrnoException, socket: Socket, { seconds, onEnded }: Limit): void {
  if (code === "ERR_HTTP_REQUEST_TIMEOUT") {
    onEnded();
    const message = `Nothing saved: the request was not here as a whole within ${seconds} s, the longest this server waits. Send it over a quicker line or in smaller pieces, or have STEADYREST_REQUEST_SECONDS raised.`;
    end(socket, "408 Request Timeout", JSON.stringify({ message }));
  } else if (code === "HPE_HEADER_OVERFLOW") {
    end(socket, "431 Request Header Fields Too Large", "");
  } else {
    end(socket, "400 Bad Request", "");
  }
}

function end(socket: Socket, status: string, body: string): void {
  if (!socket.writable) {
    socket.destroy();
    return;
  }
  const length = Buffer.byteLength(body);
  const head = `HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Type: application/json\r\nContent-Length: ${length}\r\n\r\n`;
  // What is still coming in is not read any more.
  socket.end(head + body, () => socket.destroy());
}
