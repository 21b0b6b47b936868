import { cookies } from "next/headers";

export const THEMES = ["system", "light", "dark"] as const;
export type Theme = (typeof THEMES)[number];

export const THEME_COOKIE = "steadyrest-theme";

/** How this browser wants its pages; as the system does until somebody chooses. */
export async function chosenTheme(): Promise<Theme> {
  const stored = (await cookies()).get(THEME_COOKIE)?.value;
  return THEMES.find((theme) => theme === stored) ?? "system";
}
