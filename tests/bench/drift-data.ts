import { once } from "node:events";
import { createWriteStream } from "node:fs";
import type { CodeOf, MeasuredPart } from "../../lib/drift/measured-part";
import { emptySeries } from "../../lib/measurements/series";
import { Random } from "../drift/random";

/** Parts of a made-up plant with their measurements, and the names behind the ids. */
export type Plant = { parts: MeasuredPart[]; codeOf: CodeOf; lots: number; rows: number };

const PARTS = 4;
const FEATURES_OF_A_PART = 75;
const LOTS = 60;
const FIXTURES = 6;
const TOOLS = 20;
const GAUGES = 3;
const OPERATORS = 4;
const EDGE_PIECES = 60;
const START = Date.UTC(2026, 0, 5, 6);
const MINUTE = 60_000;
const QUARTER = 15 * MINUTE;

/** The fixture that is knocked, and which features it moves by one sigma. */
const KNOCKED = 2;
const EVERY = 3;

type PlantOptions = {
  seed: number;
  /** How many of the 60 lots have been measured. */
  lots: number;
  featuresOfAPart?: number;
  /** Nothing but scatter, a piece an hour: few alarms, as in a plant that people look after. */
  isCalm?: boolean;
};

/**
 * 300 features on four parts, 60 lots each, six fixtures in turn within every lot, twenty tools with numbered edges,
 * three gauges, four operators; lots and fixtures differ, and one fixture is knocked in the middle: the same for a
 * seed.
 */
export function plantOf(
  rows: number,
  { seed, lots, featuresOfAPart = FEATURES_OF_A_PART, isCalm = false }: PlantOptions,
): Plant {
  const perLot = Math.max(FIXTURES, Math.round(rows / (PARTS * featuresOfAPart * LOTS)));
  const pieces = perLot * LOTS;
  const parts = Array.from({ length: PARTS }, (_, p) => {
    const features = Array.from({ length: featuresOfAPart }, (_, j) => {
      const own = new Random(seed + 1000 * (p + 1) + j);
      const lotEffects = Array.from({ length: LOTS }, () => own.normal(0, isCalm ? 0 : 0.35));
      const fixtures = Array.from({ length: FIXTURES }, () => own.normal(0, isCalm ? 0 : 0.3));
      const shift = j % EVERY === 0 && !isCalm ? own.sign() : 0;
      const sigma = 0.005;
      const count = perLot * lots;
      const series = emptySeries(count);
      const tool = (5 * p + (j % (TOOLS / PARTS))) * 1000;
      for (let i = 0; i < pieces; i++) {
        const lot = Math.floor(i / perLot);
        const fixture = i % FIXTURES;
        const z =
          own.normal() +
          lotEffects[lot]! +
          fixtures[fixture]! +
          (fixture === KNOCKED && lot >= LOTS / 2 ? shift : 0);
        if (i >= count) continue;
        series.value[i] = Math.round((10 + j + sigma * z) * 1000) / 1000;
        series.takenAt[i] = START + (i * PARTS + p) * (isCalm ? QUARTER : MINUTE);
        series.partTemp[i] = 20 + ((i * 7) % 11) / 10;
        series.piece[i] = i + 1;
        series.lot[i] = lot + 1;
        series.fixture[i] = fixture + 1;
        series.tool[i] = tool + Math.floor(i / EDGE_PIECES) + 1;
        series.machine[i] = p + 1;
        series.gauge[i] = (i % GAUGES) + 1;
        series.operator[i] = (Math.floor(i / 40) % OPERATORS) + 1;
      }
      return {
        name: `F${String(j + 1).padStart(3, "0")}`,
        kind: "size" as const,
        nominal: 10 + j,
        lower: 10 + j - 0.03,
        upper: 10 + j + 0.03,
        unit: "mm",
        resolution: 0.001,
        series,
      };
    });
    return { part: `P-${p + 1}`, features };
  });
  return { parts, codeOf, lots, rows: PARTS * featuresOfAPart * perLot * lots };
}

const PREFIX = { lot: "L-", fixture: "FX-", machine: "M-", gauge: "G-", operator: "OP-", setup: "S-" };

export const codeOf: CodeOf = (kind, id) =>
  kind === "tool" ? `T-${Math.floor((id - 1) / 1000) + 1}/${((id - 1) % 1000) + 1}` : `${PREFIX[kind]}${id}`;

/** The same as a tidy file, rows in time order as a plant would write them; of `holds` only those lots of parts. */
export async function writeCsv(
  { parts }: Plant,
  path: string,
  holds: (part: number, lot: number) => boolean = () => true,
): Promise<void> {
  const out = createWriteStream(path);
  out.write(
    "piece,taken_at,part,feature,nominal,lower_tolerance,upper_tolerance,unit,value,lot,fixture,tool,machine,gauge,operator,part_temp_c\n",
  );
  const pieces = parts[0]!.features[0]!.series.count;
  for (let i = 0; i < pieces; i++) {
    let text = "";
    for (const [p, { part, features }] of parts.entries()) {
      if (!holds(p + 1, features[0]!.series.lot[i]!)) continue;
      for (const { name, nominal, lower, upper, unit, series } of features) {
        const code = (kind: Parameters<CodeOf>[0]) => codeOf(kind, series[kind][i]!);
        const at = new Date(series.takenAt[i]!).toISOString().replace(".000", "");
        text += `S${p + 1}${String(i + 1).padStart(6, "0")},${at},${part},${name},${nominal},${lower!.toFixed(3)},${upper!.toFixed(3)},${unit},${series.value[i]!.toFixed(3)},${p + 1}${code("lot")},${code("fixture")},${code("tool")},${code("machine")},${code("gauge")},${code("operator")},${series.partTemp[i]!.toFixed(1)}\n`;
      }
    }
    if (text !== "" && !out.write(text)) await once(out, "drain");
  }
  out.end();
  await once(out, "finish");
}
