import { indexMayBeCalled } from "../../../lib/capability/gate-outcome";
import type { IndexName } from "../../../lib/capability/indices";
import { testWords } from "../../../lib/capability/test-words";
import { percent } from "../../../lib/capability/words";
import { fractionWords, significant } from "../../../lib/format/figures";
import { counted, fixed, fixedAtLeast, withUnit } from "../../../lib/format/numbers";
import { dayIn, momentIn } from "../../../lib/format/times";
import type { StatedFeature, StatedReadings, StatementContent } from "../../../lib/statement/content";
import { statedPictures } from "../../../lib/statement/figures";
import { exclusionsInWindow, samplePlanWords, statedWords } from "../../../lib/statement/words";
import { claims } from "../../../lib/words/en/claims";
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
  { feature, readings }: { feature: StatedFeature; readings: StatedReadings },
): void {
  sheet.page();
  const words = statedWords(feature);
  const { study } = feature;
  const { zone } = content.plant;
  sheet.text(words.name, { font: "bold", size: 13 }, { gap: 2 });
  sheet.text(`${feature.kind}, tolerance ${words.tolerance}`, {}, { gap: 6 });
  claimBox(sheet, words.standing, words.claim);

  const pictures = statedPictures(feature, readings, content);
  const { shown } = words;
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
        title: `Histogram with ${model ?? "the normal curve"}`,
      },
    );
    drawProbability(
      sheet,
      { ...place, x: sheet.left + half + 14 },
      {
        plot,
        feature: shown,
        title:
          model === null
            ? `Normal probability plot with ${percent(plot.confidence)} band`
            : `Probability plot for ${model}`,
      },
    );
    sheet.y += PICTURE_HEIGHT + 6;
  }
  if (pictures.lots.length > 0) {
    sheet.need(STRIP_HEIGHT);
    drawLots(
      sheet,
      { x: sheet.left, y: sheet.y, width: sheet.width, height: STRIP_HEIGHT },
      { lots: pictures.lots.slice(-MOST_LOTS), feature: shown },
    );
    sheet.y += STRIP_HEIGHT + 6;
  }

  sheet.facts([
    ["Readings", words.data],
    [
      "Measured",
      feature.firstAt === null || feature.lastAt === null
        ? "not measured"
        : `${dayIn(feature.firstAt, zone)} to ${dayIn(feature.lastAt, zone)}`,
    ],
    ["Values", shown.isReduced ? "reduced to 20 °C" : "as measured"],
    ["x̄, mean", study.mean === null ? "–" : withUnit(fixed(study.mean, shown.places + 1), feature.unit)],
    [
      "σ̂ within subgroups",
      feature.within === null
        ? "not to be estimated"
        : withUnit(significant(feature.within.sigma, 3), feature.unit),
    ],
    [
      "s, all readings",
      study.sdOverall === null || study.sdOverall === 0
        ? "–"
        : withUnit(significant(study.sdOverall, 3), feature.unit),
    ],
    ["Gauge takes of the tolerance", words.gauge],
    ["Limits in force", limitsWords(feature)],
    ["Sample plan", samplePlanWords(feature)],
  ]);
  indexTable(sheet, feature);
  outsideTable(sheet, feature);
  sheet.text(testWords(study), { size: 7.5 });
  sheet.table(
    [
      { head: "Gate", width: 14 },
      { head: "Outcome", width: 12 },
      { head: "Reason", width: 74 },
    ],
    words.gates.map(({ gate, word, reason }) => [gate, word, reason]),
    { size: 7 },
  );
  const left = exclusionsInWindow(feature, content.window);
  if (left.length > 0) {
    sheet.text(`${counted(feature.excludedReadings, "reading")} left out with an assigned cause`, {
      font: "bold",
      size: 8,
    });
    sheet.table(
      [
        { head: "Cause", width: 44 },
        { head: "From", width: 20 },
        { head: "To", width: 20 },
        { head: "By", width: 16 },
      ],
      left.map(({ cause, from, to, by }) => [
        cause,
        momentIn(from, zone),
        momentIn(to, zone),
        by ?? "not known",
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

function indexTable(sheet: Sheet, { study }: StatedFeature): void {
  const names = PRINTED.filter((name) => study[name] !== null);
  if (names.length === 0) return;
  const level = percent(study.confidence);
  sheet.table(
    [
      { head: "Index", width: 16 },
      { head: "Estimate", width: 16, align: "right" },
      { head: `At least, ${level}`, width: 24, align: "right" },
      { head: `Interval, two-sided ${level}`, width: 30, align: "right" },
      { head: "May be called", width: 24, align: "right" },
    ],
    names.map((name) => {
      const bound = study.lowerBounds[name];
      const interval = study.intervals[name];
      return [
        name,
        fixed(study[name]!, 2),
        bound === null ? "–" : fixedAtLeast(bound, 2),
        interval === null ? "–" : `${fixed(interval[0], 2)} to ${fixed(interval[1], 2)}`,
        indexMayBeCalled(name, study),
      ];
    }),
  );
}

function outsideTable(sheet: Sheet, { study }: StatedFeature): void {
  const sides = (["below", "above"] as const).filter((side) => study.observedOutside[side] !== null);
  if (sides.length === 0) return;
  sheet.table(
    [
      { head: "Outside the tolerance", width: 26 },
      { head: "Counted", width: 14, align: "right" },
      { head: `Exact ${percent(study.confidence)} interval`, width: 34, align: "right" },
      { head: "Expected by the model", width: 26, align: "right" },
    ],
    sides.map((side) => {
      const interval = study.observedIntervals[side];
      const expected = study.expectedOutside[side];
      return [
        side === "below" ? "below the lower limit" : "above the upper limit",
        `${study.observedOutside[side]} of ${study.count}`,
        interval === null ? "–" : `${fractionWords(interval[0])} to ${fractionWords(interval[1])}`,
        expected === null ? "–" : fractionWords(expected),
      ];
    }),
  );
}

function limitsWords({ limits }: StatedFeature): string {
  const latest = limits.at(-1);
  return latest ? `version ${latest.version}${latest.by ? `, frozen by ${latest.by}` : ""}` : "trial limits";
}
