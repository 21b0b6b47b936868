import { indexMayBeCalled } from "../../../lib/capability/gate-outcome";
import type { IndexName } from "../../../lib/capability/indices";
import { testWords } from "../../../lib/capability/test-words";
import { percent } from "../../../lib/capability/words";
import { fractionWords, significant } from "../../../lib/format/figures";
import { fixed, fixedAtLeast, withUnit } from "../../../lib/format/numbers";
import { dayIn, momentIn } from "../../../lib/format/times";
import type { StatedFeature, StatedReadings, StatementContent } from "../../../lib/statement/content";
import { statedPictures } from "../../../lib/statement/figures";
import { exclusionsInWindow, samplePlanWords, statedWords } from "../../../lib/statement/words";
import type { Words } from "../../../lib/words/words";
import { drawHistogram, drawLots, drawProbability } from "./drawings";
import { INK, RULE, type Sheet, WASH } from "./sheet";

const PICTURE_HEIGHT = 126;
const STRIP_HEIGHT = 80;
/** About three tenths of a point a lot; of more, the newest. */
const MOST_LOTS = 260;

/** Everything that is stated of one feature, on a page of its own as a rule. */
export function featurePage(
  sheet: Sheet,
  content: StatementContent,
  { feature, readings, words }: { feature: StatedFeature; readings: StatedReadings; words: Words },
): void {
  sheet.page();
  const { statements, claims, times } = words;
  const { print: said, sheet: shared } = statements;
  const stated = statedWords(feature, words);
  const { study } = feature;
  const { zone } = content.plant;
  sheet.text(stated.name, { font: "bold", size: 13 }, { gap: 2 });
  sheet.text(said.kind(stated.kind, stated.tolerance), {}, { gap: 6 });
  claimBox(sheet, stated.standing, stated.claim);

  const pictures = statedPictures(feature, readings, content);
  const { shown } = stated;
  if (pictures.shape !== null) {
    const { histogram, plot, distribution } = pictures.shape;
    const model = pictures.shape.model && claims.models[pictures.shape.model];
    const half = (sheet.width - 14) / 2;
    sheet.need(PICTURE_HEIGHT);
    const place = { y: sheet.y, width: half, height: PICTURE_HEIGHT };
    drawHistogram(
      sheet,
      { ...place, x: sheet.left },
      {
        histogram,
        count: study.count,
        distribution,
        feature: shown,
        title: said.histogram(model),
        words: said,
      },
    );
    drawProbability(
      sheet,
      { ...place, x: sheet.left + half + 14 },
      {
        plot,
        feature: shown,
        title: said.probability(model, percent(plot.confidence)),
        words: said,
      },
    );
    sheet.y += PICTURE_HEIGHT + 6;
  }
  if (pictures.lots.length > 0) {
    sheet.need(STRIP_HEIGHT);
    drawLots(
      sheet,
      { x: sheet.left, y: sheet.y, width: sheet.width, height: STRIP_HEIGHT },
      { lots: pictures.lots.slice(-MOST_LOTS), feature: shown, words: said },
    );
    sheet.y += STRIP_HEIGHT + 6;
  }

  sheet.facts([
    [said.readings, stated.data],
    [
      said.measured,
      feature.firstAt === null || feature.lastAt === null
        ? shared.notMeasured
        : said.days(dayIn(feature.firstAt, zone, times), dayIn(feature.lastAt, zone, times)),
    ],
    [shared.values, shown.isReduced ? shared.reduced : shared.asMeasured],
    [said.meanOf, study.mean === null ? "–" : withUnit(fixed(study.mean, shown.places + 1), feature.unit)],
    [
      said.within,
      feature.within === null
        ? said.notEstimated
        : withUnit(significant(feature.within.sigma, 3), feature.unit),
    ],
    [
      said.overall,
      study.sdOverall === null || study.sdOverall === 0
        ? "–"
        : withUnit(significant(study.sdOverall, 3), feature.unit),
    ],
    [shared.gaugeTakes, stated.gauge],
    [said.limitsInForce, limitsWords(feature, shared)],
    [said.samplePlan, samplePlanWords(feature, words)],
  ]);
  indexTable(sheet, feature, words);
  outsideTable(sheet, feature, words);
  sheet.text(testWords(study, words), { size: 7.5 });
  sheet.table(
    [
      { head: shared.gateHeads.gate, width: 14 },
      { head: shared.gateHeads.outcome, width: 12 },
      { head: shared.gateHeads.reason, width: 74 },
    ],
    stated.gates.map(({ name, word, reason }) => [name, word, reason]),
    { size: 7 },
  );
  const left = exclusionsInWindow(feature, content.window);
  if (left.length > 0) {
    sheet.text(shared.exclusions(feature.excludedReadings), {
      font: "bold",
      size: 8,
    });
    sheet.table(
      [
        { head: shared.exclusionHeads.cause, width: 44 },
        { head: shared.exclusionHeads.from, width: 20 },
        { head: shared.exclusionHeads.to, width: 20 },
        { head: said.by, width: 16 },
      ],
      left.map(({ cause, from, to, by }) => [
        cause,
        momentIn(from, zone, times),
        momentIn(to, zone, times),
        by ?? shared.notKnown,
      ]),
      { size: 7 },
    );
  }
}

