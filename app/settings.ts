import { z } from "zod";
import { REQUEST_SECONDS } from "./slow-requests";

/*
 * What the program takes from its environment: every name, what it may be, and what holds without it. Looked
 * at once as a server starts, so that a wrong one is said then and not in the middle of a shift.
 */

const megabytes = z.coerce.number().positive().max(1_000_000);
const BOUNDS: Record<string, { schema: z.ZodType; means: string; usual: string }> = {
  STEADYREST_DATA: { schema: z.string().min(1), means: "the folder of the database", usual: "data" },
  STEADYREST_HOST: { schema: z.string().min(1), means: "the address to answer on", usual: "127.0.0.1" },
  PORT: {
    schema: z.coerce.number().int().min(1).max(65_535),
    means: "a port from 1 to 65535",
    usual: "3000",
  },
  STEADYREST_MAX_UPLOAD_MB: { schema: megabytes, means: "the largest file in MB", usual: "2048" },
  STEADYREST_MAX_UNPACKED_MB: {
    schema: megabytes,
    means: "what a workbook may hold unpacked, in MB",
    usual: "1024",
  },
  STEADYREST_MAX_POST_MB: {
    schema: megabytes,
    means: "the largest posted body in MB",
    usual: "2",
  },
  STEADYREST_REQUEST_SECONDS: {
    schema: z.coerce.number().positive().max(86_400),
    means: "how many seconds a request may take to come in, at most 86400",
    usual: String(REQUEST_SECONDS),
  },
  STEADYREST_WATCH: { schema: z.string().min(1), means: "a folder whose files are taken in", usual: "none" },
  STEADYREST_LOG_LEVEL: {
    schema: z.enum(["debug", "info", "warn", "error", "silent"]),
    means: "debug, info, warn, error or silent",
    usual: "info",
  },
  STEADYREST_TRUST_PROXY: {
    schema: z.literal("1"),
    means: "1 when a proxy before this server sets the X-Forwarded- headers itself",
    usual: "not trusted",
  },
  STEADYREST_WEBHOOKS_TO_THIS_MACHINE: {
    schema: z.string(),
    means: "lets messages go to addresses of this machine",
    usual: "not",
  },
};

/** Set by our own commands for each other. */
const INTERNAL = new Set(["STEADYREST_CALLED_FROM"]);

export type SettingsRead = {
  /** One sentence each; empty when all is well. */
  faults: string[];
  /** Names nobody reads: most likely mistyped. */
  unknown: string[];
  /** What holds, for the log, without what is nobody's business. */
  summary: Record<string, string>;
};

/** Checks the environment. An empty value counts as not given, as in a shell. */
export function readSettings(env: Readonly<Record<string, string | undefined>>): SettingsRead {
  const faults: string[] = [];
  const summary: Record<string, string> = {};
  for (const [name, { schema, means, usual }] of Object.entries(BOUNDS)) {
    const given = env[name];
    if (given === undefined || given === "") {
      summary[name] = `${usual} (not given)`;
      continue;
    }
    if (!schema.safeParse(given).success)
      faults.push(`${name} is "${redacted(name, given)}", but it is ${means}.`);
    summary[name] = redacted(name, given);
  }
  const unknown = Object.keys(env).filter(
    (name) => name.startsWith("STEADYREST_") && !Object.hasOwn(BOUNDS, name) && !INTERNAL.has(name),
  );
  return { faults, unknown, summary };
}

/** A secret by its name is not shown; of an address, what stands before the @ is not. */
function redacted(name: string, value: string): string {
  if (/SECRET|PASSWORD|TOKEN|KEY/.test(name)) return "(not shown)";
  return value.replace(/\/\/[^/@\s]*@/g, "//(not shown)@");
}
