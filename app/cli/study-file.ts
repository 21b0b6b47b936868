import { basename } from "node:path";
import { previewFile, readMeasurementFile } from "../../db/intake/read-file";
import { InvalidInput } from "../../lib/checks";
import type { FileNames, Refusal } from "../../lib/intake/batch";
import { type CollectedColumn, Collector, type FiledSeries } from "../../lib/intake/collect";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { untimedStart } from "../../lib/intake/untimed";
import { utc } from "../../lib/intake/zone";
import { CHART_KINDS, type ChartKind, type FeaturePlan } from "../../lib/plan/feature-plan";
import {
  chartFor,
  suggestChart,
  suggestKind,
  suggestNaturalBound,
  suggestRules,
} from "../../lib/plan/suggest-plan";
import { gatherLabels } from "../../lib/subgroups/gather-labels";
import { readableFile } from "./given-file";
import { Refused, WrongUsage } from "./refusal";

/** Thrown out of the reading as soon as a row cannot be taken: a study of the rest would be another study. */
class BadRow extends Error {
  constructor(readonly refusal: Refusal) {
    super(refusal.reason);
  }
}

/** What a study of single features looks at besides values and times: where they came from, no further than the lot. */
const STUDIED: readonly CollectedColumn[] = ["piece", "lot", "subgroup"];

/**
 * Studies every feature of a tidy measurement file, in time order, for a verb that analyses and stores nothing.
 * What the reading remarks about rows that it takes goes to stderr, once the study has gone well.
 *
 * @throws Refused for a file that is not there or cannot be read, and for the first row that cannot be taken
 */
export async function studyFile<Study>(
  name: string,
  study: (feature: FiledSeries) => Study,
): Promise<Study[]> {
  const { features, remarks } = await readFeatures(name, STUDIED);
  const studies = features.map((feature) => {
    try {
      return study(feature);
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error;
      throw new Refused({ file: name, reason: `feature ${feature.filed.feature}: ${error.message}.` });
    }
  });
  for (const remark of remarks) process.stderr.write(`${remark}\n`);
  return studies;
}

/**
 * The features of a file with the names of its lots and sources, for a verb that looks at all of them at once.
 *
 * @throws Refused as `studyFile` does
 */
export async function readFeatures(
  name: string,
  wanted?: readonly CollectedColumn[],
): Promise<{ features: FiledSeries[]; names: FileNames; remarks: string[] }> {
  const path = await readableFile(name);
  const file = { path, name: basename(path) };
  let collector: Collector | null = null;
  let names: FileNames | null = null;
  let timed = false;
  const remarks: string[] = [];
  try {
    const preview = await previewFile(file, { zone: utc, mapping: null, rows: 0, endsWithMapping: true });
    const [problem] = preview.problems;
    if (problem) throw new Refused({ file: name, field: problem.field, reason: problem.message });
    timed = preview.mapping.columns.taken_at !== null;
    remarks.push(...preview.suggestion.notes.map((note) => `${name}: ${note}`));
    await readMeasurementFile(
      file,
      untimedStart(preview.mapping, 0),
      {
        zone: utc,
        wantsDigest: false,
        wanted,
        onNames: (found) => {
          names = found;
          collector = new Collector(found, wanted);
        },
      },
      {
        batch: (batch) => collector?.add(batch),
        refusal: (refusal) => {
          throw new BadRow(refusal);
        },
        notice: ({ line, message }) => remarks.push(`${name}, line ${line}: ${message}`),
      },
    );
  } catch (error) {
    if (error instanceof UnreadableFile) throw new Refused({ file: name, reason: error.message });
    if (error instanceof BadRow) throw new Refused({ file: name, ...error.refusal });
    throw error;
  }
  const filed = (collector as Collector | null)?.features() ?? [];
  const features = filed.map(({ filed, series }) => ({ filed, series: gatherLabels(series, timed) }));
  if (names === null || features.length === 0) {
    throw new Refused({ file: name, reason: "the file holds no measurement." });
  }
  return { features, names, remarks };
}

export type PlanOptions = {
  subgroup: number | null;
  chart: ChartKind | null;
  rules: readonly string[] | null;
};

/** How a feature of a file is charted: as the options say, else as Intake would suggest for a new feature. */
export function planFor(
  { filed, series }: FiledSeries,
  { subgroup, chart, rules }: PlanOptions,
): FeaturePlan {
  const kind = suggestKind(filed.feature, filed.nominal);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < series.count; i++) least = Math.min(least, series.value[i] as number);
  const naturalBound = suggestNaturalBound(kind, filed.lower, least);
  const charted = chartOf({ filed, series }, { subgroup, chart });
  return {
    chart: charted.chart,
    subgroupSize: charted.subgroupSize,
    rules: rules ?? suggestRules(naturalBound),
    tolerance: { lower: filed.lower, upper: filed.upper },
    target: filed.nominal,
    naturalBound,
    reduction: null,
  };
}

function chartOf(
  { series }: FiledSeries,
  { subgroup, chart }: Pick<PlanOptions, "subgroup" | "chart">,
): { chart: ChartKind; subgroupSize: number } {
  if (chart === "i-mr") return { chart, subgroupSize: 1 };
  const labelled = subgroup !== null && series.subgroup.some((label) => label !== 0);
  const size = subgroup !== null && !labelled ? subgroup : suggestChart(series).subgroupSize;
  if (chart === null) return chartFor(size);
  if (size < 2) {
    throw new WrongUsage(
      `--chart ${chart} needs subgroups of at least 2: give --subgroup N, or a column "subgroup" in the file.`,
    );
  }
  return { chart, subgroupSize: size };
}

export function subgroupOption(text: string | undefined): number | null {
  if (text === undefined) return null;
  const size = Number(text);
  if (Number.isInteger(size) && size >= 1 && size <= 1000) return size;
  throw new WrongUsage(`--subgroup takes a whole number from 1 to 1000, not "${text}".`);
}

export function chartOption(text: string | undefined): ChartKind | null {
  if (text === undefined) return null;
  const chart = CHART_KINDS.find((kind) => kind === text);
  if (!chart) throw new WrongUsage(`--chart takes ${CHART_KINDS.join(", ")}, not "${text}".`);
  return chart;
}

export function confidenceOption(text: string | undefined): number {
  if (text === undefined) return 0.95;
  const confidence = Number(text);
  if (confidence > 0 && confidence < 1) return confidence;
  throw new WrongUsage(`--confidence takes a probability between 0 and 1, not "${text}".`);
}

/** The one file a verb takes. */
export function onlyFile(verb: string, positionals: readonly string[]): string {
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0)
    throw new WrongUsage(`${verb} takes one file, not ${positionals.length}.`);
  return file;
}
