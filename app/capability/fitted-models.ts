import "server-only";
import { createHash } from "node:crypto";
import {
  type ModelStudy,
  type ModelStudyInput,
  type PlainModelStudy,
  revivedModelStudy,
} from "../../lib/capability/models/model-study";
import type { Computed } from "../../lib/computed";
import { askWorker } from "../jobs/ask-worker";

/** The same readings give the same study, so the latest are kept: a page is opened again more often than not. */
const KEPT = 64;
const WITHIN_MS = 60_000;

type Holder = { steadyrestFits?: Map<string, Promise<Computed<PlainModelStudy>>> };
const holder = globalThis as Holder;

/** A model's study, made in a thread of its own: fit and bootstrap take up to a second. */
export async function fittedModel(input: ModelStudyInput): Promise<Computed<ModelStudy>> {
  holder.steadyrestFits ??= new Map();
  const fits = holder.steadyrestFits;
  const key = keyOf(input);
  let fit = fits.get(key);
  if (!fit) {
    fit = askWorker(
      { kind: "fit", input: { ...input, values: Float64Array.from(input.values) } },
      { databasePath: "", withinMs: WITHIN_MS },
    ).then(({ study }) => study);
    fits.set(key, fit);
    fit.catch(() => fits.delete(key));
    const oldest = fits.keys().next().value;
    if (fits.size > KEPT && oldest !== undefined) fits.delete(oldest);
  }
  const study = await fit;
  return study.ok ? { ok: true, value: revivedModelStudy(study.value) } : study;
}

function keyOf({ values, ...rest }: ModelStudyInput): string {
  return createHash("sha256")
    .update(new Uint8Array(Float64Array.from(values).buffer))
    .update(JSON.stringify(rest))
    .digest("hex");
}
