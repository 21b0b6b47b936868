/** Sentences with holes, {name}, and the same in another language, the more particular ones first. */
export type Pairs = readonly (readonly [english: string, other: string])[];

/** Words that stand in the hole of this name, by the English ones. */
export type Fillings = Readonly<Record<string, Readonly<Record<string, string>>>>;

/**
 * A function that tells an English text of a table in another language; what the table does not hold stays as it
 * is. What stands in the hole {rest} is a sentence again and told the same way.
 *
 * For texts that are kept in English whoever reads them: why a row of a file was refused stands in the database
 * and in the answer to a program.
 */
export function storedTextsBy(pairs: Pairs, fillings: Fillings): (text: string) => string {
  const table = pairs.map(([english, other]) => ({ pattern: patternOf(english, fillings), other }));
  const told = (text: string): string => {
    for (const { pattern, other } of table) {
      const found = pattern.exec(text)?.groups;
      if (found) return other.replace(/\{(\w+)\}/g, (_, hole: string) => filling(hole, found[hole] ?? ""));
      if (pattern.test(text)) return other;
    }
    return text;
  };
  const filling = (hole: string, text: string) =>
    hole === "rest" ? told(text) : (fillings[hole]?.[text] ?? text);
  return told;
}

function patternOf(english: string, fillings: Fillings): RegExp {
  const hole = (name: string) =>
    `(?<${name}>${[...Object.keys(fillings[name] ?? {}).map(literally), ".*?"].join("|")})`;
  const source = english
    .split(/\{(\w+)\}/)
    .map((part, at) => (at % 2 === 1 ? hole(part) : literally(part)))
    .join("");
  return new RegExp(`^${source}$`, "su");
}

function literally(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");
}
