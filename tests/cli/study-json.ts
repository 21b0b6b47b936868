/** The documents of study and capability; tests compare their keys, so that this cannot drift from them. */
export type CapabilityJson = {
  count: number;
  mean: number | null;
  sdOverall: number | null;
  sigmaWithin: number | null;
  estimator: string | null;
  intervals: Record<string, [number, number] | null>;
  lowerBounds: Record<string, number | null>;
  expectedOutside: { below: number | null; above: number | null };
  observedOutside: { below: number | null; above: number | null };
  normality: { A2: number; p: number } | null;
  model: string;
  gates: { gate: string; passed: boolean | null; reason: string }[];
} & Record<IndexName, number | null>;

export const INDICES = ["Cp", "Cpk", "Cpl", "Cpu", "Pp", "Ppk", "Ppl", "Ppu", "Cpm"] as const;
export type IndexName = (typeof INDICES)[number];

export const CAPABILITY_KEYS = [
  "count",
  "mean",
  "sdOverall",
  "sigmaWithin",
  "estimator",
  ...INDICES,
  "intervals",
  "lowerBounds",
  "expectedOutside",
  "observedOutside",
  "normality",
  "model",
  "gates",
];

type Pair = { lower: number; upper: number };

export type SignalJson = { chart: "location" | "spread"; rule: string; at: number; members: number[] };

export type StudyJson = {
  features: {
    part: string;
    feature: string;
    count: number;
    chart: string;
    subgroups: number;
    limits: {
      centre: number;
      sigma: number;
      estimator: string;
      location: Pair;
      spread: (Pair & { centre: number }) | null;
      /** Only where subgroups differ in size. */
      bySize?: { size: number; location: Pair; spread: (Pair & { centre: number }) | null }[];
    } | null;
    signals: SignalJson[];
    capability: CapabilityJson;
  }[];
};
