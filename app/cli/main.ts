import { InvalidInput } from "../../lib/checks";
import { Refused, WrongUsage } from "./refusal";
import type { Verb } from "./verb";

/*
 * The command line. To add a verb: write app/cli/verbs/NAME.ts with `export const verb = defineVerb({ … })`,
 * and add one line to this table. A verb loads only when it is called, so that `constants` needs no database.
 */
const VERBS: Record<string, { summary: string; load: () => Promise<{ verb: Verb }> }> = {
  constants: { summary: "control chart constants", load: () => import("./verbs/constants") },
  study: {
    summary: "limits, signals and capability of a measurement file",
    load: () => import("./verbs/study"),
  },
  capability: {
    summary: "capability and performance of a measurement file",
    load: () => import("./verbs/capability"),
  },
  signals: {
    summary: "run rules on values that are already standardised",
    load: () => import("./verbs/signals"),
  },
  "gauge-study": {
    summary: "how much of what is seen is the gauge: a crossed study",
    load: () => import("./verbs/gauge-study"),
  },
  arl: { summary: "average run length of run rules, EWMA and CUSUM", load: () => import("./verbs/arl") },
  drift: { summary: "which fixture, tool or gauge moved", load: () => import("./verbs/drift") },
  intake: { summary: "bring measurement files into the database", load: () => import("./verbs/intake") },
  rebuild: { summary: "compute every derived row anew", load: () => import("./verbs/rebuild") },
  backup: { summary: "copy the database while it is used", load: () => import("./verbs/backup") },
  restore: { summary: "put a backup into an empty place", load: () => import("./verbs/restore") },
  verify: { summary: "whether the database and its record are whole", load: () => import("./verbs/verify") },
  migrate: { summary: "bring the tables of the database up to date", load: () => import("./verbs/migrate") },
  "set-up": { summary: "print the link that makes the first account", load: () => import("./verbs/set-up") },
  demo: { summary: "load the demo plant into an empty database", load: () => import("./verbs/demo") },
};

/** Does what the words of a command ask for, and gives the code to end with. */
export async function main([name, ...words]: string[]): Promise<number> {
  if (name === undefined) return complain("no verb given.", "");
  if (name === "--help" || name === "-h" || name === "help") return show(overview());

  const entry = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (!entry) return complain(`there is no verb "${name}". Known: ${Object.keys(VERBS).join(", ")}.`, "");

  try {
    const { verb } = await entry.load();
    if (asksForHelp(words)) return show(verb.help);
    await verb.run(words);
    return 0;
  } catch (error) {
    if (error instanceof WrongUsage) return complain(error.message, ` ${name}`);
    return report(name, error);
  }
}

function overview(): string {
  const width = Math.max(...Object.keys(VERBS).map((name) => name.length));
  const lines = Object.entries(VERBS).map(([name, { summary }]) => `  ${name.padEnd(width)}  ${summary}`);
  return `Steadyrest from a shell: npm run --silent cli -- VERB …

${lines.join("\n")}

--help after a verb tells more; --json prints one JSON document on stdout, messages go to stderr.
Exit code 0: done. 1: the input was refused, with one line that says why. 2: wrong usage.
`;
}

/** A word after `--` is a name, whatever it looks like. */
function asksForHelp(words: readonly string[]): boolean {
  const end = words.indexOf("--");
  const options = end === -1 ? words : words.slice(0, end);
  return options.includes("--help") || options.includes("-h");
}

function show(text: string): number {
  process.stdout.write(text.endsWith("\n") ? text : `${text}\n`);
  return 0;
}

function complain(reason: string, verb: string): number {
  process.stderr.write(`Wrong usage: ${reason} See: npm run --silent cli --${verb} --help\n`);
  return 2;
}

/** A refusal is one line; a fault of the program shows where it happened, for whoever repairs it. */
function report(verb: string, error: unknown): number {
  // The database's own refusals by name: to import their classes would load its driver for every verb.
  const isOfDatabase = error instanceof Error && ["NotOpened", "NotStored"].includes(error.name);
  if (error instanceof Refused || error instanceof InvalidInput || isOfDatabase) {
    process.stderr.write(`${error.message}\n`);
  } else {
    const detail = error instanceof Error ? (error.stack ?? error.message) : String(error);
    process.stderr.write(`${verb} failed through a fault of the program, not of the input. ${detail}\n`);
  }
  return 1;
}
