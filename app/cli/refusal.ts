/** The command itself cannot be meant: exit code 2. */
export class WrongUsage extends Error {
  override name = "WrongUsage";
}

/** The input cannot be taken: exit code 1, and one line that says file, line, field and reason. */
export class Refused extends Error {
  override name = "Refused";

  constructor({ file, line, field, reason }: Refusal) {
    const place = [file, line && `line ${line}`, field && `field "${field}"`].filter(Boolean).join(", ");
    super(`${place}: ${reason}`);
  }
}

type Refusal = { file: string; line?: number | undefined; field?: string | undefined; reason: string };
