import { picked } from "../measurements/order";
import { formLots } from "./lots";
import type { MeasuredPart } from "./measured-part";

/**
 * A part with only the measurements that the scan looks at, those of its last lots, so that a long history need not
 * be kept; what the scan finds is the same. `lots` names them in time. Where no measurement names a lot all are kept,
 * for the runs of pieces that stand for lots are cut from the whole history.
 */
export function withLastLots(
  part: MeasuredPart,
  { windowLots, lotCode }: { windowLots: number; lotCode: (id: number) => string },
): { part: MeasuredPart; lots: string[] } {
  const window = formLots(part, { codeOf: (_kind, id) => lotCode(id), windowLots });
  if (window.byTime !== null) return { part, lots: window.codes };
  const features = part.features.map((feature) => {
    const { series } = feature;
    const kept: number[] = [];
    // Lots come in runs.
    let isIn = false;
    for (let i = 0; i < series.count; i++) {
      if (i === 0 || series.lot[i] !== series.lot[i - 1]) isIn = window.indexOf(series.lot[i]!) >= 0;
      if (isIn) kept.push(i);
    }
    return kept.length === series.count ? feature : { ...feature, series: picked(series, kept) };
  });
  return { part: { ...part, features }, lots: window.codes };
}
