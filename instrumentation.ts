/** Next calls this once when a server starts, and not during a build. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== "nodejs") return;
  const { beginProcess } = await import("./app/process");
  await beginProcess();
}
