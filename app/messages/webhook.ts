import { createHmac, timingSafeEqual } from "node:crypto";
import { request as plainRequest } from "node:http";
import { request as safeRequest } from "node:https";
import { isIP } from "node:net";
import { ENGLISH } from "../../lib/words/words";
import { addressFault, guardedLookup } from "./address";

const WITHIN_MS = 10_000;

/** HMAC-SHA256 (RFC 2104) over the time, a point, and the body, in hex: an old message cannot be sent again later. */
export function signatureOf({ secret, time, body }: { secret: string; time: string; body: string }): string {
  return createHmac("sha256", secret).update(`${time}.${body}`).digest("hex");
}

/** As a receiver checks it: in constant time. */
export function isSignedBy(
  secret: string,
  { time, body, signature }: { time: string; body: string; signature: string },
): boolean {
  const [given, own] = [
    Buffer.from(signature, "hex"),
    Buffer.from(signatureOf({ secret, time, body }), "hex"),
  ];
  return given.length === own.length && timingSafeEqual(given, own);
}

/** Posts a signed message; resolves when the receiver answered with 2xx, and rejects with what went wrong. */
export function postWebhook({
  address,
  secret,
  id,
  body,
  now,
  allowsOwn,
}: {
  address: string;
  secret: string;
  id: number;
  body: string;
  now: number;
  allowsOwn: boolean;
}): Promise<void> {
  const fault = addressFault(address, { allowsOwn });
  if (fault) return Promise.reject(new Error(`Not sent: ${ENGLISH.people.messages.answers.address[fault]}`));
  const url = new URL(address);
  const time = String(Math.floor(now / 1000));
  const send = url.protocol === "https:" ? safeRequest : plainRequest;
  return new Promise((resolve, reject) => {
    const outgoing = send(
      url,
      {
        method: "POST",
        headers: {
          "content-type": "application/json",
          "content-length": Buffer.byteLength(body),
          "user-agent": "steadyrest",
          "x-steadyrest-message": String(id),
          "x-steadyrest-time": time,
          "x-steadyrest-signature": `sha256=${signatureOf({ secret, time, body })}`,
        },
        signal: AbortSignal.timeout(WITHIN_MS),
        // A host that is written as a number is not looked up; `addressFault` has looked at it.
        ...(isIP(url.hostname) === 0 ? { lookup: guardedLookup({ allowsOwn }) } : {}),
      },
      (incoming) => {
        const { statusCode = 0 } = incoming;
        incoming.resume();
        incoming.once("close", () => {
          if (statusCode >= 200 && statusCode < 300) resolve();
          // A redirect is not followed: it could lead where the address itself may not.
          else reject(new Error(`The receiver answered with ${statusCode}.`));
        });
      },
    );
    outgoing.once("error", (error) =>
      reject(
        error.name === "TimeoutError" ? new Error("The receiver did not answer within 10 seconds.") : error,
      ),
    );
    outgoing.end(body);
  });
}
