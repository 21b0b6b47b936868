import { access, constants, stat } from "node:fs/promises";
import { resolve } from "node:path";
import { Refused } from "./refusal";

/** The place of a file that was named on the command line, meant from where the person stands. */
export function givenFile(name: string): string {
  return resolve(process.env.STEADYREST_CALLED_FROM ?? process.cwd(), name);
}

/**
 * The same for a file that is to be read.
 *
 * @throws Refused when it is not there, is a folder or may not be read
 */
export async function readableFile(name: string): Promise<string> {
  const path = givenFile(name);
  const found = await stat(path).catch(() => null);
  if (!found) throw new Refused({ file: name, reason: "there is no such file." });
  if (found.isDirectory()) {
    throw new Refused({ file: name, reason: "this is a folder; a file was expected." });
  }
  const mayRead = await access(path, constants.R_OK).then(
    () => true,
    () => false,
  );
  if (!mayRead) throw new Refused({ file: name, reason: "it may not be read by this account." });
  return path;
}
