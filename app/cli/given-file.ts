import { resolve } from "node:path";

/** The place of a file that was named on the command line, meant from where the person stands. */
export function givenFile(name: string): string {
  return resolve(process.env.STEADYREST_CALLED_FROM ?? process.cwd(), name);
}
