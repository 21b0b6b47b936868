/** What a machine with a key may do; a key may carry several. */
export const SCOPES = ["post-measurements", "show-wall", "read-metrics"] as const;
export type Scope = (typeof SCOPES)[number];

export function isScope(text: string): text is Scope {
  return (SCOPES as readonly string[]).includes(text);
}
