import { defineConfig } from "vitest/config";

/**
 * Two projects: "code" needs no server and runs in seconds; "browser" drives the built application in
 * Chromium and shares one server, so its files run one after another.
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
        },
      },
      {
        test: {
          name: "browser",
          include: ["tests/app/**/*.test.{ts,tsx}"],
          environment: "node",
          globalSetup: ["tests/app/server.ts"],
          fileParallelism: false,
          testTimeout: 30_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
});
