import type { EntryAnswer } from "../fittings/entry";
import type { GaugeFields } from "./gauge-entry";

export type GaugeAnswer = EntryAnswer<GaugeFields>;

export type WithdrawAnswer = { done: boolean; message: string };
