import { picked } from "../measurements/order";
import type { MeasurementSeries } from "../measurements/series";

/**
 * Brings the measurements of each labelled subgroup together, in the order in which the labels first appear.
 *
 * For a table that states no times and was written column by column (the first reading of every subgroup,
 * then the second of every one): no two neighbours share a label there, and the order of the rows says
 * nothing about time. For example, labels 1 2 1 2 become 1 1 2 2. The series itself comes back when it has
 * times, when a measurement has no label, or when neighbours do share one: then its order is the shop's.
 */
export function gatherLabels(series: MeasurementSeries, timed: boolean): MeasurementSeries {
  if (timed || !apart(series)) return series;
  const places = new Map<string, number[]>();
  for (let at = 0; at < series.count; at++) {
    const name = `${series.lot[at]}/${series.subgroup[at]}`;
    const known = places.get(name);
    if (known) known.push(at);
    else places.set(name, [at]);
  }
  const gathered = picked(series, [...places.values()].flat());
  // What states no time keeps the clock of its rows, which is all the order it has.
  gathered.takenAt.set(series.takenAt);
  return gathered;
}

function apart({ count, lot, subgroup }: MeasurementSeries): boolean {
  for (let at = 0; at < count; at++) {
    if (subgroup[at] === 0) return false;
    if (at > 0 && subgroup[at] === subgroup[at - 1] && lot[at] === lot[at - 1]) return false;
  }
  return true;
}
