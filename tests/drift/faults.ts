import type { ChangeKind, ScannedSource } from "../../lib/drift/measured-part";
import type { Fault } from "./layouts";
import type { Random } from "./random";
import type { Shop, ShopPart, ShopPiece } from "./shop";

/** What was planted: which source, how, from which lot, and what else ran on the very same pieces. */
export type Planted = {
  source: ScannedSource;
  kind: ChangeKind;
  onsetLot: number;
  features: string[];
  aliases: ScannedSource[];
};

/** Shift of a feature on a piece, in mm, and whether the fault touches the piece at all. */
export type FaultEffect = {
  planted: Planted | null;
  shift: (piece: ShopPiece, part: number, feature: number) => number;
};

export const EXPANSION = 10.5e-6;
/** A drift has this many times the severity at the last lot. */
const DRIFT_REACHES = 1.5;

/**
 * Plants a fault of a severity given in short-term sigma of the feature: for gauge and tool of the median
 * feature (the same length on all it touches), for temperature the effect on a large size, for wear per life.
 */
export function plant(
  random: Random,
  shop: Shop,
  { fault, severity, onsetShare }: { fault: Fault; severity: number; onsetShare: number | null },
): FaultEffect {
  const { layout } = shop;
  const wanted = Math.round(layout.lots * (onsetShare ?? random.uniform(0.4, 0.7)));
  const onset = Math.min(Math.max(wanted, 4), layout.lots - 2);
  const part = random.index(shop.parts.length);
  switch (fault) {
    case "fixture_step":
    case "fixture_drift":
    case "fixture_spread":
      return plantFixture(random, shop, { fault, severity, onset, part });
    case "tool_wear":
    case "tool_wear_rate":
    case "tool_offset":
      return plantTool(random, shop, { fault, severity, onset });
    case "gauge_step":
    case "gauge_drift":
      return plantGauge(random, shop, { fault, severity, onset, part });
    case "operator_step":
      return plantOperator(random, shop, { severity, onset });
    case "lot_shift":
      return plantLot(random, shop, { severity, onset });
    case "temperature":
      return plantTemperature(shop, { severity, onset });
  }
}

function ramp(lot: number, onset: number, lots: number): number {
  return lot < onset ? 0 : (DRIFT_REACHES * (lot - onset + 1)) / Math.max(1, lots - onset);
}

/** First lot in which the fault touched a measured piece. */
function firstLot(shop: Shop, touches: (piece: ShopPiece) => boolean): number {
  return shop.pieces.find(touches)?.lot ?? shop.layout.lots - 1;
}

function nameOf(part: ShopPart, feature: number): string {
  return `${part.name}|${part.features[feature]!.name}`;
}

