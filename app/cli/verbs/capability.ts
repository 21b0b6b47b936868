import { studyFeature } from "../../../lib/study/study-feature";
import { capabilityJson } from "../capability-json";
import { printJson } from "../output";
import { WrongUsage } from "../refusal";
import { confidenceOption, onlyFile, planFor, readStudyFile, subgroupOption } from "../study-file";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `capability FILE   capability and performance of every feature in a measurement file, with bounds and gates

  --subgroup N    readings per subgroup where the file has no column "subgroup"
  --model normal  the distribution; the normal one is the only one so far
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
    if (values.model !== undefined && values.model !== "normal") {
      throw new WrongUsage(`--model takes "normal" so far, not "${values.model}".`);
    }
    const options = { subgroup: subgroupOption(values.subgroup), chart: null, rules: null };
    const confidence = confidenceOption(values.confidence);
    const features = (await readStudyFile(file)).map((feature) => {
      const { filed, series } = feature;
      const plan = planFor(feature, options);
      const { capability } = studyFeature({
        series,
        plan,
        unit: filed.unit ?? "none",
        baseline: null,
        confidence,
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
