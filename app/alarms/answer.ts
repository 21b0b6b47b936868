/** What the forms of an alarm show after they were sent. */
export type AlarmAnswer = {
  done: boolean;
  message: string;
  /** What others did meanwhile, one line each; empty unless that is why nothing was saved. */
  since: string[];
  /** The last event of the alarm, for the next attempt. */
  seen: number;
  attempt: number;
};

export const NO_ANSWER: AlarmAnswer = { done: false, message: "", since: [], seen: 0, attempt: 0 };

/** The value of the list of causes that stands for one written anew. */
export const ANOTHER_CAUSE = "another cause";
