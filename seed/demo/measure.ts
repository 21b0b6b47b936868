import { type RandomStream, randomStream } from "../../lib/random/random-stream";
import { BLUNDERS, BORING_BAR, CASTING, GAUGE, HEAT, LOCATOR, STANDING_OFFSET } from "../truth";
import { type Calendar, calendarUntil, DEFAULT_ENDS_AT, SHIFTS_A_WEEK, WEEKS } from "./calendar";
import type { DemoFeature } from "./feature";
import { type DemoLot, demoLots, type LineName, PIECES_A_BLOCK, PIECES_A_LOT } from "./lots";
import { FEATURES, GAUGES, PARTS, setupOfWeek } from "./plant";
import { type DemoTool, edgeOf, TOOLS } from "./tools";

export type DemoOptions = { seed?: number; endsAt?: number };

export const DEFAULT_SEED = 214;

/** One measurement as the tidy file states it; `takenAt` is UTC ms, limits are absolute, null is an empty cell. */
export type TidyRow = {
  piece: string;
  takenAt: number;
  part: string;
  feature: string;
  nominal: number | null;
  lower: number | null;
  upper: number | null;
  unit: string;
  value: number;
  /** Step of the display: the value is a multiple of it. */
  resolution: number;
  lot: string;
  fixture: string;
  tool: string;
  machine: string;
  gauge: string;
  operator: string;
  partTemp: number;
  subgroup: string;
  setup: string | null;
  length: number | null;
  expansion: number | null;
  line: LineName;
  week: number;
  shift: number;
};

/** Lot-to-lot scatter, setting scatter at a new edge, differences of operators and setups, in sigma of the feature. */
const LOT_SCATTER = 0.1;
const SETTING_SCATTER = 0.08;
const OPERATOR_SCATTER = 0.06;
const SETUP_SCATTER = 0.1;
/** Usual wear of an edge over its life, in sigma. */
const USUAL_WEAR = 0.18;

/** Readings lost to a full disk or a dropped probe, except in the lots that first limits rest on. */
const LOST_SHARE = 0.002;
const LOTS_WITHOUT_LOSS = 26;

const USUAL_TEMPERATURE = 20.4;
const INCH = 25.4;

/**
 * Every measurement of the thirteen weeks, in time order; those of one piece follow in seconds.
 * About 77,000 rows. The same seed and end give the same rows.
 */
export function* demoRows({
  seed = DEFAULT_SEED,
  endsAt = DEFAULT_ENDS_AT,
}: DemoOptions = {}): Generator<TidyRow> {
  const calendar = calendarUntil(endsAt);
  const shop = openShop(seed);
  const lots = demoLots();
  let next = 0;

  for (let shift = 0; shift < WEEKS * SHIFTS_A_WEEK; shift++) {
    const rows: TidyRow[] = [];
    for (
      let lot = lots[next];
      lot && lot.slot.week * SHIFTS_A_WEEK + lot.slot.shift === shift;
      lot = lots[next]
    ) {
      rows.push(...lotRows(lot, shop, calendar));
      next++;
    }
    yield* rows.sort((a, b) => a.takenAt - b.takenAt);
  }
}

/** What the shop remembers from piece to piece, with a random stream for each thing that varies. */
type Shop = {
  temperature: RandomStream;
  features: Map<DemoFeature, FeatureState>;
  /** A fixed deviation in sigma that belongs to the named thing. */
  habit(name: string): number;
};

type FeatureState = { pieces: RandomStream; lots: RandomStream; losses: RandomStream; carried: number };

function openShop(seed: number): Shop {
  const habits = new Map<string, number>();
  return {
    temperature: randomStream(seed, "temperature"),
    features: new Map(
      FEATURES.map((feature) => {
        const name = `${feature.part} ${feature.name}`;
        return [
          feature,
          {
            pieces: randomStream(seed, `${name} pieces`),
            lots: randomStream(seed, `${name} lots`),
            losses: randomStream(seed, `${name} losses`),
            carried: 0,
          },
        ];
      }),
    ),
    habit(name) {
      const known = habits.get(name) ?? randomStream(seed, name).normal();
      habits.set(name, known);
      return known;
    },
  };
}

