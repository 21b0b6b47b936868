// @ts-check
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { runInNewContext } from "node:vm";
import { gzipSync } from "node:zlib";

/** The pages that people wait for most, and the kB (1,000 bytes) of compressed script that each may take at most. */
export const SCRIPT_BARS = [
  { page: "shift board", route: "page", most: 160 },
  { page: "feature page", route: "features/[id]/page", most: 270 },
];

/**
 * What the first view of a page loads, in kB: the scripts that Next's manifests of the built pages name for it and for
 * the frames and faults around it, each compressed for itself as the server does (gzip, usual level). Scripts that a page
 * fetches when somebody wants a picture or another chart are not among them, nor is the one for browsers without
 * modules.
 *
 * @param {string} root
 * @param {string} route
 */
export function scriptWeight(root, route) {
  const next = join(root, ".next");
  /** @type {{ rootMainFiles: string[] }} */
  const build = JSON.parse(readFileSync(join(next, "build-manifest.json"), "utf8"));
  /** @type {{ __RSC_MANIFEST?: Record<string, { entryJSFiles: Record<string, string[]> }> }} */
  const found = {};
  const written = readFileSync(join(next, "server", "app", `${route}_client-reference-manifest.js`), "utf8");
  runInNewContext(written, { globalThis: found });
  const [manifest] = Object.values(found.__RSC_MANIFEST ?? {});
  if (!manifest)
    throw new Error(`The manifest of ${route} names no scripts: Next writes it in another way now.`);

  const files = new Set([...build.rootMainFiles, ...Object.values(manifest.entryJSFiles).flat()]);
  let bytes = 0;
  for (const file of files) bytes += gzipSync(readFileSync(join(next, file))).length;
  return bytes / 1000;
}
