import { defineConfig } from "vitest/config";

/**
 * Two projects: "code" needs no server; "browser" drives the built application in Chromium, each file with a server
 * of its own. A file keeps a browser and a server busy, so no more of them run at once than two cores can serve.
 */
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "code",
          include: ["tests/**/*.test.{ts,tsx}"],
          exclude: ["tests/app/**"],
          setupFiles: ["tests/quiet.ts"],
          environment: "node",
          // Against what hangs: programs are started and large laws tried on machines that do other things too.
          testTimeout: 60_000,
        },
      },
      {
        test: {
          name: "browser",
          include: ["tests/app/**/*.test.{ts,tsx}"],
          environment: "node",
          globalSetup: ["tests/app/server.ts"],
          maxWorkers: 2,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
