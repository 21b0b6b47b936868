import type { CodeOf, MeasuredPart } from "../../lib/drift/measured-part";
import { emptySeries } from "../../lib/measurements/series";
import { type FaultEffect, type Planted, plant } from "./faults";
import { type Fault, LAYOUTS, type LayoutName } from "./layouts";
import { Random } from "./random";
import { openShop, type Shop, type ShopPiece } from "./shop";

export type Scenario = {
  seed: number;
  layout: LayoutName;
  faults: Fault[];
  severity: number;
  parts: MeasuredPart[];
  codeOf: CodeOf;
  planted: Planted[];
  lots: string[];
  shop: Shop;
};

export type ScenarioChoice = {
  seed: number;
  layout: LayoutName;
  /** None, one, or two at once. */
  faults: readonly Fault[];
  severity: number;
  onsetShare?: number | null;
  /** States the locating direction of each feature, as a fixture drawing would. */
  geometry?: boolean;
  /** How many lots the shop runs, instead of as many as its layout says. */
  lots?: number;
};

/**
 * A shop's measurements with a planted fault, the same for a seed on every machine.
 *
 * What is there without any fault: lots differ by 0.2 to 0.6 sigma, 40 % of it in common, lot means correlate by
 * 0 to 0.35 and pieces by 0 to 0.3; fixtures, gauges and operators have always been different; edges wear up to
 * 0.22 sigma and are set with 0.06 sigma of scatter; some values are missing, some are blunders of 4 to 9 sigma.
 */
export function scenario({
  seed,
  layout,
  faults,
  severity,
  onsetShare = null,
  geometry = false,
  lots = LAYOUTS[layout].lots,
}: ScenarioChoice): Scenario {
  // The shop is the same for every fault and severity of a seed.
  const shop = openShop(new Random(seed), { ...LAYOUTS[layout], lots });
  const effects = faults.map((fault, i) =>
    plant(new Random(seed ^ (0x51ed27 + i)), shop, { fault, severity, onsetShare }),
  );
  const noise = new Random(seed ^ 0x2c1b3c6d);
  return {
    seed,
    layout,
    faults: [...faults],
    severity,
    ...measure(noise, shop, { effects, geometry }),
    planted: effects.flatMap(({ planted }) => (planted === null ? [] : [planted])),
    lots: shop.lots,
    shop,
  };
}

function measure(
  random: Random,
  shop: Shop,
  { effects, geometry }: { effects: readonly FaultEffect[]; geometry: boolean },
): Pick<Scenario, "parts" | "codeOf"> {
  const everyday = everydayDifferences(random, shop);
  const tools = new Map<string, number>();
  const codes = { tool: [""] };
  const toolId = (code: string) => {
    const known = tools.get(code);
    if (known !== undefined) return known;
    tools.set(code, codes.tool.push(code) - 1);
    return codes.tool.length - 1;
  };
  const parts = shop.parts.map((part, p) => {
    const pieces = shop.pieces.filter((piece) => piece.part === p);
    const ordinary = ordinaryScatter(random, shop, p, pieces, everyday);
    const features = part.features.map((feature, j) => {
      const values = pieces.map((piece, i) => {
        const shift = effects.reduce((sum, effect) => sum + effect.shift(piece, p, j), 0);
        const blunder =
          random.uniform() < everyday.blunders ? random.sign() * random.uniform(4, 9) * feature.sigma : 0;
        const value = feature.nominal + feature.bias + ordinary(i, j) + shift + blunder;
        return random.uniform() < everyday.missing ? null : Math.round(value / feature.step) * feature.step;
      });
      const kept = pieces.flatMap((piece, i) =>
        values[i] === null ? [] : [{ piece, i, value: values[i]! }],
      );
      const series = emptySeries(kept.length);
      for (const [k, { piece, i, value }] of kept.entries()) {
        series.takenAt[k] = piece.takenAt;
        series.value[k] = Number(value.toFixed(3));
        series.partTemp[k] = Math.round(piece.temperature * 10) / 10;
        series.piece[k] = i + 1;
        series.lot[k] = piece.lot + 1;
        series.fixture[k] = p * shop.layout.fixtures + piece.fixture + 1;
        series.tool[k] = toolId(`${shop.tools[feature.tool]}/${piece.edge[feature.tool]}`);
        series.machine[k] = 1;
        series.gauge[k] = (shop.gaugeUse === "fixed" ? 2 * feature.gaugeGroup : piece.gauge) + 1;
        series.operator[k] = piece.operator + 1;
      }
      const half = feature.tolerance / 2;
      return {
        name: feature.name,
        kind: feature.kind,
        nominal: feature.nominal,
        lower: feature.nominal - half,
        upper: feature.nominal + half,
        unit: "mm",
        resolution: feature.step,
        ...(geometry && {
          locators: [0, 1, 2].map((d) => (d === feature.direction ? feature.sign * feature.sigma : 0)),
        }),
        series,
      };
    });
    return { part: part.name, features };
  });
  const names = {
    lot: shop.lots,
    fixture: shop.parts.flatMap(({ fixtures }) => fixtures),
    machine: ["M-1"],
    gauge: shop.gauges,
    operator: shop.operators,
    setup: [] as string[],
  };
  const codeOf: CodeOf = (kind, id) => (kind === "tool" ? codes.tool[id]! : names[kind][id - 1]!);
  return { parts, codeOf };
}

