import type { ScannedSource } from "./measured-part";

/** "T-114/3" is the third edge in position T-114; a code without a number behind a slash has no edge. */
export function readToolCode(code: string): { position: string; edge: number | null } {
  const found = /^(.*\S)\s*\/\s*(\d+)$/.exec(code);
  return found === null
    ? { position: code, edge: null }
    : { position: found[1] as string, edge: Number(found[2]) };
}

/** Whether a code of its kind names a source; a tool is its position, whatever its edge. */
export function isOf({ kind, code }: { kind: string; code: string }, source: ScannedSource): boolean {
  return kind === source.kind && (kind === "tool" ? readToolCode(code).position : code) === source.id;
}
