import { main } from "./main";

/* The command line as a program: what run.mjs loads. */

process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  // The reader of a pipe has gone, as `head` does: there is nobody left to print for.
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});

process.exitCode = await main(process.argv.slice(2));
