import { FEATURES, PART, steadyValue } from "./plant";

const AGAIN_MS = 200;
/** A piece with one feature far outside; the next ones lie within again, so each is an excursion of its own. */
const OUTSIDE_EVERY = 20;
const OUTSIDE = 10.08;

export type Answered = {
  accepted: number;
  duplicates: number;
  alarms: { id: number }[];
  isRepeated: boolean;
};

/**
 * Posts one piece and does not give up before it is answered: the same request with the same idempotency key, as
 * a machine does whose line was cut.
 */
export async function postPiece(
  address: string,
  { secret, n, takenAt }: { secret: string; n: number; takenAt: number },
): Promise<{ answer: Answered; ms: number; tries: number }> {
  const outside = n % OUTSIDE_EVERY === OUTSIDE_EVERY - 1 ? Math.floor(n / OUTSIDE_EVERY) % FEATURES : -1;
  const body = JSON.stringify({
    piece: `piece-${n}`,
    taken_at: new Date(takenAt).toISOString(),
    part: PART,
    measurements: Array.from({ length: FEATURES }, (_, feature) => ({
      feature: `feature ${feature}`,
      value: feature === outside ? OUTSIDE : steadyValue(n, feature),
      unit: "mm",
    })),
  });
  const headers = {
    authorization: `Bearer ${secret}`,
    "content-type": "application/json",
    "idempotency-key": `piece-${n}`,
  };
  for (let tries = 1; ; tries++) {
    const begun = performance.now();
    const answer = await fetch(`${address}/api/v1/measurements`, { method: "POST", headers, body }).catch(
      () => null,
    );
    if (answer?.ok) {
      // A server that is killed while it answers leaves half an answer; the request is then sent again.
      const json = (await answer.json().catch(() => null)) as Omit<Answered, "isRepeated"> | null;
      const isRepeated = answer.headers.get("x-steadyrest-repeated") !== null;
      if (json) return { answer: { ...json, isRepeated }, ms: performance.now() - begun, tries };
    } else if (answer && answer.status < 500) {
      throw new Error(`Piece ${n} was answered with ${answer.status}: ${await answer.text()}`);
    }
    await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
  }
}
