import { numberWords } from "../../../lib/capability/words";
import { studyFeature } from "../../../lib/study/study-feature";
import { capabilityJson } from "../capability-json";
import { printJson, printTable } from "../output";
import { WrongUsage } from "../refusal";
import { rulesForHelp, rulesNamed } from "../rules-option";
import { chartOption, confidenceOption, onlyFile, planFor, studyFile, subgroupOption } from "../study-file";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `study FILE   limits, signals and capability of every feature in a measurement file

  --subgroup N   readings per subgroup where the file has no column "subgroup"; consecutive ones form one
  --chart KIND   xbar-r, xbar-s or i-mr; without it what Intake would suggest for the data
  --rules slug,… the run rules; without it the usual ones for a new feature
${rulesForHelp().replaceAll(/^/gm, "                 ")}
  --baseline B   first:K takes the limits from the first K subgroups, all (usual) from every one
  --confidence P of intervals and bounds, 0.95 when not given
  --json         {"features":[{"part","feature","count","chart","subgroups","limits","signals","capability"}]}

"at" and "members" of a signal count subgroups from 0. Where subgroups differ in size, "limits" are those of
the most frequent size and "bySize" has them all.
`,
  options: {
    subgroup: { type: "string" },
    chart: { type: "string" },
    rules: { type: "string" },
    baseline: { type: "string" },
    confidence: { type: "string" },
    json: { type: "boolean" },
  },
  async run({ values, positionals }) {
    const file = onlyFile("study", positionals);
    const options = {
      subgroup: subgroupOption(values.subgroup),
      chart: chartOption(values.chart),
      rules: values.rules === undefined ? null : rulesNamed(values.rules).map((rule) => rule.slug),
    };
    const baseline = baselineOption(values.baseline);
    const confidence = confidenceOption(values.confidence);

    const features = await studyFile(file, (feature) => {
      const { filed, series } = feature;
      const plan = planFor(feature, options);
      const report = studyFeature({ series, plan, unit: filed.unit ?? "none", baseline, confidence });
      return { part: filed.part, feature: filed.feature, chart: plan.chart, ...report };
    });
    if (baseline !== null) tellOfShort(features, baseline);
    if (values.json) printJson({ features: features.map(asJson) });
    else print(features);
  },
});

type Studied = { part: string; feature: string; chart: string } & ReturnType<typeof studyFeature>;

function asJson({ part, feature, count, chart, subgroups, limits, signals, capability }: Studied) {
  const { bySize, ...drawn } = limits ?? { bySize: null };
  return {
    part,
    feature,
    count,
    chart,
    subgroups,
    limits: limits && { ...drawn, ...(bySize && { bySize }) },
    signals: signals.map(({ chart: on, rule, at, members }) => ({ chart: on, rule, at, members })),
    capability: capabilityJson(capability),
  };
}

function baselineOption(text: string | undefined): number | null {
  if (text === undefined || text === "all") return null;
  const count = Number(/^first:(\d+)$/.exec(text)?.[1]);
  if (count >= 2) return count;
  throw new WrongUsage(`--baseline takes "all" or "first:K" with K of at least 2, not "${text}".`);
}

/** Messages go to stderr: the result is the same as from a shorter baseline. */
function tellOfShort(features: readonly Studied[], baseline: number): void {
  const short = features.filter(({ subgroups }) => subgroups < baseline);
  const [first] = short;
  if (!first) return;
  const others = short.length === 1 ? "" : ` and ${short.length - 1} more`;
  process.stderr.write(
    `${first.feature} has ${first.subgroups} subgroups${others}: fewer than first:${baseline}, so all of them make the limits.\n`,
  );
}

function print(features: readonly Studied[]): void {
  const shown = (value: number | null | undefined) =>
    value === null || value === undefined ? "" : numberWords(value);
  printTable(
    [
      "part",
      "feature",
      "readings",
      "chart",
      "subgroups",
      "centre",
      "sigma",
      "lower",
      "upper",
      "signals",
      "Cpk",
      "Ppk",
    ],
    features.map(({ part, feature, count, chart, subgroups, limits, signals, capability }) => [
      part,
      feature,
      String(count),
      chart,
      String(subgroups),
      shown(limits?.centre),
      shown(limits?.sigma),
      shown(limits?.location.lower),
      shown(limits?.location.upper),
      String(signals.length),
      shown(capability.Cpk),
      shown(capability.Ppk),
    ]),
  );
}
