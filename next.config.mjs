// @ts-check
import { ANSWER_HEADERS } from "./app/answer-headers.mjs";

/** @type {import("next").NextConfig} */
const config = {
  poweredByHeader: false,
  // The first has a compiled part, the others load their own files at run time: none can be bundled.
  serverExternalPackages: ["better-sqlite3", "exceljs", "pino"],
  // Types are a check of their own in `npm test`; whoever only starts the program need not wait for it.
  typescript: { ignoreBuildErrors: true },
  // See that file: recharts would bring every scale there is, and what they stand on.
  turbopack: { resolveAlias: { "victory-vendor/d3-scale": "./app/features/[id]/axis-scales.ts" } },
  // Lets a page answer 403 with a page of its own, as it answers 404.
  experimental: { authInterrupts: true },
  // Titles are words of the page's language and come with the page, not after it: a page without one is nameless to a screen reader.
  htmlLimitedBots: /.*/,
  headers: async () => [{ source: "/:path*", headers: ANSWER_HEADERS }],
};

export default config;
