import { createGauge, enterStudy, type GaugeEntry, saveGauge } from "../../db/commands/gauges";
import type { Database } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { listGauges } from "../../db/queries/gauges";
import { calendarDay } from "../../lib/format/times";
import { gaugedWidth } from "../../lib/measurement-systems/gauge-share";
import type { StudyData } from "../../lib/measurement-systems/study-data";
import { randomStream } from "../../lib/random/random-stream";
import { GAUGE } from "../truth";
import { type Calendar, DEFAULT_ENDS_AT, PLANT_ZONE } from "./calendar";
import type { PartNumber } from "./feature";
import { FEATURES, type GAUGES } from "./plant";

type GaugeCode = (typeof GAUGES)[number];
const DAY_MS = 86_400_000;
const dayFromEnd = (days: number) => calendarDay(DEFAULT_ENDS_AT + days * DAY_MS, PLANT_ZONE);

/** What stands in the shop's gauge records. The arm is overdue, the bench is due soon. */
function records(calendar: Calendar): Record<GaugeCode, GaugeEntry> {
  return {
    "GA-1": {
      what: "coordinate measuring machine, scanning head",
      resolution: 0.0001,
      errorA: 1.7,
      errorK: 300,
      portable: false,
      calibratedOn: dayFromEnd(-190),
      calibrationDue: dayFromEnd(175),
      note: "In the measuring room beside the lines, 20 ± 1 °C.",
    },
    "GA-2": {
      what: "bench station with master ring",
      resolution: 0.0005,
      errorA: 2,
      errorK: null,
      portable: false,
      calibratedOn: calendarDay(calendar.at(GAUGE.from), PLANT_ZONE),
      calibrationDue: dayFromEnd(12),
      note: "Set with the master ring at the start of each shift.",
    },
    "GA-3": {
      what: "portable measuring arm, seven axes",
      resolution: 0.001,
      errorA: 12,
      errorK: 40,
      portable: true,
      calibratedOn: dayFromEnd(-369),
      calibrationDue: dayFromEnd(-4),
      note: "Set up anew every Monday; each week is a setup of its own.",
    },
  };
}

type Planned = {
  gauge: GaugeCode;
  part: PartNumber;
  feature: string;
  week: number;
  trials: number;
  /** Standard deviations in mm: of repeating, between operators, and of operators on single parts. */
  repeatability: number;
  operator: number;
  interaction: number;
  note: string;
};

/** One crossed study a gauge: ten parts, three operators. That of GA-2 ends as conditional. */
export const CROSSED_STUDIES: readonly Planned[] = [
  {
    gauge: "GA-1",
    part: "H-210",
    feature: "Input bore diameter",
    week: 4,
    trials: 2,
    repeatability: 0.0003,
    operator: 0.0001,
    interaction: 0,
    note: "Program and clamping as in production, parts from five lots.",
  },
  {
    gauge: "GA-2",
    part: "BB-40",
    feature: "Bearing bore diameter",
    week: 9,
    trials: 3,
    repeatability: 0.0007,
    operator: 0.0005,
    interaction: 0.0002,
    note: "After the value of the master ring was corrected. Operators differ in how they seat the bracket.",
  },
  {
    gauge: "GA-3",
    part: "H-320",
    feature: "Mounting hole position",
    week: 6,
    trials: 3,
    repeatability: 0.0024,
    operator: 0.0012,
    interaction: 0.0005,
    note: "All within one setup.",
  },
];

/** The arm on one housing in six setups, four readings each, in mm. */
export const SETUP_STUDY = {
  gauge: "GA-3",
  setups: 6,
  readings: 4,
  setup: 0.004,
  repeatability: 0.0024,
} as const;

const OPERATORS = ["OP-1", "OP-2", "OP-3"];
const PARTS = 10;

