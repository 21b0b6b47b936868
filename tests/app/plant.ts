import { afterAll } from "vitest";
import { startServer } from "./server";

/*
 * The server of the test file that imports this, directly or through browser.ts. Vitest loads modules anew for
 * each file, so each has its own, and a plant of its own to change.
 */

const server = await startServer();
afterAll(server.stop);

/** Where the application under test answers, without a slash at the end; and the folder of its database. */
export const { address, dataFolder } = server;
