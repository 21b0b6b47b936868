import {
  type ConformityZones,
  conformityZones,
  countVerdicts,
  type Verdict,
} from "../../../lib/capability/conformity";
import { type GaugeAwareIndices, gaugeAwareIndices } from "../../../lib/capability/gauge-aware";
import { gaugeBasis } from "../../../lib/capability/gauge-basis";
import { type PlannedIndex, piecesByBound, piecesToShow } from "../../../lib/capability/planning";
import { judgedTolerance } from "../../../lib/capability/tolerance";
import type { KnownUnit, Tolerance } from "../../../lib/plan/feature-plan";
import { indexAsked } from "../../../lib/plan/index-asked";
import { inShownUnit, type LengthDisplay } from "../../../lib/units/length";
import type { Words } from "../../../lib/words/words";
import type { Asked } from "../asked";
import type { Studied } from "../studied";

export type Plan = {
  name: "Cpk" | "Ppk";
  index: number;
  target: number;
  /** Null when no number will do, since the present value is not above the target. */
  pieces: number | null;
  /** Which bound was turned round; null for a simulated one. */
  judgedBy: PlannedIndex | null;
  degreesOfFreedomPerPiece: number | null;
};

export type Further = {
  plan: Plan | null;
  /** `basis` says in a sentence how the deviation is known. */
  gauge: { sigma: number; basis: string; aware: GaugeAwareIndices | null } | null;
  conformity: {
    uncertainty: number;
    isTyped: boolean;
    zones: ConformityZones;
    counts: Record<Verdict, number>;
  } | null;
};

/** Expanded uncertainty is twice the standard one: the factor for about 95 %, as in the GUM (from memory). */
export const COVERAGE = 2;

/** What can be asked of a study beyond its indices. */
export function furtherOf(
  { history, result, gauge: known }: Studied,
  asked: Asked,
  words: Words["claims"],
): Further {
  const { plan } = history.feature;
  const tolerance = judgedTolerance("furtherOf", plan);
  // A stated permissible error bounds a gauge and gives no spread that could be taken off.
  const studiedSigma = known?.sigma ?? null;
  const sigma = asked.gauge ?? studiedSigma;
  const uncertainty = asked.uncertainty ?? (sigma === null ? null : COVERAGE * sigma);
  const { study, values } = result;
  const hasLimit = tolerance.lower !== null || tolerance.upper !== null;

  const zones =
    uncertainty !== null && hasLimit && values.length > 0
      ? conformityZones({ tolerance, uncertainty })
      : null;
  const summary =
    sigma !== null && study.mean !== null && study.sdOverall !== null && study.problem === null
      ? gaugeAwareIndices(
          { ...study, mean: study.mean, sdOverall: study.sdOverall, ...plan },
          { gaugeSigma: sigma },
        )
      : null;
  return {
    plan: planOf(result, {
      target: asked.target ?? indexAsked(history.feature),
      isOneSided: tolerance.lower === null || tolerance.upper === null,
    }),
    gauge:
      sigma === null
        ? null
        : {
            sigma,
            basis: asked.gauge !== null ? words.basis.typed : known ? gaugeBasis(known, words) : "",
            aware: summary?.ok ? summary.value : null,
          },
    conformity:
      zones === null || uncertainty === null
        ? null
        : {
            uncertainty,
            isTyped: asked.uncertainty !== null,
            zones,
            counts: countVerdicts(values, zones),
          },
  };
}

/** The same for a reader: lengths in the unit shown, numbers of pieces and indices as they are. */
export function furtherShown(further: Further, own: KnownUnit, display: LengthDisplay): Further {
  const { length } = inShownUnit(own, display);
  const zoneShown = ({ lower, upper }: Tolerance) => ({ lower: length(lower), upper: length(upper) });
  const { gauge, conformity } = further;
  return {
    ...further,
    gauge: gauge && {
      ...gauge,
      sigma: length(gauge.sigma),
      aware: gauge.aware && {
        ...gauge.aware,
        sdProcess: length(gauge.aware.sdProcess),
        sigmaWithinProcess: length(gauge.aware.sigmaWithinProcess),
      },
    },
    conformity: conformity && {
      ...conformity,
      uncertainty: length(conformity.uncertainty),
      zones: {
        conformance: conformity.zones.conformance && zoneShown(conformity.zones.conformance),
        nonConformance: zoneShown(conformity.zones.nonConformance),
      },
    },
  };
}

function planOf(
  { study, limits }: Studied["result"],
  { target, isOneSided }: { target: number; isOneSided: boolean },
): Plan | null {
  const { Cpk, Ppk, lowerBounds, count, confidence } = study;
  if (study.modelStudy !== null) {
    if (Ppk === null || lowerBounds.Ppk === null) return null;
    const pieces = piecesByBound({ index: Ppk, lowerBound: lowerBounds.Ppk, count, target });
    return { name: "Ppk", index: Ppk, target, pieces, judgedBy: null, degreesOfFreedomPerPiece: null };
  }
  const judgedBy = isOneSided ? "one-sided" : "Ppk";
  if (Cpk !== null && limits.ok) {
    const degreesOfFreedomPerPiece = Math.min(1, limits.value.degreesOfFreedom / count);
    const pieces = piecesToShow({ index: Cpk, target, confidence, judgedBy, degreesOfFreedomPerPiece });
    return { name: "Cpk", index: Cpk, target, pieces, judgedBy, degreesOfFreedomPerPiece };
  }
  if (Ppk === null) return null;
  const pieces = piecesToShow({ index: Ppk, target, confidence, judgedBy });
  return { name: "Ppk", index: Ppk, target, pieces, judgedBy, degreesOfFreedomPerPiece: null };
}
