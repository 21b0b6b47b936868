import { reactions } from "../words/en/reactions";

/** The reaction plan of whoever has not written one, as it is stored with what people do; pages say it in their language. */
export const DEFAULT_REACTIONS = reactions;

/** Good subgroups in a row that show that an action worked. Common practice, no source. */
export const DEFAULT_VERIFY_SUBGROUPS = 5;