function lotRows(lot: DemoLot, shop: Shop, calendar: Calendar): TidyRow[] {
  const features = FEATURES.filter((feature) => feature.part === lot.part);
  const lotTemperature = 0.2 * shop.temperature.normal();
  const lotDeviations = features.map((feature) => LOT_SCATTER * stateOf(shop, feature).lots.normal());
  const rows: TidyRow[] = [];

  for (let piece = 0; piece < PIECES_A_LOT; piece++) {
    const minutes = lot.startsAfter + piece * lot.every;
    const temperature =
      USUAL_TEMPERATURE +
      lotTemperature +
      0.12 * shop.temperature.normal() +
      heatAt(calendar.plantHours(lot.slot, minutes));

    features.forEach((feature, i) => {
      const subject = { lot, piece, feature, temperature, lotDeviation: lotDeviations[i] ?? 0 };
      const value = measuredValue(subject, shop);
      if (value === null || !isMeasured(feature, piece)) return;
      rows.push(tidyRow(subject, value, calendar.at(lot.slot, minutes + (i * 12) / 60)));
    });
  }
  return rows;
}

type Subject = {
  lot: DemoLot;
  piece: number;
  feature: DemoFeature;
  temperature: number;
  lotDeviation: number;
};

/** Features charted one by one are measured on the first piece of each fixture only. */
function isMeasured({ plan }: DemoFeature, piece: number): boolean {
  return plan.subgroupSize > 1 || piece % PIECES_A_BLOCK === 0;
}

function tidyRow({ lot, piece, feature, temperature }: Subject, value: number, takenAt: number): TidyRow {
  const { plan } = feature;
  const wholeLot = plan.subgroupSize === PIECES_A_LOT;
  return {
    piece: `${lot.code.slice(2)}-${String(piece + 1).padStart(2, "0")}`,
    takenAt,
    part: feature.part,
    feature: feature.name,
    nominal: feature.nominal,
    lower: plan.tolerance.lower,
    upper: plan.tolerance.upper,
    unit: feature.unit,
    value,
    resolution: feature.resolution,
    lot: lot.code,
    fixture: fixtureOf(lot, piece),
    tool: feature.tool,
    machine: lot.machine,
    gauge: feature.gauge,
    operator: lot.operator,
    partTemp: Number(temperature.toFixed(1)),
    subgroup: wholeLot || piece < PIECES_A_BLOCK ? "1" : "2",
    setup: feature.gauge === GAUGES[2] ? setupOfWeek(lot.slot.week) : null,
    length: plan.reduction?.length ?? null,
    expansion: plan.reduction?.expansion ?? null,
    line: lot.line,
    week: lot.slot.week,
    shift: lot.slot.shift,
  };
}

/** The reading on the gauge's display, or null when it was lost. Every random number is drawn either way. */
function measuredValue(subject: Subject, shop: Shop): number | null {
  const { lot, feature } = subject;
  const { process, resolution } = feature;
  const lost = stateOf(shop, feature).losses.uniform() < LOST_SHARE;

  const usual = naturalValue(subject, shop) + process.sigma * usualDeviations(subject, shop);
  const planted = plantedShift(subject) / (feature.unit === "in" ? INCH : 1);
  const value = usual + planted;
  const shown = Math.round(Math.max(value, feature.plan.naturalBound ?? value) / resolution) * resolution;

  if (lost && lot.index >= LOTS_WITHOUT_LOSS && !isWeekendLot(lot)) return null;
  return Number(shown.toFixed(6));
}

/** What the piece would be if nothing but its own scatter acted. */
function naturalValue({ feature }: Subject, shop: Shop): number {
  const { mean, sigma, shape, carry } = feature.process;
  const state = stateOf(shop, feature);
  const first = state.pieces.normal();
  const second = state.pieces.normal();

  if (shape === "offset") return 2 * Math.hypot(mean / 2 + (sigma / 2) * first, (sigma / 2) * second);
  if (shape === "skewed") return mean * Math.exp((sigma / mean) * first);
  state.carried = carry * state.carried + Math.sqrt(1 - carry * carry) * first;
  return mean + sigma * state.carried;
}

/** Small everyday differences between lots, edges, operators and setups, in sigma. */
function usualDeviations({ lot, piece, feature, lotDeviation }: Subject, shop: Shop): number {
  const name = `${feature.part} ${feature.name}`;
  const tool = toolOf(feature);
  const { edge, age } = edgeOf(tool, lot, piece);
  const wears = tool.code === BORING_BAR.tool && isOneOf(BORING_BAR.bores, feature.name) ? 0 : USUAL_WEAR;
  const direction = shop.habit(`${name} wears`) < 0 ? -1 : 1;
  const setup =
    feature.gauge === GAUGES[2] ? SETUP_SCATTER * shop.habit(`${name} ${lot.slot.week} setup`) : 0;

  return (
    lotDeviation +
    SETTING_SCATTER * shop.habit(`${name} edge ${edge}`) +
    direction * wears * (age - 0.5) +
    OPERATOR_SCATTER * shop.habit(`${name} ${lot.operator}`) +
    setup
  );
}

