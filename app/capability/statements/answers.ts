import type { Recomputed } from "../../../lib/statement/compare";

export type SignAnswer = { done: boolean; message: string; title: string };
export type RecomputeAnswer = { done: boolean; message: string; features: Recomputed[] };
/** The link is shown once: only its digest is kept. */
export type ShareAnswer = { done: boolean; message: string; link: string | null; recipient: string };
export type RevokeAnswer = { done: boolean; message: string };
