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

/** What is stored of a session, which is English, in the language of the page. */
export function deviceIn(
  stored: string,
  words: { aBrowser: string; on: (browser: string, system: string) => string },
): string {
  const [name = "", system] = stored.split(" on ");
  const browser = name === "a browser" ? words.aBrowser : name;
  return system === undefined ? browser : words.on(browser, system);
}
