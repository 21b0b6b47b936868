import { InvalidInput, requireCount } from "../checks";
import { LARGEST_SAMPLE } from "../constants/relative-range";

/**
 * Which measurements stand together as one point of a control chart.
 *
 * With a subgroup label, measurements of the same lot and label belong together. Without one, every
 * `size` measurements in time order do, whatever their lots. A series may hold both.
 *
 * A label comes back: "1" to "5" in every lot, or the same word months later. So a label seen again
 * joins its subgroup only while that is among the last 16 begun, and otherwise begins a new one. This
 * bounds what has to be remembered, and it is why a measurement can be placed from a small stored state
 * as well as from the whole series, with the same answer. A subgroup of 1000 is full for the same
 * purpose: a column that says the same in every row is no subgroup of a whole year.
 *
 * Subgroups are numbered from 0 in the order in which they came to be and are never renumbered: one
 * with a label when its first measurement arrives, one without when it is complete. For example, with
 * size 2 and labels A – A – – (a dash has none): subgroup 0 is measurements 0 and 2, subgroup 1 is
 * measurements 1 and 3, and measurement 4 waits.
 */

/** How far back a label still finds its subgroup, counted in subgroups begun. */
export const SUBGROUPS_REMEMBERED = 16;

/** The largest subgroup that can be charted, because the constants go no further. */
export const LARGEST_SUBGROUP = LARGEST_SAMPLE;

/** Plain data of bounded size, to be stored between two intakes. Begin with `startForming()`. */
export type FormingState = {
  /** Subgroups so far; also the number of the next one. */
  begun: number;
  /** Labelled subgroups a further measurement can still join, oldest first. */
  open: { number: number; lot: number; label: number; size: number }[];
  /** Where the measurements stand that await a complete subgroup; fewer than its size. */
  waiting: number[];
};

/** `at`: where it stands in the series. `lot` and `label`: ids; label 0 means none. */
export type MeasurementPlace = { at: number; lot: number; label: number };

export function startForming(): FormingState {
  return { begun: 0, open: [], waiting: [] };
}

/** A copy that stays as it is. */
function kept({ begun, open, waiting }: FormingState): FormingState {
  return { begun, open: open.map((subgroup) => ({ ...subgroup })), waiting: [...waiting] };
}

/** In `placeMeasurement`: no subgroup yet, the measurement waits for others. */
export const WAITS = -1;

/**
 * Places the next measurement in time order; changes `state`.
 *
 * Returns the number of the subgroup it joins, or `WAITS` when it is one of a subgroup without label
 * that is not complete yet. When a measurement without label gets a number, all that `state.waiting`
 * held before the call joined that subgroup with it, and the list is empty again.
 *
 * @param size measurements per subgroup where no label says otherwise; 1 for single readings
 * @throws InvalidInput when the size is not a whole number from 1 to 1000
 */
export function placeMeasurement(state: FormingState, measurement: MeasurementPlace, size: number): number {
  requireCount("placeMeasurement", "size", size, 1, LARGEST_SUBGROUP);
  return measurement.label === 0
    ? placeInTurn(state, measurement.at, size)
    : placeByLabel(state, measurement);
}

function placeInTurn(state: FormingState, at: number, size: number): number {
  if (state.waiting.length + 1 < size) {
    state.waiting.push(at);
    return WAITS;
  }
  state.waiting = [];
  return begin(state);
}

function placeByLabel(state: FormingState, { lot, label }: MeasurementPlace): number {
  // Newest first: a measurement nearly always belongs to the subgroup of the one before it.
  for (let i = state.open.length - 1; i >= 0; i--) {
    const subgroup = state.open[i]!;
    if (subgroup.number < state.begun - SUBGROUPS_REMEMBERED) break;
    if (subgroup.label === label && subgroup.lot === lot) {
      subgroup.size += 1;
      if (subgroup.size === LARGEST_SUBGROUP) state.open.splice(i, 1);
      return subgroup.number;
    }
  }
  const number = begin(state);
  state.open.push({ number, lot, label, size: 1 });
  return number;
}

function begin(state: FormingState): number {
  state.begun += 1;
  while (state.open.length > 0 && state.open[0]!.number < state.begun - SUBGROUPS_REMEMBERED) {
    state.open.shift();
  }
  return state.begun - 1;
}

