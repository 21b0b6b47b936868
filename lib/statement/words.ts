import { gateOutcome, presentable } from "../capability/gate-outcome";
import { unbroken } from "../format/figures";
import { fixed, fixedAtLeast, measured, percent, toleranceWords } from "../format/numbers";
import { shownFeature } from "../format/shown-feature";
import { ENGLISH, type Words } from "../words/words";
import type { StatedFeature, StatementContent } from "./content";
import { saidIn } from "./said-in";

/** What the forms of a statement say in a language. */
export type StatementWords = Pick<Words, "claims" | "statements" | "figures" | "charts">;

/** How a statement's index is quoted: the one that its claim speaks of. */
export type QuotedIndex = { name: "Cpk" | "Ppk"; value: number; atLeast: number | null };

/** Cpk where capability is presented by the normal model, else Ppk; null without an index. */
export function quotedIndex({ study }: StatedFeature): QuotedIndex | null {
  const name = presentable(study) === "capability" && study.modelStudy === null ? "Cpk" : "Ppk";
  const value = study[name];
  return value === null ? null : { name, value, atLeast: study.lowerBounds[name] };
}

export function quotedWords(feature: StatedFeature, words: StatementWords = ENGLISH): string {
  const { sheet } = words.statements;
  const quoted = quotedIndex(feature);
  if (quoted === null) return sheet.noIndex;
  const bound = quoted.atLeast === null ? null : fixedAtLeast(quoted.atLeast, 2);
  return sheet.quoted(`${quoted.name} ${fixed(quoted.value, 2)}`, bound);
}

/** A feature of a statement in the words in which every form of it is written. */
export function statedWords(feature: StatedFeature, words: StatementWords = ENGLISH) {
  const { claims, figures, statements, charts } = words;
  const { sheet } = statements;
  const said = saidIn(feature, words);
  const { study, listing, gaugeShare, plan, unit } = feature;
  const shown = shownFeature(feature, study.sdOverall);
  const resolution = 10 ** -shown.places;
  const figure = (value: number, extra = 0) => measured(value, { resolution, extra });
  return {
    name: feature.keyCharacteristic ? statements.create.key(feature.name) : feature.name,
    tolerance: toleranceWords(plan.tolerance, { resolution: feature.resolution, unit }, figures),
    claim: unbroken(said.claim),
    /** For a file, where a per cent sign parts as it will. */
    plainClaim: said.claim,
    quoted: quotedWords(feature, words),
    standing: claims.presentable[presentable(study)],
    data: sheet.data(study.count, feature.pieces, feature.lots),
    gauge: gaugeShare === null ? sheet.notStudied : percent(gaugeShare),
    gaugeBasis: said.gaugeBasis,
    kind: charts.features[feature.kind],
    gates: said.gates.map((gate) => ({
      ...gate,
      name: claims.gates[gate.gate],
      word: gateOutcome(gate, claims).word,
    })),
    isWhole: said.isWhole,
    listing: listing && {
      count: listing.count,
      min: figure(listing.min),
      mean: figure(listing.mean, 1),
      max: figure(listing.max),
      result: listing.outside === 0 ? sheet.allIn : sheet.out(listing.outside),
      gauges: gaugeWords(
        listing.gauges.map(({ code }) => code),
        words,
      ),
    },
    shown,
  };
}

/** Codes of the gauges used; a few are named, of more their number is. */
export function gaugeWords(
  codes: readonly string[],
  { statements: { sheet } }: StatementWords = ENGLISH,
): string {
  const named = codes.filter((code) => code !== "");
  const unnamed = named.length < codes.length ? [sheet.someNotStated] : [];
  if (named.length === 0) return sheet.notStated;
  return [...(named.length > 3 ? [sheet.gauges(named.length)] : named), ...unnamed].join(", ");
}

/** Exclusions that lie in the window of a feature. */
export function exclusionsInWindow(
  { exclusions }: Pick<StatedFeature, "exclusions">,
  { from, to }: StatementContent["window"],
): StatedFeature["exclusions"] {
  return exclusions.filter((each) => (from === null || each.to >= from) && (to === null || each.from <= to));
}

/** How the readings were taken, in a sentence. */
export function samplePlanWords(
  { plan, subgroups, study, lots }: StatedFeature,
  { statements: { sheet } }: StatementWords = ENGLISH,
): string {
  const size = plan.chart === "i-mr" || plan.subgroupSize === 1 ? null : plan.subgroupSize;
  return sheet.plan(study.count, size, subgroups, lots);
}
