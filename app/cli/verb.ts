import { type ParseArgsConfig, parseArgs } from "node:util";
import { WrongUsage } from "./refusal";

type Options = NonNullable<ParseArgsConfig["options"]>;
type Parsed<O extends Options> = ReturnType<
  typeof parseArgs<{ options: O; allowPositionals: true; strict: true }>
>;

/** One verb of the command line, as main.ts sees it: its help, and what it does with the words after it. */
export type Verb = { help: string; run(words: string[]): Promise<void> };

/**
 * Makes a verb from its options (in the manner of node:util's `parseArgs`) and its work.
 *
 * The work prints its result and returns. It throws `WrongUsage` for a command that cannot be meant (exit 2),
 * `Refused` for a file that cannot be taken (exit 1); anything else thrown is a fault of the program (exit 1).
 */
export function defineVerb<const O extends Options>(verb: {
  help: string;
  options: O;
  run: (given: { values: Parsed<O>["values"]; positionals: string[] }) => void | Promise<void>;
}): Verb {
  return {
    help: verb.help,
    async run(words) {
      await verb.run(parsed(words, verb.options));
    },
  };
}

function parsed<O extends Options>(words: string[], options: O): Parsed<O> {
  try {
    return parseArgs({ args: words, options, allowPositionals: true, strict: true });
  } catch (error) {
    if (error instanceof TypeError) throw new WrongUsage(error.message.replaceAll("\n", " "));
    throw error;
  }
}
