import { percent } from "../../../lib/capability/words";
import { partName } from "../../../lib/format/names";
import { dayIn, exactMomentIn } from "../../../lib/format/times";
import { cautions } from "../../../lib/statement/cautions";
import type { StatedReadings, StatementContent } from "../../../lib/statement/content";
import { signedWindowIn } from "../../../lib/statement/signed-window";
import { statedWords } from "../../../lib/statement/words";
import { ENGLISH, type Words } from "../../../lib/words/words";
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
export async function statementPdf(
  printed: Printed,
  { paper, words = ENGLISH }: { paper: Paper; words?: Words },
): Promise<Buffer> {
  const { statements, times } = words;
  const { print: said, sheet: shared } = statements;
  const { heads } = shared;
  const { id, content, readings, supersededBy } = printed;
  const { plant, part, window, features } = content;
  const sheet = new Sheet(
    paper,
    {
      left: partName(part),
      right: said.running(id, supersededBy !== null),
      foot: said.foot(plant.name, content.signedBy, dayIn(content.frozenAt, plant.zone, times)),
      page: said.page,
    },
    {
      title: `${said.running(id, false)}, ${partName(part)}`,
      at: content.frozenAt,
      language: words.language,
    },
  );
  sheet.text(said.title, { font: "bold", size: 18 }, { gap: 2 });
  sheet.text(`${partName(part)} ${part.name}`, { size: 12 }, { gap: 2 });
  sheet.text(content.title, { size: 10 }, { gap: 8 });
  if (supersededBy !== null) {
    sheet.text(said.superseded, { font: "bold", size: 10 }, { gap: 6 });
  }
  sheet.facts([
    [said.window, windowWords(content, words)],
    [said.lots, window.lots === null ? said.allLots : window.lots.join(", ")],
    [said.confidence, percent(content.confidence)],
    [said.signedBy, `${content.signedBy}, ${exactMomentIn(content.frozenAt, plant.zone, times)}`],
    [said.supersedes, printed.supersedes === null ? said.none : said.earlier],
    [said.computedBy, `Steadyrest ${content.software}`],
  ]);
  sheet.heading(shared.said);
  const stated = features.map((feature) => statedWords(feature, words));
  sheet.table(
    [
      { head: heads.feature, width: 24 },
      { head: heads.tolerance, width: 21 },
      { head: heads.said, width: 43 },
      { head: said.gauge, width: 12 },
    ],
    stated.map(({ name, tolerance, claim, gauge }) => [name, tolerance, claim, gauge]),
  );
  sheet.heading(shared.dimensional);
  sheet.table(
    [
      { head: heads.feature, width: 24 },
      { head: heads.limits, width: 20 },
      { head: "n", width: 8, align: "right" },
      { head: heads.min, width: 11, align: "right" },
      { head: heads.mean, width: 11, align: "right" },
      { head: heads.max, width: 11, align: "right" },
      { head: heads.result, width: 9 },
      { head: heads.gaugeUsed, width: 14 },
    ],
    stated.map(({ name, tolerance, listing }) =>
      listing === null
        ? [name, tolerance, "0", "–", "–", "–", shared.notMeasured, "–"]
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
  sheet.heading(shared.before);
  sheet.list(cautions(percent(content.confidence), words.claims));
  for (const [i, feature] of features.entries())
    featurePage(sheet, content, { feature, readings: readings[i]!, words });

  sheet.page();
  sheet.heading(said.rests);
  sheet.text(said.follows(readings.reduce((sum, { value }) => sum + value.length, 0)));
  if (stated.some(({ isWhole }) => !isWhole)) sheet.text(statements.asSignedIn);
  sheet.list([said.sources.indices, said.sources.models, said.sources.bounds, said.sources.normality]);
  sheet.text(said.contentDigest(printed.contentDigest), { size: 7 });
  sheet.text(said.readingsDigest(printed.readingsDigest), { size: 7 });
  return sheet.finish();
}

export function windowWords({ window, plant }: StatementContent, words: Words): string {
  const { print: said } = words.statements;
  const { from, to } = window;
  const name = signedWindowIn({ window, plant }, words);
  const day = (at: number) => dayIn(at, plant.zone, words.times);
  if (from === null) return to === null ? name : said.upTo(name, day(to));
  return to === null ? name : said.span(name, day(from), day(to));
}
