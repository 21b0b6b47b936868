import type { EntryAnswer } from "../fittings/entry";
import type { FeatureFields } from "./feature-entry";
import type { PartFields } from "./part-entry";

export type FeatureAnswer = EntryAnswer<FeatureFields>;
export type PartAnswer = EntryAnswer<PartFields>;
