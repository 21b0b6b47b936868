import { createHash, randomBytes } from "node:crypto";

/** A secret that nobody guesses: 32 random bytes in base64url. */
export function newToken(): string {
  return randomBytes(32).toString("base64url");
}

/** What is stored of a token. Whoever reads the database cannot sign in with it. */
export function digestOf(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}