/** Readings of a planned study; the same seed gives the same. */
export function crossedReadings(planned: Planned, seed: number): Extract<StudyData, { kind: "crossed" }> {
  const feature = FEATURES.find((one) => one.part === planned.part && one.name === planned.feature)!;
  const stream = randomStream(seed, `study of ${planned.gauge}`);
  const { mean, sigma } = feature.process;
  const step = feature.gauge === "GA-1" ? 0.0001 : feature.resolution;
  const operators = OPERATORS.map((name) => ({ name, offset: planned.operator * stream.normal() }));
  const readings = Array.from({ length: PARTS }, (_, part) => {
    // Parts were picked across the range, not as they came: evenly over four sigma, a little uneven.
    const size = mean + sigma * (-2 + (4 * (part + 0.5)) / PARTS + 0.2 * stream.normal());
    return operators.flatMap(({ name, offset }) => {
      const own = planned.interaction * stream.normal();
      return Array.from({ length: planned.trials }, () => ({
        part: String(part + 1),
        operator: name,
        value: stepped(size + offset + own + planned.repeatability * stream.normal(), step),
      }));
    });
  }).flat();
  return { kind: "crossed", readings };
}

function setupReadings(seed: number): Extract<StudyData, { kind: "setup" }> {
  const stream = randomStream(seed, "setups of GA-3");
  const readings = Array.from({ length: SETUP_STUDY.setups }, (_, i) => {
    const offset = SETUP_STUDY.setup * stream.normal();
    return Array.from({ length: SETUP_STUDY.readings }, () => ({
      piece: "1",
      setup: String(i + 1),
      value: stepped(0.082 + offset + SETUP_STUDY.repeatability * stream.normal(), 0.001),
    }));
  }).flat();
  return { kind: "setup", readings };
}

function stepped(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toFixed(6));
}

/** Enters the gauges' records and their studies, as an engineer does on the page Gauges. */
export async function enterGauges(
  database: Database,
  { calendar, accountId, seed }: { calendar: Calendar; accountId: number | null; seed: number },
): Promise<void> {
  const known = new Map((await listGauges(database)).map(({ code, id }) => [code, id]));
  const ids = new Map<string, number>();
  const at = calendar.at({ week: 8, shift: 13 }, 30);
  for (const [code, entry] of Object.entries(records(calendar))) {
    const id = known.get(code);
    const actor = { accountId, at };
    const saved =
      id === undefined
        ? await createGauge(database, { code, entry, actor })
        : await saveGauge(database, { id, entry, actor });
    if (!saved.ok) throw new Error(`${code}: ${saved.message}`);
    ids.set(code, saved.id);
  }
  const features = await listFeatures(database);
  const idOf = (part: string, name: string) =>
    features.find((one) => one.part.number === part && one.name === name)!;
  for (const planned of CROSSED_STUDIES) {
    const feature = idOf(planned.part, planned.feature);
    await enter(database, {
      gaugeId: ids.get(planned.gauge)!,
      feature,
      data: crossedReadings(planned, seed),
      note: planned.note,
      at: calendar.at({ week: planned.week, shift: 1 }, 90),
      accountId,
    });
  }
  await enter(database, {
    gaugeId: ids.get(SETUP_STUDY.gauge)!,
    feature: idOf("H-320", "Mounting hole position"),
    data: setupReadings(seed),
    note: "The same housing six times, the arm taken down and aligned anew in between.",
    at: calendar.at({ week: 6, shift: 4 }, 60),
    accountId,
  });
}

async function enter(
  database: Database,
  {
    gaugeId,
    feature,
    data,
    note,
    at,
    accountId,
  }: {
    gaugeId: number;
    feature: Awaited<ReturnType<typeof listFeatures>>[number];
    data: StudyData;
    note: string;
    at: number;
    accountId: number | null;
  },
): Promise<void> {
  const resolution =
    (await listGauges(database)).find(({ id }) => id === gaugeId)?.record?.resolution ?? null;
  const saved = await enterStudy(database, {
    entry: {
      gaugeId,
      featureId: feature.id,
      unit: feature.unit,
      madeOn: calendarDay(at, PLANT_ZONE),
      note,
      data,
      settings: { toleranceWidth: gaugedWidth(feature.plan), resolution, confidence: 0.95 },
    },
    actor: { accountId, at },
  });
  if (!saved.ok) throw new Error(saved.message);
}
