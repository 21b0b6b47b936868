/**
 * Where to go after signing in: an address of this host, or the shift board for anything else.
 *
 * A link that leads through sign-in to another site is a way to steal passwords.
 */
export function nextAddress(wanted: unknown): string {
  if (typeof wanted !== "string" || !wanted.startsWith("/")) return "/";
  const base = "http://this.host";
  try {
    const url = new URL(wanted, base);
    if (url.origin !== base || url.pathname.startsWith("/sign-in")) return "/";
    // Rebuilt from its parts: "//x" and "/\x" name another host for a browser.
    const path = url.pathname.replace(/^\/+/, "/");
    return path + url.search + url.hash;
  } catch {
    return "/";
  }
}
