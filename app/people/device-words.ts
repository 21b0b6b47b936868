const SYSTEMS: readonly [RegExp, string][] = [
  [/iPad/, "iPad"],
  [/iPhone/, "iPhone"],
  [/Android/, "Android"],
  [/Windows/, "Windows"],
  [/CrOS/, "ChromeOS"],
  [/Mac OS X/, "macOS"],
  [/Linux/, "Linux"],
];

/** In this order: most browsers also carry the names of others. */
const BROWSERS: readonly [RegExp, string][] = [
  [/Firefox\//, "Firefox"],
  [/Edg\//, "Edge"],
  [/OPR\//, "Opera"],
  [/Chrom(e|ium)\//, "Chrome"],
  [/Safari\//, "Safari"],
];

/** "Firefox on Windows": enough for a person to recognise where they are signed in. */
export function deviceWords(userAgent: string): string {
  const find = (words: readonly [RegExp, string][]) => words.find(([sign]) => sign.test(userAgent))?.[1];
  const browser = find(BROWSERS) ?? "a browser";
  const system = find(SYSTEMS);
  return system ? `${browser} on ${system}` : browser;
}
