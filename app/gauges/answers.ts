import type { GaugeFaults, GaugeFields } from "./gauge-entry";

/** What the form of a gauge's record shows after it was sent. `attempt` counts, so that fields show what was typed. */
export type GaugeAnswer = {
  done: boolean;
  message: string;
  faults: GaugeFaults;
  fields: GaugeFields;
  attempt: number;
};

export type WithdrawAnswer = { done: boolean; message: string };