type Everyday = {
  pieceMemory: number;
  lotMemory: number;
  lots: number;
  cells: number;
  blunders: number;
  missing: number;
  wear: number[];
  setting: number[][];
};

function everydayDifferences(random: Random, shop: Shop): Everyday {
  return {
    pieceMemory: random.pick([0, 0.15, 0.3]),
    lotMemory: random.pick([0, 0.2, 0.35]),
    lots: random.uniform(0.2, 0.6),
    cells: random.uniform(0, 0.15),
    blunders: random.pick([0, 0.002, 0.005]),
    missing: random.pick([0, 0.01, 0.04]),
    wear: shop.tools.map(() => random.uniform(0, 0.22) * random.sign()),
    setting: shop.tools.map((_, t) =>
      Array.from({ length: shop.pieces.at(-1)!.edge[t]! + 1 }, () => random.normal(0, 0.06)),
    ),
  };
}

/** Everything that makes two pieces differ on an ordinary day, in mm, by piece and feature. */
function ordinaryScatter(
  random: Random,
  shop: Shop,
  p: number,
  pieces: readonly ShopPiece[],
  everyday: Everyday,
): (piece: number, feature: number) => number {
  const part = shop.parts[p]!;
  const lots = [...new Set(pieces.map(({ lot }) => lot))];
  const lotPlace = new Map(lots.map((lot, place) => [lot, place]));
  const directions = [0, 1, 2].map(() => random.chain(pieces.length, everyday.pieceMemory));
  const common = random.chain(lots.length, everyday.lotMemory);
  const setUps = lots.map(() => part.fixtures.map(() => [random.normal(), random.normal(), random.normal()]));
  const gaugeOffsets = [0, 1].map(
    () => random.normal(0, 0.12) * median(part.features.map(({ sigma }) => sigma)),
  );
  const columns = part.features.map((feature) => {
    const own = random.chain(pieces.length, everyday.pieceMemory);
    const ownLots = random.chain(lots.length, everyday.lotMemory);
    const lotSize = everyday.lots * random.uniform(0.6, 1.4) * feature.sigma;
    const cells = lots.map(() => part.fixtures.map(() => random.normal()));
    const fixtures = part.fixtures.map(() => random.normal(0, 0.3) * feature.sigma);
    const operators = shop.operators.map(() => random.normal(0, 0.08) * feature.sigma);
    const { sign, direction, tool, sigma } = feature;
    return Float64Array.from(pieces, (piece, i) => {
      const lot = lotPlace.get(piece.lot)!;
      const scatter =
        feature.process *
          (Math.sqrt(part.commonShare) * sign * directions[direction]![i]! +
            Math.sqrt(1 - part.commonShare) * own[i]!) +
        feature.gauge * random.normal();
      const lotEffect =
        lotSize * (Math.sqrt(0.4) * common[lot]! * feature.lotLoad + Math.sqrt(0.6) * ownLots[lot]!);
      const setUp = 0.7 * cells[lot]![piece.fixture]! + 0.7 * setUps[lot]![piece.fixture]![direction]! * sign;
      return (
        scatter +
        lotEffect +
        everyday.cells * sigma * setUp +
        fixtures[piece.fixture]! +
        operators[piece.operator]! +
        gaugeOffsets[piece.gauge]! +
        sigma * everyday.wear[tool]! * (piece.age[tool]! - 0.5) +
        sigma * everyday.setting[tool]![piece.edge[tool]!]!
      );
    });
  });
  return (piece, feature) => columns[feature]![piece]!;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
