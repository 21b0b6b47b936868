/** "T-114/3" is the third edge in position T-114; a code without a number behind a slash has no edge. */
export function readToolCode(code: string): { position: string; edge: number | null } {
  const found = /^(.*\S)\s*\/\s*(\d+)$/.exec(code);
  return found === null
    ? { position: code, edge: null }
    : { position: found[1] as string, edge: Number(found[2]) };
}
