import { type MeasurementSeries, originAt } from "../measurements/series";
import type { LimitsVersion } from "../plan/feature-plan";
import { startJudging } from "../rules/judge";
import {
  type FormedSubgroups,
  type FormingState,
  formSubgroups,
  startForming,
} from "../subgroups/form-subgroups";
import { type SubgroupSummary, summariseSubgroup } from "../subgroups/summarise";
import { chartedSizes, chartedValues } from "./charted-values";
import type { Evaluation, Points } from "./evaluation";
import { type FormingMark, HistoryWaypoints, waypointPlaces } from "./history-waypoints";
import { followExcursion, type Judge, judgeOf, judgeSubgroup } from "./judge-subgroup";
import { type Excursion, PROGRESS_FORMAT, type Progress, type Signal } from "./progress";
import { settledLimits } from "./settled-limits";
import { type EvaluationSetup, isExcluded, TRIAL_SUBGROUPS } from "./setup";
import { trialLimits } from "./trial-limits";

/**
 * Judges a feature's whole history.
 *
 * Measurements become subgroups, subgroups become points, and each point is judged by the limits in force
 * when its last reading was taken. Without frozen limits, trial limits come from the first 25 subgroups
 * that are not excluded, or from all while there are fewer. A labelled subgroup that is the newest and
 * smaller than planned still grows and is not judged yet.
 *
 * A caller that has formed the chart already, by the same plan, hands it over.
 *
 * `continueEvaluation` takes new measurements from `progress` on and gives the same answers.
 */
export function evaluate(
  series: MeasurementSeries,
  setup: EvaluationSetup,
  chart: FormedChart = formChart(series, setup),
): Evaluation {
  const { values, formed, count, marks, summaries } = chart;
  const versions = setup.versions.length > 0 ? setup.versions : trialVersions(series, chart, setup);
  const judge = judgeOf(setup, versions);
  const progress = startProgress(judge);
  const points = emptyPoints(count);
  const signals: Signal[] = [];
  const excursions: Excursion[] = [];
  const labels = labelsOf(series, setup);
  const waypoints = new HistoryWaypoints({ series, values, formed, marks, labels, size: plannedSize(setup) });

  for (let number = 0; number < count; number++) {
    if (marks.length > 0) waypoints.take(progress, number, settledLimits(progress, setup) !== null);
    const summary = summaries?.[number] ?? summaryOf(chart, number);
    const at = timeOf(series, formed, number);
    const judgement = judgeSubgroup(judge, progress, { number, at, summary });
    points.at[number] = at;
    points.size[number] = summary.size;
    points.mean[number] = summary.mean;
    points.spread[number] = judgement.spread ?? Number.NaN;
    points.excluded[number] = judgement.excluded ? 1 : 0;
    points.limits[number] = judgement.limits ? versions.indexOf(judgement.limits) : -1;
    if (judgement.excluded) continue;
    for (const signal of judgement.signals) signals.push(signal);
    const returned = followExcursion(progress, at, judgement.signals);
    if (returned) excursions.push(returned);
  }
  waypoints.take(progress, count, settledLimits(progress, setup) !== null);
  if (progress.excursion) excursions.push({ ...progress.excursion, rules: [...progress.excursion.rules] });
  finishProgress(progress, series, values, formed);
  return { values, formed, points, versions, signals, excursions, progress, waypoints: waypoints.taken };
}

/** The charted values of a history and the subgroups they form; the first `count` of them can be judged. */
export type FormedChart = {
  values: Float64Array;
  /** Of the samples in which counts were found, one a reading, in usual ones; null where all are of the usual size. */
  sizes: Float64Array | null;
  formed: FormedSubgroups & { state: FormingState };
  count: number;
  /** Where a waypoint is wanted; none where nobody keeps them. */
  marks: readonly FormingMark[];
  /** Of all that can be judged, when the caller has taken them already. */
  summaries?: readonly SubgroupSummary[];
};

export function formChart(
  series: MeasurementSeries,
  setup: EvaluationSetup,
  { wantsWaypoints = false } = {},
): FormedChart {
  const values = chartedValues(series, setup);
  const size = plannedSize(setup);
  const places = wantsWaypoints ? waypointPlaces(series) : [];
  const columns = { subgroup: labelsOf(series, setup), lot: series.lot };
  const formed = formSubgroups(columns, series.count, size, places);
  return {
    values,
    sizes: chartedSizes(series, setup),
    formed,
    count: formed.count - (newestStillGrows(series, formed, size) ? 1 : 0),
    marks: places.map((at, i) => ({ at, state: formed.states[i] as FormingState })),
  };
}

