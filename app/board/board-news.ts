import type { News } from "../../db/queries/news";

/** The news that a board shows. */
export const BOARD_NEWS: readonly News["kind"][] = ["alarm", "intake", "feature", "drift"];

/** Fifty boards on a busy line: measurements alone move a strip by one tick, and that can wait a little. */
export const BOARD_CALM_MS = 20_000;
