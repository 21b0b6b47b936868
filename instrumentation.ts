/** Next calls this once when a server starts, and not during a build. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== "nodejs") return;
  const { beginProcess } = await import("./app/process");
  await beginProcess();
}

/** Next calls this for every request that ended in a fault. What stands behind the ? of an address is left out. */
export async function onRequestError(
  error: unknown,
  request: { path: string; method: string },
  context: { routePath: string },
): Promise<void> {
  if (process.env.NEXT_RUNTIME !== "nodejs") return;
  const { log } = await import("./app/log");
  const digest = (error as { digest?: unknown } | null)?.digest;
  log.error({ err: error, digest, method: request.method, route: context.routePath }, "request failed");
}