/** A count stands singly, so that its sample is the one of its only member. */
function summaryOf({ values, sizes, formed }: FormedChart, number: number): SubgroupSummary {
  const summary = summariseSubgroup(values, formed, number);
  if (sizes === null) return summary;
  return { ...summary, size: sizes[formed.order[formed.start[number] as number] as number] as number };
}

/** Labels do not count on a chart of single readings. */
function labelsOf({ subgroup }: MeasurementSeries, { plan }: EvaluationSetup): Uint32Array | null {
  return plan.chart === "i-mr" ? null : subgroup;
}

export function plannedSize({ plan }: EvaluationSetup): number {
  return plan.chart === "i-mr" ? 1 : plan.subgroupSize;
}

export function startProgress(judge: Judge): Progress {
  return {
    format: PROGRESS_FORMAT,
    readings: 0,
    lastAt: null,
    latest: null,
    forming: startForming(),
    waiting: [],
    newest: null,
    judged: 0,
    limits: null,
    previous: null,
    location: startJudging(judge.rules),
    spread: startJudging(judge.spreadRules),
    memory: null,
    excursion: null,
    signals: 0,
    recent: [],
  };
}

function emptyPoints(count: number): Points {
  return {
    count,
    at: new Float64Array(count),
    size: new Float64Array(count),
    mean: new Float64Array(count),
    spread: new Float64Array(count),
    excluded: new Uint8Array(count),
    limits: new Int16Array(count),
  };
}

function newestStillGrows(
  series: MeasurementSeries,
  formed: FormedSubgroups & { state: FormingState },
  size: number,
): boolean {
  if (formed.count === 0 || !isLabelled(series, formed, formed.count - 1)) return false;
  return (formed.start[formed.count] as number) - (formed.start[formed.count - 1] as number) < size;
}

function membersOf(values: Float64Array, { start, order }: FormedSubgroups, number: number): Float64Array {
  const from = start[number] as number;
  const members = new Float64Array((start[number + 1] as number) - from);
  for (let i = 0; i < members.length; i++) members[i] = values[order[from + i] as number] as number;
  return members;
}

function timeOf(series: MeasurementSeries, { start, order }: FormedSubgroups, number: number): number {
  return series.takenAt[order[(start[number + 1] as number) - 1] as number] as number;
}

/** Trial limits from the first subgroups that count; none while they cannot be estimated. */
function trialVersions(
  series: MeasurementSeries,
  chart: FormedChart,
  { plan, exclusions }: EvaluationSetup,
): LimitsVersion[] {
  const { formed, count } = chart;
  const first: SubgroupSummary[] = [];
  for (let number = 0; number < count && first.length < TRIAL_SUBGROUPS; number++) {
    if (isExcluded(exclusions, timeOf(series, formed, number))) continue;
    first.push(summaryOf(chart, number));
  }
  const trial = trialLimits(plan, first);
  return trial.ok ? [trial.value] : [];
}

/** Fills in what the streaming path would remember of the last measurements. */
function finishProgress(
  progress: Progress,
  series: MeasurementSeries,
  values: Float64Array,
  formed: FormedSubgroups & { state: FormingState },
): void {
  progress.readings = series.count;
  progress.lastAt = series.count > 0 ? (series.takenAt[series.count - 1] as number) : null;
  progress.latest = series.count > 0 ? originAt(series, series.count - 1) : null;
  progress.forming = formed.state;
  progress.waiting = formed.state.waiting.map((at) => values[at] as number);

  const number = formed.count - 1;
  if (number < 0 || !isLabelled(series, formed, number)) return;
  const judged = number < progress.judged;
  progress.newest = {
    number,
    values: judged ? [] : Array.from(membersOf(values, formed, number)),
    at: timeOf(series, formed, number),
    judged,
  };
}

/** False on a chart of single readings, where labels do not count. */
function isLabelled(
  series: MeasurementSeries,
  { start, order, state }: FormedSubgroups & { state: FormingState },
  number: number,
): boolean {
  const first = order[start[number] as number] as number;
  return state.open.length > 0 && series.subgroup[first] !== 0;
}
