import { counted, fixed, measured, percent, withUnit } from "../format/numbers";
import type { SourceKind } from "../measurements/series";
import type { FeatureStep } from "./find-step";
import type { Change, SourceChange } from "./recent-change";

export type WordedFeature = {
  id: number;
  name: string;
  unit: string;
  resolution: number | null;
  /** Width of the tolerance in the unit; null where it has only one side. */
  width: number | null;
};

/** Codes and names behind the ids of a change. */
export type ChangeNames = {
  source: (id: number) => string;
  lot: (id: number) => string;
  feature: (id: number) => WordedFeature;
};

/** "+1.8 sigma". */
export function sigmaWords(value: number): string {
  return `${fixed(value, 1, { signed: true })}\u00a0sigma`;
}

/** A difference in the unit of its feature, one decimal finer than its gauge: "+0.0106 mm". */
export function differenceWords(value: number, { unit, resolution }: WordedFeature): string {
  return withUnit(measured(value, { resolution, extra: 1, signed: true }), unit);
}

/**
 * What has moved, in one sentence: how it lies now, how much that is on the feature it matters most to, since
 * when, and how many features agree.
 */
export function movedWords(source: number, change: Change, names: ChangeNames): string {
  const example = mostOfTolerance(change, names);
  const { name, width } = names.feature(example.feature);
  const share = width === null ? "" : `, ${percent(Math.abs(example.now) / width)} of tolerance`;
  const now = `${sigmaWords(change.now)} (${differenceWords(example.now, names.feature(example.feature))} on ${name}${share})`;
  const amount = fixed(Math.abs(change.difference), 1);
  const error = fixed(change.standardError, 1);
  const way = change.direction > 0 ? "higher" : "lower";
  const others = change.features.filter(({ moved }) => moved).length - change.agree;
  const against = others > 0 ? `, ${others} moved the other way` : "";
  return (
    `${names.source(source)} now lies ${now} from the others in the same lots, ${amount} ± ${error} sigma ${way} ` +
    `than before lot ${names.lot(change.since)}; ${change.agree} of ${counted(change.features.length, "feature")} ${change.agree === 1 ? "agrees" : "agree"}${against}.`
  );
}

/** The feature whose change takes the largest share of its tolerance, or is largest in sigma where none has one. */
export function mostOfTolerance(change: Change, names: ChangeNames): FeatureStep {
  const agreeing = change.features.filter(
    ({ moved, difference }) => moved && Math.sign(difference) === change.direction,
  );
  const shareOf = ({ feature, difference, differenceInSigma }: FeatureStep) => {
    const { width } = names.feature(feature);
    return width === null ? Math.abs(differenceInSigma) * 1e-6 : Math.abs(difference) / width;
  };
  return agreeing.reduce((most, one) => (shareOf(one) > shareOf(most) ? one : most), agreeing[0]!);
}

/** Why a source is not named, and what a change would have had to be. */
export function unmovedWords(
  one: SourceChange,
  { kind, since }: { kind: SourceKind; since: string | null },
): string {
  const span = since === null ? "" : ` since ${since}`;
  switch (one.state) {
    case "moved":
      return "";
    case "alone":
      return `Alone in ${one.lots === 1 ? "its only lot" : `all ${one.lots} of its lots`}${span}, so it and the lots cannot be told apart. ${COMPARABLE[kind]}`;
    case "too-few":
      return `Compared in ${one.lotsCompared} of at least ${counted(one.needed, "lot")}${span}: too few to tell. More lots with another ${kind} beside it bring it in.`;
    case "quiet": {
      const compared = `No change in ${counted(one.lotsCompared, "compared lot")}${span}.`;
      if (one.reach === null) return compared;
      const { lots, sigma } = one.reach;
      const who = kind === "tool" || one.features === 1 ? "A feature that shifts" : "Two features that shift";
      return `${compared} ${who} by about ${fixed(sigma, 1)} sigma would be named within ${counted(lots, "lot")}.`;
    }
  }
}

/** What would bring a source of this kind into comparison. */
export const COMPARABLE: Record<SourceKind, string> = {
  fixture: "Run some pieces of a lot in another fixture to compare them.",
  tool: "Cut part of a lot with another tool for the same features to compare them.",
  machine: "Run part of a lot on another machine to compare them.",
  gauge: "Measure five pieces of a lot with another gauge as well to compare them.",
  operator: "Let a second operator run part of a lot to compare them.",
  setup: "Measure a lot before and after a new setup to compare them.",
};

/** Names of what explains a change as well, and how to tell. */
export function rivalWords(rivals: readonly string[], kind: SourceKind): string {
  return `${rivals.join(" and ")} may have moved the other way instead: nothing else ran in these lots. ${COMPARABLE[kind].replace("another", "a third")}`;
}