/** Everything the truth names, in mm (deg and in features only grow with temperature or by their gauge). */
function plantedShift(subject: Subject): number {
  return (
    locatorShift(subject) +
    boringBarShift(subject) +
    gaugeShift(subject) +
    castingShift(subject) +
    expansion(subject) +
    standingOffset(subject) +
    blunder(subject)
  );
}

function locatorShift({ lot, piece, feature }: Subject): number {
  if (lot.part !== LOCATOR.part || fixtureOf(lot, piece) !== LOCATOR.fixture) return 0;
  if (lot.index < LOCATOR.firstLot || !isOneOf(LOCATOR.moved, feature.name)) return 0;
  return LOCATOR.step + LOCATOR.perLot * (lot.index - LOCATOR.firstLot);
}

/** Edges are set so that the bore is at its mean halfway through the wear that the setter is used to. */
function boringBarShift({ lot, piece, feature }: Subject): number {
  if (feature.tool !== BORING_BAR.tool || !isOneOf(BORING_BAR.bores, feature.name)) return 0;
  const { age } = edgeOf(toolOf(feature), lot, piece);
  const wear = lot.index < BORING_BAR.firstLot ? BORING_BAR.wearBefore : BORING_BAR.wearAfter;
  return BORING_BAR.wearBefore / 2 - wear * age;
}

function gaugeShift({ lot, feature }: Subject): number {
  if (feature.gauge !== GAUGE.gauge) return 0;
  const at = shiftNumber(lot.slot);
  return at >= shiftNumber(GAUGE.from) && at < shiftNumber(GAUGE.until) ? GAUGE.shift : 0;
}

function castingShift({ lot, feature }: Subject): number {
  if (lot.part !== CASTING.part || lot.index !== CASTING.lot) return 0;
  return CASTING.shifts[feature.name] ?? 0;
}

/** Growth of a size from 20 °C to the part's temperature, over its whole nominal length (ISO 1). */
function expansion({ feature, temperature }: Subject): number {
  if (feature.kind !== "size" || feature.nominal === null) return 0;
  const material = PARTS.find((part) => part.number === feature.part);
  const length = feature.nominal * (feature.unit === "in" ? INCH : 1);
  return length * (material?.expansion ?? 0) * (temperature - 20);
}

function standingOffset({ lot, piece, feature }: Subject): number {
  if (lot.part !== STANDING_OFFSET.part || fixtureOf(lot, piece) !== STANDING_OFFSET.fixture) return 0;
  return STANDING_OFFSET.shifts[feature.name] ?? 0;
}

function blunder({ lot, piece, feature }: Subject): number {
  const found = BLUNDERS.find(
    (b) => b.part === lot.part && b.lot === lot.index && b.piece === piece + 1 && b.feature === feature.name,
  );
  return found?.shift ?? 0;
}

/** Kelvin above the usual temperature. */
function heatAt(plantHours: number): number {
  const hour = plantHours - HEAT.week * 168;
  for (let i = 1; i < HEAT.course.length; i++) {
    const from = HEAT.course[i - 1]!;
    const to = HEAT.course[i]!;
    if (hour < from.hour || hour > to.hour) continue;
    return from.kelvin + ((to.kelvin - from.kelvin) * (hour - from.hour)) / (to.hour - from.hour);
  }
  return 0;
}

function fixtureOf(lot: DemoLot, piece: number): string {
  return lot.fixtures[piece < PIECES_A_BLOCK ? 0 : 1];
}

function stateOf(shop: Shop, feature: DemoFeature): FeatureState {
  return shop.features.get(feature)!;
}

function toolOf(feature: DemoFeature): DemoTool {
  return TOOLS.find((tool) => tool.code === feature.tool)!;
}

function shiftNumber({ week, shift }: { week: number; shift: number }): number {
  return week * SHIFTS_A_WEEK + shift;
}

function isOneOf(names: readonly string[], name: string): boolean {
  return names.includes(name);
}

/** Friday and Saturday of the last week: the files that a newcomer drops on Intake. */
export function isWeekend({ week, shift }: { week: number; shift: number }): boolean {
  return week === WEEKS - 1 && shift >= 12;
}

function isWeekendLot(lot: DemoLot): boolean {
  return isWeekend(lot.slot);
}
