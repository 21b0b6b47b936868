/** What a machine with a key may do; a key may carry several. */
export const SCOPES = ["post-measurements", "show-wall", "read-metrics"] as const;
export type Scope = (typeof SCOPES)[number];

/** As shown to people. */
export const SCOPE_WORDS: Record<Scope, string> = {
  "post-measurements": "post measurements",
  "show-wall": "show the wall board",
  "read-metrics": "read the server's figures",
};

export function isScope(text: string): text is Scope {
  return (SCOPES as readonly string[]).includes(text);
}
