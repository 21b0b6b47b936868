import type { Layout } from "./layouts";
import type { Random } from "./random";

/** A feature of an invented part; lengths in mm. */
export type ShopFeature = {
  name: string;
  kind: "size" | "position";
  nominal: number;
  tolerance: number;
  /** Scatter of the process, of the gauge, and of both. */
  process: number;
  gauge: number;
  sigma: number;
  step: number;
  tool: number;
  /** Which of three directions locates it, and with which sign. */
  direction: number;
  sign: number;
  /** How strongly it follows what a lot's features have in common. */
  lotLoad: number;
  gaugeGroup: number;
  bias: number;
};

export type ShopPart = { name: string; fixtures: string[]; features: ShopFeature[]; commonShare: number };

/** One measured piece and everything that touched it; indexes into the shop's sources. */
export type ShopPiece = {
  part: number;
  lot: number;
  fixture: number;
  operator: number;
  gauge: number;
  takenAt: number;
  /** By tool: share of the edge's life used up, and number of the edge. */
  age: number[];
  edge: number[];
  temperature: number;
};

export type Shop = {
  layout: Layout;
  parts: ShopPart[];
  lots: string[];
  operators: string[];
  gauges: string[];
  tools: string[];
  gaugeUse: "rotated" | "fixed" | "pinned";
  pieces: ShopPiece[];
};

const TOLERANCES = { size: [0.02, 0.03, 0.05, 0.08, 0.12, 0.2], position: [0.05, 0.1, 0.15, 0.3] } as const;
const HOUR = 3_600_000;
const MINUTE = 60_000;
/** The shop measures every fourth piece; edges wear on the others too. */
const PIECES_PER_MEASURED = 4;
const DAY_ONE = Date.UTC(2031, 2, 3, 6);

/** Parts, sources and the pieces in time, before anything goes wrong. */
export function openShop(random: Random, layout: Layout): Shop {
  const shop: Shop = {
    layout,
    parts: Array.from({ length: layout.parts }, (_, p) => newPart(random, layout, p)),
    lots: Array.from(
      { length: layout.lots },
      (_, l) => `L-${String(3 * l + 101 + random.index(3)).padStart(4, "0")}`,
    ),
    operators: ["OP-A", "OP-B", "OP-C", "OP-D"].slice(0, random.whole(2, 4)),
    gauges: ["GA-1", "GA-2", "GA-3"],
    tools: Array.from({ length: layout.tools }, (_, t) => `T-${201 + t}`),
    gaugeUse: layout.pinned ? "pinned" : random.uniform() < 0.6 ? "rotated" : "fixed",
    pieces: [],
  };
  run(random, shop);
  return shop;
}

function newPart(random: Random, layout: Layout, p: number): ShopPart {
  const loads = Array.from({ length: layout.features }, () => random.normal());
  const norm = Math.sqrt(loads.reduce((sum, load) => sum + load * load, 0) / loads.length);
  const features = loads.map((load, j): ShopFeature => {
    const kind = random.uniform() < 0.65 ? "size" : "position";
    const tolerance = random.pick(TOLERANCES[kind]);
    const process = tolerance / (6 * random.uniform(1, 2.2));
    const gauge = (random.uniform(0.05, 0.3) * tolerance) / 6;
    const sigma = Math.hypot(process, gauge);
    return {
      name: `${kind === "size" ? "dia" : "pos"} ${String(j + 1).padStart(3, "0")}`,
      kind,
      nominal:
        Math.round(
          10 *
            (kind === "size"
              ? Math.exp(random.uniform(Math.log(8), Math.log(420)))
              : random.uniform(-150, 150)),
        ) / 10,
      tolerance,
      process,
      gauge,
      sigma,
      step: tolerance >= 0.2 ? 0.01 : 0.001,
      tool: j < layout.tools ? j : random.index(layout.tools),
      direction: random.index(3),
      sign: random.sign(),
      lotLoad: load / norm,
      gaugeGroup: random.index(2),
      bias: random.normal(0, 0.5) * sigma,
    };
  });
  return {
    name: `B-${p + 1}00`,
    fixtures: Array.from({ length: layout.fixtures }, (_, f) => `FX-${1 + f + p * layout.fixtures}`),
    features,
    commonShare: random.uniform(0.05, 0.35),
  };
}

function run(random: Random, shop: Shop): void {
  const { layout } = shop;
  const life = shop.tools.map(() => random.whole(40, 129));
  const used = life.map((length) => random.index(length));
  const edge = life.map(() => 1);
  const warmth = random.chain(layout.lots, 0.5);
  let clock = DAY_ONE;
  for (let lot = 0; lot < layout.lots; lot++) {
    const part =
      layout.parts === 1 ? 0 : lot < 2 * layout.parts ? lot % layout.parts : random.index(layout.parts);
    const held =
      layout.inLot === "all"
        ? random.some(layout.fixtures, layout.fixtures).sort()
        : random.some(layout.fixtures, layout.inLot === "one" ? 1 : random.whole(1, layout.fixtures));
    clock += random.uniform(5, 20) * HOUR;
    let operator = random.index(shop.operators.length);
    const count = random.whole(layout.pieces[0], layout.pieces[1]);
    for (let i = 0; i < count; i++) {
      clock += random.uniform(9, 16) * MINUTE;
      if (random.uniform() < 0.12) operator = random.index(shop.operators.length);
      const fixture = random.uniform() < 0.9 ? held[i % held.length]! : random.pick(held);
      for (let t = 0; t < life.length; t++) {
        used[t]! += PIECES_PER_MEASURED;
        if (used[t]! <= life[t]!) continue;
        used[t] = random.index(PIECES_PER_MEASURED);
        edge[t]!++;
      }
      shop.pieces.push({
        part,
        lot,
        fixture,
        operator,
        gauge: gaugeFor(random, shop, fixture),
        takenAt: Math.round(clock / 1000) * 1000,
        age: used.map((pieces, t) => pieces / life[t]!),
        edge: [...edge],
        temperature: 20 + 1.3 * warmth[lot]! + random.normal(0, 0.4),
      });
    }
  }
}

function gaugeFor(random: Random, { gaugeUse, layout }: Shop, fixture: number): number {
  if (gaugeUse === "rotated") return random.index(2);
  if (gaugeUse === "fixed") return 0;
  return fixture === layout.fixtures - 1 ? 1 : 0;
}
