import type { FeatureFields, FieldFaults } from "./feature-entry";
import type { PartFields } from "./part-entry";

/** What a form of the control plan shows after it was sent. `attempt` counts, so that fields show what was typed. */
export type FeatureAnswer = {
  done: boolean;
  message: string;
  faults: FieldFaults;
  fields: FeatureFields;
  attempt: number;
};

export type PartAnswer = {
  done: boolean;
  message: string;
  faults: Partial<Record<keyof PartFields, string>>;
  fields: PartFields;
  attempt: number;
};
