import { percent } from "../../../lib/capability/words";
import { partName } from "../../../lib/format/names";
import { counted } from "../../../lib/format/numbers";
import { dayIn, exactMomentIn } from "../../../lib/format/times";
import { cautions } from "../../../lib/statement/cautions";
import type { StatedReadings, StatementContent } from "../../../lib/statement/content";
import { statedWords } from "../../../lib/statement/words";
import { featurePage } from "./feature-page";
import { type Paper, Sheet } from "./sheet";

/** What a sheet tells of a statement besides its content. */
export type Printed = {
  id: number;
  content: StatementContent;
  readings: readonly StatedReadings[];
  contentDigest: string;
  readingsDigest: string;
  supersedes: number | null;
  supersededBy: number | null;
};

/** A capability statement as a PDF: what is claimed, what was measured, each feature's sheet, what it rests on. */
export async function statementPdf(printed: Printed, { paper }: { paper: Paper }): Promise<Buffer> {
  const { id, content, readings, supersededBy } = printed;
  const { plant, part, window, features } = content;
  const sheet = new Sheet(
    paper,
    {
      left: partName(part),
      right: `Capability statement ${id}${supersededBy === null ? "" : ", superseded"}`,
      foot: `${plant.name}, signed by ${content.signedBy} on ${dayIn(content.frozenAt, plant.zone)}`,
    },
    { title: `Capability statement ${id}, ${partName(part)}`, at: content.frozenAt },
  );
  sheet.text("Capability statement", { font: "bold", size: 18 }, { gap: 2 });
  sheet.text(`${partName(part)} ${part.name}`, { size: 12 }, { gap: 2 });
  sheet.text(content.title, { size: 10 }, { gap: 8 });
  if (supersededBy !== null) {
    sheet.text(
      "Superseded: another statement took the place of this one.",
      { font: "bold", size: 10 },
      { gap: 6 },
    );
  }
  sheet.facts([
    ["Window", windowWords(content)],
    ["Lots", window.lots === null ? "all" : window.lots.join(", ")],
    ["Confidence of bounds and intervals", percent(content.confidence)],
    ["Signed by", `${content.signedBy}, ${exactMomentIn(content.frozenAt, plant.zone)}`],
    ["Supersedes", printed.supersedes === null ? "none" : "an earlier statement"],
    ["Computed by", `Steadyrest ${content.software}`],
  ]);
  sheet.heading("What can be said");
  const words = features.map(statedWords);
  sheet.table(
    [
      { head: "Feature", width: 24 },
      { head: "Tolerance", width: 21 },
      { head: "What can be said", width: 43 },
      { head: "Gauge", width: 12 },
    ],
    words.map(({ name, tolerance, claim, gauge }) => [name, tolerance, claim, gauge]),
  );
  sheet.heading("Dimensional results");
  sheet.table(
    [
      { head: "Feature", width: 24 },
      { head: "Limits", width: 20 },
      { head: "n", width: 8, align: "right" },
      { head: "Least", width: 11, align: "right" },
      { head: "Mean", width: 11, align: "right" },
      { head: "Largest", width: 11, align: "right" },
      { head: "Result", width: 9 },
      { head: "Gauge", width: 14 },
    ],
    words.map(({ name, tolerance, listing }) =>
      listing === null
        ? [name, tolerance, "0", "–", "–", "–", "not measured", "–"]
        : [
            name,
            tolerance,
            String(listing.count),
            listing.min,
            listing.mean,
            listing.max,
            listing.result,
            listing.gauges,
          ],
    ),
    { size: 7 },
  );
  sheet.heading("Before it is used");
  sheet.list(cautions(percent(content.confidence)));
  for (const [i, feature] of features.entries())
    featurePage(sheet, content, { feature, readings: readings[i]! });

  sheet.page();
  sheet.heading("What it rests on");
  sheet.text(
    `Every figure follows from ${counted(
      readings.reduce((sum, { value }) => sum + value.length, 0),
      "reading",
    )} that were kept with this statement, with the tolerances, control limits and exclusions that were in force when it was signed. It can be recomputed at any time; the two digests tell whether content and readings are those that were signed.`,
  );
  sheet.list(SOURCES);
  sheet.text(`SHA-256 of the content: ${printed.contentDigest}`, { size: 7 });
  sheet.text(`SHA-256 of the readings: ${printed.readingsDigest}`, { size: 7 });
  return sheet.finish();
}

export function windowWords({ window, plant }: StatementContent): string {
  const { from, to, words } = window;
  if (from === null) return to === null ? words : `${words}, up to ${dayIn(to, plant.zone)}`;
  return to === null ? words : `${words}: ${dayIn(from, plant.zone)} to ${dayIn(to, plant.zone)}`;
}

/** Where the figures come from; editions and clauses from memory unless somebody opened them. */
const SOURCES = [
  "Cp = (U − L) / 6σ̂ and Cpk = min(U − x̄, x̄ − L) / 3σ̂ with the sigma within subgroups; Pp and Ppk with the standard deviation s of all readings, n − 1: ISO 22514-2 and 22514-4 (from memory); NIST/SEMATECH e-Handbook 6.1.6.",
  "Fitted models: (U − L) / (X₉₉.₈₆₅ − X₀.₁₃₅) and the smaller half about the median: ISO 22514-2 (from memory); bounds by parametric bootstrap with a fixed seed.",
  "Lower bounds and intervals: chi-square for Cp and Pp, Bissell 1990 for Cpk and Ppk, the noncentral t for one side (from memory).",
  "Normality: Anderson-Darling A² by D'Agostino and Stephens 1986; counted fractions: Clopper and Pearson 1934 (from memory).",
];
