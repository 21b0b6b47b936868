import pino from "pino";

const stderr = pino.destination({ fd: 2, sync: true });
// A disk that is full takes no line either; that must not end the server, which goes on reading.
stderr.on("error", () => undefined);

/**
 * The server's log: one JSON object a line on stderr, for a person with `jq` and for any collector of logs.
 *
 * It names no person, no measurement and no address beyond its path: whoever reads logs need not be somebody
 * who may read the plant.
 */
export const log = pino(
  { name: "steadyrest", level: process.env.STEADYREST_LOG_LEVEL || "info", base: { pid: process.pid } },
  stderr,
);
