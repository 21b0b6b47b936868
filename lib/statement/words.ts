import { gateOutcome, presentable } from "../capability/gate-outcome";
import { unbroken } from "../format/figures";
import { counted, fixed, fixedAtLeast, measured, percent, toleranceWords } from "../format/numbers";
import { shownFeature } from "../format/shown-feature";
import type { StatedFeature, StatementContent } from "./content";

/** How a statement's index is quoted: the one that its claim speaks of. */
export type QuotedIndex = { name: "Cpk" | "Ppk"; value: number; atLeast: number | null };

/** Cpk where capability is presented by the normal model, else Ppk; null without an index. */
export function quotedIndex({ study }: StatedFeature): QuotedIndex | null {
  const name = presentable(study) === "capability" && study.modelStudy === null ? "Cpk" : "Ppk";
  const value = study[name];
  return value === null ? null : { name, value, atLeast: study.lowerBounds[name] };
}

export function quotedWords(feature: StatedFeature): string {
  const quoted = quotedIndex(feature);
  if (quoted === null) return "no index";
  const bound = quoted.atLeast === null ? "" : `, at least ${fixedAtLeast(quoted.atLeast, 2)}`;
  return `${quoted.name} ${fixed(quoted.value, 2)}${bound}`;
}

/** A feature of a statement in the words in which every form of it is written. */
export function statedWords(feature: StatedFeature) {
  const { study, listing, gaugeShare, plan, unit } = feature;
  const shown = shownFeature(feature, study.sdOverall);
  const resolution = 10 ** -shown.places;
  const figure = (value: number, extra = 0) => measured(value, { resolution, extra });
  return {
    name: feature.keyCharacteristic ? `${feature.name} (key)` : feature.name,
    tolerance: toleranceWords(plan.tolerance, { resolution: feature.resolution, unit }),
    claim: unbroken(study.claim),
    quoted: quotedWords(feature),
    standing: STANDING[presentable(study)],
    data: `${counted(study.count, "reading")}, ${counted(feature.pieces, "piece")}, ${
      feature.lots === null ? "lots not stated" : counted(feature.lots, "lot")
    }`,
    gauge: gaugeShare === null ? "not studied" : percent(gaugeShare),
    gates: study.gates.map((gate) => ({ ...gate, word: gateOutcome(gate).word })),
    listing: listing && {
      count: listing.count,
      min: figure(listing.min),
      mean: figure(listing.mean, 1),
      max: figure(listing.max),
      result: listing.outside === 0 ? "all in" : `${listing.outside} out`,
      gauges: gaugeWords(listing.gauges.map(({ code }) => code)),
    },
    shown,
  };
}

const STANDING = {
  capability: "Presentable as capability",
  performance: "Performance only",
  none: "No index",
} as const;

/** Codes of the gauges used; a few are named, of more their number is. */
export function gaugeWords(codes: readonly string[]): string {
  const named = codes.filter((code) => code !== "");
  const unnamed = named.length < codes.length ? ["some not stated"] : [];
  if (named.length === 0) return "not stated";
  return [...(named.length > 3 ? [`${named.length} gauges`] : named), ...unnamed].join(", ");
}

/** Exclusions that lie in the window of a feature. */
export function exclusionsInWindow(
  { exclusions }: Pick<StatedFeature, "exclusions">,
  { from, to }: StatementContent["window"],
): StatedFeature["exclusions"] {
  return exclusions.filter((each) => (from === null || each.to >= from) && (to === null || each.from <= to));
}

/** How the readings were taken, in a sentence. */
export function samplePlanWords({ plan, subgroups, study, lots }: StatedFeature): string {
  const taken =
    plan.chart === "i-mr" || plan.subgroupSize === 1
      ? "single readings in the order of time"
      : `subgroups of ${plan.subgroupSize} taken together`;
  return `${counted(study.count, "reading")} as ${taken}: ${counted(subgroups, "complete subgroup")}${
    lots === null ? "" : ` from ${counted(lots, "lot")}`
  }.`;
}
