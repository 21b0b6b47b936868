import { freezeStatement } from "../db/commands/statements";
import type { Database } from "../db/connection";
import { listFeatures } from "../db/queries/features";

const DAY_MS = 86_400_000;

/** Features of the gearbox housing that the invented customer asked for besides the key characteristics. */
const ALSO_ASKED = ["Idler bore diameter", "Dowel hole position"];

/**
 * The statement that quality signed for H-210 on the Thursday before the story begins: some features can be presented
 * as capability, others only as performance, with the reason.
 */
export async function signStatement(
  database: Database,
  { accountId, at }: { accountId: number | null; at: number },
): Promise<void> {
  const features = (await listFeatures(database)).filter(
    ({ part, name, keyCharacteristic }) =>
      part.number === "H-210" && (keyCharacteristic || ALSO_ASKED.includes(name)),
  );
  const partId = features[0]?.partId;
  if (partId === undefined) return;
  const saved = await freezeStatement(
    database,
    {
      partId,
      title: "Gearbox housings for the autumn order, drawing H-210 revision C",
      windowWords: "last 90 days",
      from: at - 90 * DAY_MS,
      to: at,
      lots: null,
      confidence: 0.95,
      features: features.map(({ id }) => ({ id, model: "normal" })),
      supersedes: null,
    },
    { actor: { accountId, at } },
  );
  if (!saved.ok) throw new Error(saved.message);
}