/** Those of a single side say again what the smaller one says; the workbook has them. */
const PRINTED: readonly IndexName[] = ["Cp", "Cpk", "Pp", "Ppk", "Cpm"];

function claimBox(sheet: Sheet, standing: string, claim: string): void {
  const inner = { width: sheet.width - 20, lineGap: 1.5 };
  const height = sheet.style({ size: 10 }).doc.heightOfString(claim, inner) + 28;
  sheet.need(height);
  sheet.doc.rect(sheet.left, sheet.y, sheet.width, height).fill(WASH);
  sheet.doc.rect(sheet.left, sheet.y, 3, height).fill(INK);
  sheet.style({ size: 8, font: "bold" }).doc.text(standing, sheet.left + 12, sheet.y + 6, inner);
  sheet.style({ size: 10 }).doc.text(claim, sheet.left + 12, sheet.y + 19, inner);
  sheet.line(sheet.left, sheet.y + height, sheet.left + sheet.width, sheet.y + height, RULE, 0.5);
  sheet.y += height + 8;
}

function indexTable(
  sheet: Sheet,
  { study }: StatedFeature,
  { statements: { print: said }, claims, figures }: Words,
): void {
  const names = PRINTED.filter((name) => study[name] !== null);
  if (names.length === 0) return;
  const level = percent(study.confidence);
  sheet.table(
    [
      { head: said.index, width: 16 },
      { head: said.estimate, width: 16, align: "right" },
      { head: said.atLeast(level), width: 24, align: "right" },
      { head: said.interval(level), width: 30, align: "right" },
      { head: said.mayBeCalled, width: 24, align: "right" },
    ],
    names.map((name) => {
      const bound = study.lowerBounds[name];
      const interval = study.intervals[name];
      return [
        name,
        fixed(study[name]!, 2),
        bound === null ? "–" : fixedAtLeast(bound, 2),
        interval === null ? "–" : figures.fromTo(fixed(interval[0], 2), fixed(interval[1], 2)),
        indexMayBeCalled(name, study, claims),
      ];
    }),
  );
}

function outsideTable(
  sheet: Sheet,
  { study }: StatedFeature,
  { statements: { print: said }, figures }: Words,
): void {
  const sides = (["below", "above"] as const).filter((side) => study.observedOutside[side] !== null);
  if (sides.length === 0) return;
  sheet.table(
    [
      { head: said.outside, width: 26 },
      { head: said.counted, width: 14, align: "right" },
      { head: said.exact(percent(study.confidence)), width: 34, align: "right" },
      { head: said.expected, width: 26, align: "right" },
    ],
    sides.map((side) => {
      const interval = study.observedIntervals[side];
      const expected = study.expectedOutside[side];
      return [
        said[side],
        said.of(study.observedOutside[side] ?? 0, study.count),
        interval === null
          ? "–"
          : figures.fromTo(fractionWords(interval[0], figures), fractionWords(interval[1], figures)),
        expected === null ? "–" : fractionWords(expected, figures),
      ];
    }),
  );
}

function limitsWords({ limits }: StatedFeature, said: Words["statements"]["sheet"]): string {
  const latest = limits.at(-1);
  if (!latest) return said.trial;
  return latest.by ? said.frozen(latest.version, latest.by) : said.version(latest.version);
}