function plantFixture(
  random: Random,
  shop: Shop,
  {
    fault,
    severity,
    onset,
    part,
  }: {
    fault: "fixture_step" | "fixture_drift" | "fixture_spread";
    severity: number;
    onset: number;
    part: number;
  },
): FaultEffect {
  const { layout } = shop;
  const own = shop.parts[part]!;
  const used = own.fixtures.map((_, f) => {
    const pieces = shop.pieces.filter((piece) => piece.part === part && piece.fixture === f);
    const before = pieces.filter(({ lot }) => lot < onset).length;
    return { f, before, after: pieces.length - before };
  });
  const fit = used.filter(({ before, after }) => before >= 3 && after >= 4);
  const most = [...used].sort((a, b) => Math.min(b.before, b.after) - Math.min(a.before, a.after));
  const isAliased = shop.gaugeUse === "pinned" && fault !== "fixture_spread";
  const fixture = isAliased ? layout.fixtures - 1 : fit.length > 0 ? random.pick(fit).f : most[0]!.f;
  const direction = random.index(3);
  const side = random.sign();
  const amounts = own.features.map(
    ({ sigma, sign }) => severity * sigma * random.uniform(0.7, 1.3) * sign * side,
  );
  const moved = own.features.map((feature) => feature.direction === direction);
  if (moved.filter(Boolean).length < 3) moved.fill(true, 0, 3);
  const touches = (piece: ShopPiece) =>
    piece.part === part && piece.fixture === fixture && piece.lot >= onset;
  const draws = new Map<ShopPiece, number>();
  const weight = (piece: ShopPiece) => {
    if (!touches(piece)) return 0;
    if (fault === "fixture_step") return 1;
    if (fault === "fixture_drift") return ramp(piece.lot, onset, layout.lots);
    if (!draws.has(piece)) draws.set(piece, random.normal());
    return draws.get(piece)!;
  };
  return {
    planted: {
      source: { kind: "fixture", id: own.fixtures[fixture]! },
      kind: fault === "fixture_step" ? "step" : fault === "fixture_drift" ? "trend" : "spread",
      onsetLot: firstLot(shop, touches),
      features: own.features.flatMap((_, j) => (moved[j] ? [nameOf(own, j)] : [])),
      aliases: isAliased ? [{ kind: "gauge", id: shop.gauges[1]! }] : [],
    },
    shift: (piece, p, j) => (p === part && moved[j] ? weight(piece) * amounts[j]! : 0),
  };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

function plantTool(
  random: Random,
  shop: Shop,
  {
    fault,
    severity,
    onset,
  }: { fault: "tool_wear" | "tool_wear_rate" | "tool_offset"; severity: number; onset: number },
): FaultEffect {
  const cut = (tool: number) =>
    shop.parts.flatMap(({ features }) => features.filter((one) => one.tool === tool));
  const perPart = (tool: number) =>
    Math.max(...shop.parts.map((p) => p.features.filter((f) => f.tool === tool).length));
  const busiest = shop.tools.reduce((best, _, t) => (perPart(t) > perPart(best) ? t : best), 0);
  let tool = random.index(shop.tools.length);
  if (perPart(tool) < 3) tool = busiest;
  let edge = -1;
  if (fault === "tool_offset") {
    const change = nearestChange(random, shop, { onset, least: (t) => perPart(t) >= 3 });
    tool = change.tool;
    edge = change.edge;
  }
  const side = random.sign();
  const size = severity * median(cut(tool).map(({ sigma }) => sigma));
  const amounts = shop.parts.map(({ features }) =>
    features.map(
      ({ kind }) => size * side * (0.85 + 0.5 * random.uniform(0, 0.6)) * (kind === "size" ? 1 : 0.6),
    ),
  );
  const weight = (piece: ShopPiece) => {
    if (fault === "tool_wear") return piece.age[tool]! - 0.5;
    if (fault === "tool_wear_rate") return piece.lot >= onset ? piece.age[tool]! : 0;
    return piece.edge[tool] === edge ? 1 : 0;
  };
  return {
    planted: {
      source: { kind: "tool", id: shop.tools[tool]! },
      kind: fault === "tool_offset" ? "step" : "trend",
      onsetLot: fault === "tool_wear" ? 0 : firstLot(shop, (piece) => weight(piece) !== 0),
      features: shop.parts.flatMap((part) =>
        part.features.flatMap((feature, j) => (feature.tool === tool ? [nameOf(part, j)] : [])),
      ),
      aliases: [],
    },
    shift: (piece, p, j) => (shop.parts[p]!.features[j]!.tool === tool ? weight(piece) * amounts[p]![j]! : 0),
  };
}

/** A real tool change near the wanted lot. */
function nearestChange(
  random: Random,
  { pieces, tools, layout }: Shop,
  { onset, least }: { onset: number; least: (tool: number) => boolean },
): { tool: number; edge: number } {
  let best = { distance: Number.POSITIVE_INFINITY, tool: 0, edge: 2 };
  for (let i = 1; i < pieces.length; i++) {
    const lot = pieces[i]!.lot;
    if (lot < layout.lots * 0.3 || lot > layout.lots * 0.8) continue;
    for (let t = 0; t < tools.length; t++) {
      if (pieces[i]!.edge[t]! <= pieces[i - 1]!.edge[t]! || !least(t)) continue;
      const distance = Math.abs(lot - onset) + random.uniform(0, 2);
      if (distance < best.distance) best = { distance, tool: t, edge: pieces[i]!.edge[t]! };
    }
  }
  return best;
}

function plantGauge(
  random: Random,
  shop: Shop,
  {
    fault,
    severity,
    onset,
    part,
  }: { fault: "gauge_step" | "gauge_drift"; severity: number; onset: number; part: number },
): FaultEffect {
  const gauge = shop.gaugeUse === "pinned" ? 1 : 0;
  const side = random.sign();
  const isMeasured = (p: number, j: number) =>
    shop.gaugeUse !== "fixed" || shop.parts[p]!.features[j]!.gaugeGroup === 0;
  const touches = (piece: ShopPiece) =>
    piece.lot >= onset && (shop.gaugeUse === "fixed" || piece.gauge === gauge);
  const amounts = shop.parts.map(
    ({ features }) => severity * side * median(features.map(({ sigma }) => sigma)),
  );
  const own = shop.parts[part]!;
  return {
    planted: {
      source: { kind: "gauge", id: shop.gauges[gauge]! },
      kind: fault === "gauge_step" ? "step" : "trend",
      onsetLot: firstLot(shop, touches),
      features: shop.parts.flatMap((one, p) =>
        one.features.flatMap((_, j) => (isMeasured(p, j) ? [nameOf(one, j)] : [])),
      ),
      aliases:
        shop.gaugeUse === "pinned" ? [{ kind: "fixture", id: own.fixtures[shop.layout.fixtures - 1]! }] : [],
    },
    shift: (piece, p, j) => {
      if (!touches(piece) || !isMeasured(p, j)) return 0;
      return amounts[p]! * (fault === "gauge_step" ? 1 : ramp(piece.lot, onset, shop.layout.lots));
    },
  };
}

function plantOperator(
  random: Random,
  shop: Shop,
  { severity, onset }: { severity: number; onset: number },
): FaultEffect {
  const operator = random.index(shop.operators.length);
  const amounts = shop.parts.map(({ features }) =>
    features.map(({ sigma }) =>
      random.uniform() < 0.4 ? severity * sigma * random.uniform(0.7, 1.3) * random.sign() : 0,
    ),
  );
  const touches = (piece: ShopPiece) => piece.operator === operator && piece.lot >= onset;
  return {
    planted: {
      source: { kind: "operator", id: shop.operators[operator]! },
      kind: "step",
      onsetLot: firstLot(shop, touches),
      features: namesMoved(shop, amounts),
      aliases: [],
    },
    shift: (piece, p, j) => (touches(piece) ? amounts[p]![j]! : 0),
  };
}

function plantLot(
  random: Random,
  shop: Shop,
  { severity, onset }: { severity: number; onset: number },
): FaultEffect {
  const amounts = shop.parts.map(({ features }) =>
    features.map(({ sigma, lotLoad }) =>
      random.uniform() < 0.6 ? severity * sigma * random.uniform(0.7, 1.3) * Math.sign(lotLoad) : 0,
    ),
  );
  return {
    planted: {
      source: { kind: "lot", id: shop.lots[onset]! },
      kind: "step",
      onsetLot: onset,
      features: namesMoved(shop, amounts),
      aliases: [],
    },
    shift: (piece, p, j) => (piece.lot === onset ? amounts[p]![j]! : 0),
  };
}

function namesMoved(shop: Shop, amounts: readonly (readonly number[])[]): string[] {
  return shop.parts.flatMap((part, p) =>
    part.features.flatMap((_, j) => (amounts[p]![j] === 0 ? [] : [nameOf(part, j)])),
  );
}

/** The reduction to 20 °C stops, and the shop's swing of temperature is as wide as the severity asks. */
function plantTemperature(shop: Shop, { severity, onset }: { severity: number; onset: number }): FaultEffect {
  const effects = shop.parts
    .flatMap(({ features }) => features.filter(({ kind }) => kind === "size"))
    .map(({ nominal, sigma }) => (Math.abs(nominal) * EXPANSION) / sigma)
    .sort((a, b) => a - b);
  const upper = effects[Math.floor(0.75 * (effects.length - 1))]!;
  const swing = Math.min(6, severity / (upper * 1.3));
  for (const piece of shop.pieces) piece.temperature = 20 + (piece.temperature - 20) * swing;
  return {
    planted: {
      source: { kind: "temperature", id: "part_temp_c" },
      kind: "trend",
      onsetLot: onset,
      features: shop.parts.flatMap((part) =>
        part.features.flatMap(({ kind }, j) => (kind === "size" ? [nameOf(part, j)] : [])),
      ),
      aliases: [],
    },
    shift: (piece, p, j) => {
      const { kind, nominal } = shop.parts[p]!.features[j]!;
      return kind === "size" && piece.lot >= onset ? EXPANSION * nominal * (piece.temperature - 20) : 0;
    },
  };
}
