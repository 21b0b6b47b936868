/** What a person may do; one person may have several. */
export const ROLES = ["viewer", "shift-lead", "engineer", "quality", "admin"] as const;
export type Role = (typeof ROLES)[number];

/** As shown to people. */
export const ROLE_WORDS: Record<Role, string> = {
  viewer: "viewer",
  "shift-lead": "shift lead",
  engineer: "engineer",
  quality: "quality",
  admin: "admin",
};

/** "engineer or admin", for a sentence that says who may do something. */
export function rolesInWords(roles: readonly Role[]): string {
  const words = roles.map((role) => ROLE_WORDS[role]);
  if (words.length < 2) return words[0] ?? "nobody";
  return `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}

export function isRole(text: string): text is Role {
  return (ROLES as readonly string[]).includes(text);
}
