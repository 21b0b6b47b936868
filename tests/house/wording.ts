import { type Finding, lineOf, type SourceFile } from "./source-files";

/**
 * What no committed file may hold. The patterns are written so that they do not find themselves.
 */
const BANNED: readonly { pattern: RegExp; why: string }[] = [
  {
    pattern: /\b(T[O]DO|F[I]XME|X[X]X|H[A]CK)\b/g,
    why: "work left over belongs in an issue, not in the code",
  },
  { pattern: /@ts-(i[g]nore|n[o]check|e[x]pect-error)/g, why: "a type error is repaired, not silenced" },
  { pattern: /\bb[i]ome-ignore/g, why: "a lint finding is repaired, not silenced" },
  {
    pattern: /\b(test|it|describe|suite)\.(s[k]ip|s[k]ipIf|o[n]ly|t[o]do|f[a]ils)\b|\bx(it|describe)\(/g,
    why: "every test runs",
  },
  {
    pattern: /(?<![\w.])\/(work|tmp|root|home\/\w+|Users\/\w+)\/|\b[A-Z]:\\\\?Users/g,
    why: "a path of one machine means nothing on another",
  },
  {
    pattern: /\bregistry\.[a-z]+js\.org|registry\.y[a]rnpkg/g,
    why: "the place packages come from is the user's choice",
  },
  { pattern: /\bO[o]ps\b|\bi[n]valid input\b/gi, why: "a message says what happened and what to do next" },
];

const BANNED_IN_CODE: readonly { pattern: RegExp; why: string }[] = [
  { pattern: /(:|\bas|<|,|\|)\s*a[n]y\b(?!\s+\w)|\ba[n]y\[\]/g, why: "a type is named, or is unknown" },
];

/** Every banned word with its place and the reason. */
export function bannedWords(files: readonly SourceFile[]): Finding[] {
  return files.flatMap(({ path, text }) => {
    const isTyped = /\.(ts|tsx)$/.test(path);
    const patterns = isTyped ? [...BANNED, ...BANNED_IN_CODE] : BANNED;
    return patterns.flatMap(({ pattern, why }) => {
      const searched = BANNED_IN_CODE.some((banned) => banned.pattern === pattern)
        ? withoutProse(text)
        : text;
      return [...searched.matchAll(pattern)].map((match) => ({
        path,
        line: lineOf(searched, match.index),
        says: `holds "${match[0].trim()}": ${why}.`,
      }));
    });
  });
}

/** Comments and texts blanked out: in a sentence the word is only a word. */
function withoutProse(text: string): string {
  const prose = /\/\*[\s\S]*?\*\/|\/\/[^\n]*|"(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`/g;
  return text.replace(prose, (found) => found.replace(/[^\n]/g, " "));
}
