import { z } from "zod";
import { DECIMAL_MARKS, GROUPINGS } from "../../../lib/format/marks";
import { LENGTH_DISPLAYS } from "../../../lib/units/length";
import { LANGUAGES } from "../../../lib/words/language";

/** How the plant wants its pages. */
export const PLANT_FORM = z.object({
  lengths: z.enum(LENGTH_DISPLAYS),
  decimal: z.enum(DECIMAL_MARKS),
  grouping: z.enum(GROUPINGS),
  language: z.enum(LANGUAGES),
});

export type PlantChoices = z.infer<typeof PLANT_FORM>;
