import { picked } from "../measurements/order";
import { SOURCE_KINDS, type SourceKind } from "../measurements/series";
import type { CodeOf, MeasuredFeature, MeasuredPart, ScannedSource } from "./measured-part";
import { readToolCode } from "./tool-code";

/** What a source did between its change and the event that answered it; times as UTC milliseconds, `to` not included. */
export type SetAside = { source: ScannedSource; from: number; to: number };

/**
 * A part without what sources did while they were off and before somebody put them right.
 *
 * Those measurements are explained, and nobody asks about them any more. Left in, they would make the neighbours in
 * the same lots look as if these had moved the other way.
 */
export function withoutSetAside(
  part: MeasuredPart,
  { spans, codeOf }: { spans: readonly SetAside[]; codeOf: CodeOf },
): MeasuredPart {
  const known = spans.flatMap((span) => {
    const kind = SOURCE_KINDS.find((one) => one === span.source.kind);
    return kind === undefined ? [] : [{ ...span, kind, code: span.source.id }];
  });
  if (known.length === 0) return part;
  const isOf = (kind: SourceKind, code: string, id: number) => {
    const own = codeOf(kind, id);
    return (kind === "tool" ? readToolCode(own).position : own) === code;
  };
  return {
    ...part,
    features: part.features.map((feature): MeasuredFeature => {
      const { series } = feature;
      const kept: number[] = [];
      for (let i = 0; i < series.count; i++) {
        const at = series.takenAt[i]!;
        const isAside = known.some(
          ({ kind, code, from, to }) => at >= from && at < to && isOf(kind, code, series[kind][i]!),
        );
        if (!isAside) kept.push(i);
      }
      return kept.length === series.count ? feature : { ...feature, series: picked(series, kept) };
    }),
  };
}