/**
 * All subgroups of a series in two flat arrays: the members of subgroup s are the measurements
 * `order[start[s]]` to `order[start[s + 1] - 1]`, in time order. `start` holds one entry more than there
 * are subgroups. Measurements that still wait are in none.
 */
export type FormedSubgroups = { count: number; start: Uint32Array; order: Uint32Array };

/**
 * Forms the subgroups of a whole series, by placing one measurement after the other. `state` is what
 * `placeMeasurement` goes on from with the measurement that comes next, `states` what it goes on from at `places`.
 *
 * @param series ids per measurement in time order; `subgroup` null when no measurement has a label or
 *   labels are not to count, as on a chart of single readings
 * @throws InvalidInput when the size is not a whole number from 1 to 1000, or a column is shorter than
 *   `count`
 */
export function formSubgroups(
  series: { subgroup: ArrayLike<number> | null; lot: ArrayLike<number> },
  count: number,
  size: number,
  /** In ascending order. */
  places: readonly number[] = [],
): FormedSubgroups & { state: FormingState; states: FormingState[] } {
  requireCount("formSubgroups", "count", count, 0);
  requireCount("formSubgroups", "size", size, 1, LARGEST_SUBGROUP);
  for (const column of ["subgroup", "lot"] as const) {
    const length = series[column]?.length ?? count;
    if (length < count)
      throw new InvalidInput("formSubgroups", `${column}.length`, length, `at least ${count}`);
  }

  if (!isLabelled(series.subgroup, count)) return inTurn(count, size, places);

  const state = startForming();
  const place = { at: 0, lot: 0, label: 0 };
  /** Number of the subgroup plus one; 0 while waiting. */
  const joined = new Uint32Array(count);
  const states: FormingState[] = [];
  for (let at = 0; at < count; at++) {
    if (at === places[states.length]) states.push(kept(state));
    place.at = at;
    place.lot = series.lot[at]!;
    place.label = series.subgroup === null ? 0 : series.subgroup[at]!;
    // Those that complete a subgroup leave a new list behind, so this one keeps who waited.
    const waited = place.label === 0 ? state.waiting : NONE;
    const subgroup = placeMeasurement(state, place, size);
    if (subgroup === WAITS) continue;
    joined[at] = subgroup + 1;
    for (const earlier of waited) joined[earlier] = subgroup + 1;
  }
  return { ...collect(joined, state.begun), state, states };
}

const NONE: readonly number[] = [];

function isLabelled(subgroup: ArrayLike<number> | null, count: number): boolean {
  if (subgroup === null) return false;
  for (let at = 0; at < count; at++) if (subgroup[at] !== 0) return true;
  return false;
}

/** What placing one after the other comes to when nothing has a label: every `size` in turn are a subgroup. */
function inTurn(
  count: number,
  size: number,
  places: readonly number[],
): FormedSubgroups & { state: FormingState; states: FormingState[] } {
  const stateAt = (at: number): FormingState => {
    const begun = Math.floor(at / size);
    const waiting = Array.from({ length: at - begun * size }, (_, i) => begun * size + i);
    return { begun, open: [], waiting };
  };
  const subgroups = Math.floor(count / size);
  const start = new Uint32Array(subgroups + 1);
  for (let s = 0; s <= subgroups; s++) start[s] = s * size;
  const order = new Uint32Array(subgroups * size);
  for (let at = 0; at < order.length; at++) order[at] = at;
  const states = places.filter((at) => at < count).map(stateAt);
  return { count: subgroups, start, order, state: stateAt(count), states };
}

/** Counting sort of the measurements by subgroup; within one it keeps time order. */
function collect(joined: Uint32Array, count: number): FormedSubgroups {
  const start = new Uint32Array(count + 1);
  for (const subgroup of joined) if (subgroup > 0) start[subgroup]! += 1;
  for (let s = 0; s < count; s++) start[s + 1]! += start[s]!;
  const next = start.slice(0, count);
  const order = new Uint32Array(start[count]!);
  for (let at = 0; at < joined.length; at++) {
    const subgroup = joined[at]! - 1;
    if (subgroup >= 0) order[next[subgroup]!++] = at;
  }
  return { count, start, order };
}
