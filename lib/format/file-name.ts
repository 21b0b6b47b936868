/** "H-210 Bore Ø 62, mean" as a file's name: "h-210-bore-o-62-mean". */
export function fileName(words: string): string {
  const plain = words
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replaceAll("Ø", "O")
    .replaceAll("ø", "o")
    .replace(/[^a-zA-Z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .toLowerCase();
  return plain === "" ? "steadyrest" : plain.slice(0, 80);
}
