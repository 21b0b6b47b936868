// @ts-check
import { readFileSync, statfsSync } from "node:fs";
import { join } from "node:path";
import { requireNode } from "./node-version.mjs";
import { driverLoads, installPackages, packagesAreInstalled, rebuildDriver } from "./packages.mjs";
import { CannotGoOn } from "./refusal.mjs";
import { step } from "./steps.mjs";

const MEGABYTE = 1024 * 1024;

/** Measured: the packages take 0.8 GB once installed, and npm unpacks beside them. */
const TO_INSTALL_MB = 1500;

/**
 * Makes sure that this Node is fit, and that the packages are installed and load in it. Silent when all is well.
 *
 * @param {string} root
 */
export async function preparePackages(root) {
  const { engines } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  requireNode(engines.node);

  if (!packagesAreInstalled(root)) {
    requireSpace(root, TO_INSTALL_MB, "to install the packages");
    await step("install packages (3 minutes the first time)", () => installPackages(root));
  }
  if (!(await driverLoads(root))) {
    await step(`compile the database driver for Node ${process.versions.node}`, () => rebuildDriver(root));
  }
}

/**
 * @param {string} folder
 * @param {number} megabytes
 * @param {string} purpose
 */
export function requireSpace(folder, megabytes, purpose) {
  const { bavail, bsize } = statfsSync(folder);
  const free = Math.floor((bavail * bsize) / MEGABYTE);
  if (free >= megabytes) return;
  throw new CannotGoOn(
    `The disk of ${folder} is nearly full: ${free} MB free, ${megabytes} MB needed ${purpose}.\n` +
      "Nothing was changed. Free some space, then start again.",
  );
}
