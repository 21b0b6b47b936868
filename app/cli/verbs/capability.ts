import { MODEL_CHOICES, type ModelChoice } from "../../../lib/capability/models/model";
import { suggestKind } from "../../../lib/plan/suggest-plan";
import { studyFeature } from "../../../lib/study/study-feature";
import { capabilityJson } from "../capability-json";
import { printJson } from "../output";
import { WrongUsage } from "../refusal";
import { confidenceOption, onlyFile, planFor, studyFile, subgroupOption } from "../study-file";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `capability FILE   capability and performance of every feature in a measurement file, with bounds and gates

  --subgroup N    readings per subgroup where the file has no column "subgroup"
  --model NAME    the distribution behind the indices: ${MODEL_CHOICES.join(", ")};
                  normal when not given. auto goes by the kind that the feature's name tells, then by fit. With
                  another than normal, the P indices are those of its percentiles and the C indices are null
  --confidence P  of intervals and lower bounds, 0.95 when not given
  --json          {"features":[{"part","feature","count","mean", … ,"gates":[{"gate","passed","reason"}]}]}

An index is never the whole answer: read the gates beside it. Statistical capability is no acceptance of
product and no proof of safety; those follow the drawing, the customer and the shop's own procedure.
`,
  options: {
    subgroup: { type: "string" },
    model: { type: "string" },
    confidence: { type: "string" },
    json: { type: "boolean" },
  },
  async run({ values, positionals }) {
    const file = onlyFile("capability", positionals);
    const model = modelOption(values.model);
    const options = { subgroup: subgroupOption(values.subgroup), chart: null, rules: null };
    const confidence = confidenceOption(values.confidence);
    const features = await studyFile(file, (feature) => {
      const { filed, series } = feature;
      const plan = planFor(feature, options);
      const { capability } = studyFeature({
        series,
        plan,
        unit: filed.unit ?? "none",
        baseline: null,
        confidence,
        model,
        kind: suggestKind(filed.feature, filed.nominal),
      });
      return { part: filed.part, feature: filed.feature, capability };
    });
    if (values.json) {
      printJson({
        features: features.map(({ part, feature, capability }) => ({
          part,
          feature,
          ...capabilityJson(capability),
        })),
      });
      return;
    }
    for (const { part, feature, capability } of features) {
      process.stdout.write(`${[part, feature].filter(Boolean).join(" ")}: ${capability.claim}\n`);
    }
  },
});

function modelOption(text: string | undefined): ModelChoice {
  if (text === undefined) return "normal";
  const model = MODEL_CHOICES.find((name) => name === text);
  if (!model) throw new WrongUsage(`--model takes ${MODEL_CHOICES.join(", ")}, not "${text}".`);
  return model;
}
