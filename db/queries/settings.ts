import { type DecimalMark, type Grouping, isDecimalMark, isGrouping } from "../../lib/format/marks";
import { isLengthDisplay, type LengthDisplay } from "../../lib/units/length";
import { isLanguage, type Language } from "../../lib/words/language";
import { connectionOf, type Database, once } from "../connection";

export type Shift = { name: string; starts: string; ends: string };

export type PlantSettings = {
  name: string;
  /** IANA name of the time zone in which times are shown and shifts are counted. */
  zone: string;
  shifts: Shift[];
  /** In which pages speak to whoever chose none. */
  language: Language;
  /** In which unit pages show lengths. Stored values, files and statements keep the feature's own. */
  lengths: LengthDisplay;
  /** With which marks pages write figures. */
  decimal: DecimalMark;
  grouping: Grouping;
  /** The demo's accounts may sign in; set when the demo was loaded into an empty database. */
  demo: boolean;
  /** The demo's clock stands still at the moment its story has reached; null lets the real one run. */
  clock: number | null;
};

const DEFAULTS: PlantSettings = {
  name: "Steadyrest",
  zone: "UTC",
  shifts: [
    { name: "early", starts: "06:00", ends: "14:00" },
    { name: "late", starts: "14:00", ends: "22:00" },
    { name: "night", starts: "22:00", ends: "06:00" },
  ],
  language: "en",
  lengths: "plan",
  decimal: "language",
  grouping: "language",
  demo: false,
  clock: null,
};

const allQuery = once(({ sqlite }) => sqlite.prepare("select key, value from setting").raw());

/** The plant's settings, with defaults for what was never set. */
export async function plantSettings(database: Database): Promise<PlantSettings> {
  const stored = new Map(allQuery(connectionOf(database)).all() as [string, string][]);
  const shifts = stored.get("shifts");
  const [language, lengths] = [stored.get("language"), stored.get("lengths")];
  const [decimal, grouping] = [stored.get("decimal"), stored.get("grouping")];
  return {
    name: stored.get("name") ?? DEFAULTS.name,
    zone: stored.get("zone") ?? DEFAULTS.zone,
    shifts: shifts ? (JSON.parse(shifts) as Shift[]) : DEFAULTS.shifts,
    language: isLanguage(language) ? language : DEFAULTS.language,
    lengths: isLengthDisplay(lengths) ? lengths : DEFAULTS.lengths,
    decimal: isDecimalMark(decimal) ? decimal : DEFAULTS.decimal,
    grouping: isGrouping(grouping) ? grouping : DEFAULTS.grouping,
    demo: stored.get("demo") === "1",
    clock: stored.has("clock") ? Number(stored.get("clock")) : null,
  };
}
