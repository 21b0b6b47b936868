import type { ModelChoice } from "../capability/models/model";
import type { PlainModelStudy } from "../capability/models/model-study";
import type { CapabilityStudy } from "../capability/study";
import type { EstimatedLimits } from "../limits/estimate-limits";
import type { Exclusion, FeatureKind, FeaturePlan, KnownUnit, LimitsVersion } from "../plan/feature-plan";

/*
 * A capability statement as it is signed: every figure that it states and everything that they follow from. Plain data,
 * so that it can be kept, sent and compared to the last digit.
 */

/** Raise it when the shape changes; older statements keep theirs. */
export const STATEMENT_FORMAT = 1;

/** A study without the functions of its distribution. */
export type PlainStudy = Omit<CapabilityStudy, "modelStudy"> & { modelStudy: PlainModelStudy | null };

/** Of today, or as it was signed: what a page shows of either. */
export type ShownStudy = CapabilityStudy | PlainStudy;

export type StatedLimits = LimitsVersion & { reason: string; frozenAt: number; by: string | null };
export type StatedExclusion = Exclusion & { createdAt: number; by: string | null };

/** A gauge by its code, with how many of the readings it took. */
export type GaugeUsed = { code: string; count: number };

/** What was measured, for a first-article or sample submission; null without a reading. */
export type Listing = {
  count: number;
  min: number;
  mean: number;
  max: number;
  /** Readings inside and outside the limits of the drawing; one on a limit is inside. */
  inside: number;
  outside: number;
  gauges: GaugeUsed[];
};

export type StatedFeature = {
  featureId: number;
  name: string;
  kind: FeatureKind;
  unit: KnownUnit;
  nominal: number | null;
  resolution: number | null;
  keyCharacteristic: boolean;
  plan: FeaturePlan;
  /** The model that was asked for; the one that was taken is in the study. */
  model: ModelChoice;
  /** Share of the tolerance that the gauge takes, and in a sentence how it is known. */
  gaugeShare: number | null;
  gaugeBasis: string | null;
  /** Spans of alarms that a person had closed. */
  answered: { from: number; to: number }[];
  limits: StatedLimits[];
  exclusions: StatedExclusion[];
  study: PlainStudy;
  /** Centre and sigma within subgroups of the window itself; null where they cannot be estimated. */
  within: EstimatedLimits | null;
  subgroups: number;
  pieces: number;
  lots: number | null;
  unresolvedSignals: number;
  excludedReadings: number;
  firstAt: number | null;
  lastAt: number | null;
  listing: Listing | null;
};

export type StatementContent = {
  format: typeof STATEMENT_FORMAT;
  software: string;
  title: string;
  plant: { name: string; zone: string };
  part: { number: string; revision: string; name: string };
  window: { words: string; from: number | null; to: number | null; lots: string[] | null };
  confidence: number;
  frozenAt: number;
  signedBy: string;
  features: StatedFeature[];
};

/** The readings behind one feature, in the order of time. */
export type StatedReadings = {
  featureId: number;
  takenAt: number[];
  /** As charted, and as measured where those differ (reduced to 20 °C); null where they do not. */
  value: number[];
  measured: number[] | null;
  /** Empty where not stated. */
  lot: string[];
  piece: string[];
  gauge: string[];
};
