/** What a person may do; one person may have several. */
export const ROLES = ["viewer", "shift-lead", "engineer", "quality", "admin"] as const;
export type Role = (typeof ROLES)[number];

type RoleWords = { roles: Record<Role, string>; or: string; nobody: string };

/** "engineer or admin", for a sentence that says who may do something. */
export function rolesInWords(roles: readonly Role[], words: RoleWords): string {
  const names = roles.map((role) => words.roles[role]);
  if (names.length < 2) return names[0] ?? words.nobody;
  return `${names.slice(0, -1).join(", ")} ${words.or} ${names.at(-1)}`;
}

export function isRole(text: string): text is Role {
  return (ROLES as readonly string[]).includes(text);
}
