/** What a form of the engineer's panel shows after it was sent; `attempt` counts, so that typed text stays. */
export type FreezeAnswer = {
  done: boolean;
  message: string;
  fields: { reason: string; effective: string; effectiveNumber: string };
  attempt: number;
};

export type LeaveOutAnswer = {
  done: boolean;
  message: string;
  fields: { cause: string; detail: string };
  attempt: number;
};

export type TakeBackAnswer = { done: boolean; message: string };

/** From when new limits judge. */
export const EFFECTIVE = ["everything", "after-baseline", "from-number"] as const;
export type Effective = (typeof EFFECTIVE)[number];
