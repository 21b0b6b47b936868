import { fault, type Refusal } from "../words/refusal";

/**
 * Six digits at least: a secret of digits alone needs six (NIST SP 800-63B, 2017, section 5.1.1.1; from memory),
 * and ten are as many as somebody types with gloves on without a slip.
 */
export const SHORTEST_PIN = 6;
export const LONGEST_PIN = 10;

/** What will not do in a PIN; null when all is well. */
export function pinFault(pin: string, login: string): Refusal | null {
  if (!/^[0-9]+$/.test(pin) || pin.length < SHORTEST_PIN || pin.length > LONGEST_PIN)
    return fault("pin-digits", SHORTEST_PIN, LONGEST_PIN);
  if (isEven(pin)) return fault("pin-even");
  if (login.includes(pin)) return fault("pin-in-login");
  return null;
}

/** The same step from each digit to the next (111111, 123456, 098765), or a short piece over and over (121212). */
function isEven(pin: string): boolean {
  const steps = new Set([...pin].slice(1).map((digit, i) => (Number(digit) - Number(pin[i]) + 10) % 10));
  if (steps.size === 1) return true;
  return [2, 3].some((length) => {
    const piece = pin.slice(0, length);
    return piece.repeat(Math.ceil(pin.length / length)).slice(0, pin.length) === pin;
  });
}
