import { randomBytes, type ScryptOptions, scrypt, timingSafeEqual } from "node:crypto";
import { fault, type Refusal } from "../../lib/words/refusal";

/**
 * Passwords are kept as scrypt digests. The cost stands beside each digest, so that it can be raised later
 * without making anybody choose a new password.
 *
 * N = 2^15, r = 8, p = 3 asks for 32 MB and some tenths of a second a guess (OWASP Password Storage Cheat
 * Sheet; from memory).
 */
const COST = { N: 2 ** 15, r: 8, p: 3 };
const SALT_BYTES = 16;
const DIGEST_BYTES = 32;

/** As long as eight characters for people who type it with gloves, long enough with the limit on guesses. */
export const SHORTEST_PASSWORD = 8;
/** A digest of a megabyte costs no more than of ten letters, but reading it does. */
export const LONGEST_PASSWORD = 200;

/** "scrypt:N:r:p:salt:digest" with salt and digest in base64url. */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES);
  const digest = await derive(password, salt, COST);
  const { N, r, p } = COST;
  return ["scrypt", N, r, p, salt.toString("base64url"), digest.toString("base64url")].join(":");
}

/** False for a wrong password and for a digest that is none. Takes equally long wherever they differ. */
export async function isPassword(password: string, stored: string): Promise<boolean> {
  const [name, N, r, p, salt = "", digest = ""] = stored.split(":");
  if (name !== "scrypt" || password.length > LONGEST_PASSWORD) return false;
  const expected = Buffer.from(digest, "base64url");
  const cost = { N: Number(N), r: Number(r), p: Number(p) };
  const derived = await derive(password, Buffer.from(salt, "base64url"), cost);
  return derived.length === expected.length && timingSafeEqual(derived, expected);
}

/** As `isPassword`; one that is not there costs as much as a wrong one, so that nobody learns which it was. */
export async function isSecretOf(secret: string, stored: string | null | undefined): Promise<boolean> {
  if (stored) return isPassword(secret, stored);
  await derive(secret.slice(0, LONGEST_PASSWORD), Buffer.alloc(SALT_BYTES), COST);
  return false;
}

function derive(password: string, salt: Buffer, cost: typeof COST): Promise<Buffer> {
  const options: ScryptOptions = { ...cost, maxmem: 256 * cost.N * cost.r };
  // The same letters can be typed in several Unicode ways; devices differ in which.
  const text = password.normalize("NFKC");
  return new Promise((resolve, reject) => {
    scrypt(text, salt, DIGEST_BYTES, options, (error, key) => (error ? reject(error) : resolve(key)));
  });
}

/** What will not do in a password; null when all is well. */
export function passwordFault(password: string): Refusal | null {
  if (password.length < SHORTEST_PASSWORD) return fault("password-short", password.length, SHORTEST_PASSWORD);
  return password.length > LONGEST_PASSWORD ? fault("password-long", LONGEST_PASSWORD) : null;
}
