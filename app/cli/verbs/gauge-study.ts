import { numberWords } from "../../../lib/capability/words";
import { InvalidInput } from "../../../lib/checks";
import { decimalFault } from "../../../lib/intake/numbers";
import { arrangeCrossed, type StudyReading } from "../../../lib/measurement-systems/arrange";
import {
  type CrossedStudy,
  crossedStudy,
  POOL_ABOVE,
  STUDY_COMPONENTS,
} from "../../../lib/measurement-systems/crossed-study";
import { type Cells, readCsvColumns } from "../csv-columns";
import { printJson, printTable } from "../output";
import { Refused, WrongUsage } from "../refusal";
import { confidenceOption, onlyFile } from "../study-file";
import { defineVerb } from "../verb";

const COLUMNS = [
  { name: "part" },
  { name: "operator" },
  { name: "trial", optional: true },
  { name: "value" },
];

export const verb = defineVerb({
  help: `gauge-study FILE   how much of what is seen is the gauge: every operator measures every part several times

  FILE            CSV with the columns part, operator, value and, where trials are numbered, trial
  --lower NUMBER  lower tolerance limit of the feature
  --upper NUMBER  upper tolerance limit; per cent of the tolerance needs both
  --confidence P  of the intervals, 0.95 when not given
  --json          {"anova":[{"term","df","ss","ms","F","p"}],"components":{…},"percentStudy","percentTolerance","ndc"}

Analysis of variance of random parts and operators. The interaction is pooled with repeatability when its p exceeds
${POOL_ABOVE}. Components are variances, cut at 0; per cents are those of repeatability and reproducibility together (grr),
of each source under "percentStudyOf" and "percentToleranceOf". ndc counts the classes of parts the gauge tells apart.
`,
  options: {
    lower: { type: "string" },
    upper: { type: "string" },
    confidence: { type: "string" },
    json: { type: "boolean" },
  },
  async run({ values, positionals }) {
    const file = onlyFile("gauge-study", positionals);
    const toleranceWidth = widthOption(values.lower, values.upper);
    const confidence = confidenceOption(values.confidence);
    const readings = readingsOf(file, await readCsvColumns(file, COLUMNS));
    const study = studyOf(file, readings, { toleranceWidth, confidence });
    if (values.json) printJson(asJson(study));
    else print(study);
  },
});

function studyOf(
  file: string,
  readings: readonly StudyReading[],
  { toleranceWidth, confidence }: { toleranceWidth: number | null; confidence: number },
): CrossedStudy {
  try {
    return crossedStudy(arrangeCrossed(readings), { toleranceWidth, poolAbove: POOL_ABOVE, confidence });
  } catch (error) {
    if (!(error instanceof InvalidInput)) throw error;
    throw new Refused({ file, reason: `${error.message}.` });
  }
}

function readingsOf(file: string, rows: readonly Cells[]): StudyReading[] {
  const seen = new Map<string, number>();
  return rows.map(({ line, cells }) => {
    const [part = "", operator = "", trial = "", text = ""] = cells;
    for (const [field, cell] of Object.entries({ part, operator })) {
      if (cell === "") throw new Refused({ file, line, field, reason: "the cell is empty." });
    }
    if (trial !== "") {
      const key = JSON.stringify([part, operator, trial]);
      const before = seen.get(key);
      if (before !== undefined) {
        const reason = `part ${part}, operator ${operator}, trial ${trial} was on line ${before} already.`;
        throw new Refused({ file, line, field: "trial", reason });
      }
      seen.set(key, line);
    }
    const value = numberOf(text);
    if (value === null) throw new Refused({ file, line, field: "value", reason: decimalFault(text, ".") });
    return { part, operator, value };
  });
}

function numberOf(text: string): number | null {
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
  return Number.isFinite(value) ? value : null;
}

/** The width of the tolerance; null unless both limits are given. */
function widthOption(lower: string | undefined, upper: string | undefined): number | null {
  const limits = { lower, upper };
  const [low, high] = (["lower", "upper"] as const).map((name) => {
    const text = limits[name];
    if (text === undefined) return null;
    const limit = numberOf(text);
    if (limit === null) throw new WrongUsage(`--${name} takes a number, not "${text}".`);
    return limit;
  });
  if (low == null || high == null) return null;
  if (low >= high) throw new WrongUsage(`--lower ${low} must be below --upper ${high}.`);
  return high - low;
}

function asJson(study: CrossedStudy) {
  const { anova, components, percentStudy, percentTolerance, ndc, pooled, interactionP, grrInterval } = study;
  const { sumOfSquares, degreesOfFreedom } = anova.total;
  return {
    anova: [
      ...anova.lines.map((line) => ({
        term: line.term,
        df: line.degreesOfFreedom,
        ss: line.sumOfSquares,
        ms: line.meanSquare,
        F: line.F,
        p: line.p,
      })),
      { term: "total", df: degreesOfFreedom, ss: sumOfSquares, ms: null, F: null, p: null },
    ],
    components,
    percentStudy: percentStudy?.grr ?? null,
    percentTolerance: percentTolerance?.grr ?? null,
    ndc,
    percentStudyOf: percentStudy,
    percentToleranceOf: percentTolerance,
    pooled,
    interactionP,
    grrVarianceInterval: grrInterval.modifiedLargeSample.interval,
  };
}

function print(study: CrossedStudy): void {
  const { deviations, percentStudy, percentTolerance, ndc, pooled, interactionP } = study;
  const percent = (value: number | undefined) => (value === undefined ? "" : `${value.toFixed(1)} %`);
  printTable(
    ["source", "sigma", "of study", "of tolerance"],
    STUDY_COMPONENTS.map((name) => [
      name,
      numberWords(deviations[name]),
      percent(percentStudy?.[name]),
      percent(percentTolerance?.[name]),
    ]),
  );
  const interaction =
    interactionP === null ? "" : ` Interaction p ${interactionP.toFixed(3)}, ${pooled ? "pooled" : "kept"}.`;
  const classes = ndc === null ? "The gauge shows no variation of its own." : `Classes told apart: ${ndc}.`;
  process.stdout.write(`${classes}${interaction}\n`);
}
