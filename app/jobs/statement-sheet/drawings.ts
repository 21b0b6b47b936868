import type { Histogram } from "../../../lib/capability/histogram";
import type { ProbabilityPlot } from "../../../lib/capability/probability-plot";
import { markPath } from "../../../lib/chart/mark-path";
import { linearScale, niceTicks, type Span, spanOf } from "../../../lib/chart/scale";
import { shownSpan } from "../../../lib/chart/shown-span";
import type { Distribution } from "../../../lib/distributions/distribution";
import { normalQuantile } from "../../../lib/distributions/normal";
import { asEntered, fixed, unitSign } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import type { Tolerance } from "../../../lib/plan/feature-plan";
import type { Words } from "../../../lib/words/words";
import { INK, RULE, type Sheet, SOFT } from "./sheet";

/** Print has no themes: the light values of the palette (Okabe and Ito, 2008). */
const BAR = "#a9cde4";
const SERIES = "#0072b2";
const OUT = "#d55e00";
const BEYOND = "#fbeade";
const BAND = "#dfeef7";

const CURVE_PLACES = 120;
const SHARES = [0.0001, 0.001, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999, 0.9999];

type PrintWords = Words["statements"]["print"];

export type Place = { x: number; y: number; width: number; height: number };

type Frame = { left: number; right: number; top: number; bottom: number };

function frameOf({ x, y, width, height }: Place): Frame {
  return { left: x + 34, right: x + width - 6, top: y + 30, bottom: y + height - 26 };
}

/** How often readings fell where, under the model's curve, with the tolerance limits. */
export function drawHistogram(
  sheet: Sheet,
  place: Place,
  {
    histogram: { bins, width },
    count,
    distribution,
    feature,
    title,
    words,
  }: {
    histogram: Histogram;
    count: number;
    distribution: Distribution;
    feature: ShownFeature;
    title: string;
    words: PrintWords;
  },
): void {
  const frame = frameOf(place);
  const { span } = shownSpan({ low: bins[0]!.from, high: bins.at(-1)!.to }, feature.tolerance);
  const x = linearScale(span, { start: frame.left, end: frame.right });
  const curve = Array.from({ length: CURVE_PLACES + 1 }, (_, i): [number, number] => {
    const value = span.low + ((span.high - span.low) * i) / CURVE_PLACES;
    return [value, count * width * distribution.density(value)];
  }).filter(([, height]) => Number.isFinite(height));
  const highest = Math.max(...bins.map((bin) => bin.count));
  const top = 1.06 * Math.max(highest, Math.min(2 * highest, Math.max(...curve.map(([, h]) => h))));
  const y = linearScale({ low: 0, high: top }, { start: frame.bottom, end: frame.top });

  drawTitle(sheet, place, title);
  drawBeyond(sheet, frame, { x, tolerance: feature.tolerance });
  for (const tick of niceTicks({ low: 0, high: top }, 4).values.filter(Number.isInteger)) {
    sheet.line(frame.left, y(tick), frame.right, y(tick), RULE, 0.4);
    label(sheet, String(tick), { x: place.x, y: y(tick) - 3.5, width: 31, align: "right" });
  }
  for (const bin of bins) {
    const wide = Math.max(0.4, x(bin.to) - x(bin.from) - 0.4);
    const inside = bin.count - bin.outside;
    if (inside > 0) sheet.doc.rect(x(bin.from), y(bin.count), wide, y(bin.outside) - y(bin.count)).fill(BAR);
    // Those outside are outlined as well as coloured, for a copy in black and white.
    if (bin.outside > 0)
      sheet.doc
        .rect(x(bin.from), y(bin.outside), wide, y(0) - y(bin.outside))
        .lineWidth(0.6)
        .fillAndStroke(OUT, INK);
  }
  const path = curve
    .map(([value, height], i) => `${i === 0 ? "M" : "L"}${at(x(value))} ${at(y(Math.min(height, top)))}`)
    .join("");
  sheet.doc.path(path).lineWidth(0.9).strokeColor(INK).stroke();
  drawLimits(sheet, frame, { x, span, feature, words });
  drawValueAxis(sheet, place, frame, { x, span, feature, words });
}

/** Readings against the normal scale, with line and band of the model. */
export function drawProbability(
  sheet: Sheet,
  place: Place,
  {
    plot: { points, line },
    feature,
    title,
    words,
  }: { plot: ProbabilityPlot; feature: ShownFeature; title: string; words: PrintWords },
): void {
  const frame = frameOf(place);
  const reach = Math.max(...points.map(({ z }) => Math.abs(z))) + 0.3;
  const span = spanOf(
    points.flatMap(({ value, low, high }) => [value, low, high]),
    { margin: 0.04 },
  );
  const x = linearScale(span, { start: frame.left, end: frame.right });
  const y = linearScale({ low: -reach, high: reach }, { start: frame.bottom, end: frame.top });
  drawTitle(sheet, place, title);
  drawBeyond(sheet, frame, { x, tolerance: feature.tolerance });
  for (const share of SHARES) {
    const z = normalQuantile(share);
    if (Math.abs(z) > reach) continue;
    sheet.line(frame.left, y(z), frame.right, y(z), RULE, 0.4);
    label(sheet, `${asEntered(Number((100 * share).toFixed(2)))} %`, {
      x: place.x,
      y: y(z) - 3.5,
      width: 31,
      align: "right",
    });
  }
  const there = points.map(({ low, z }) => `${at(x(low))} ${at(y(z))}`);
  const back = points.toReversed().map(({ high, z }) => `${at(x(high))} ${at(y(z))}`);
  sheet.doc.path(`M${[...there, ...back].join("L")}Z`).fill(BAND);
  const drawn = line.filter(
    ({ value, z }) => value >= span.low && value <= span.high && Math.abs(z) <= reach,
  );
  sheet.doc
    .path(drawn.map(({ value, z }, i) => `${i === 0 ? "M" : "L"}${at(x(value))} ${at(y(z))}`).join(""))
    .lineWidth(0.9)
    .strokeColor(INK)
    .stroke();
  const isOut = (value: number) => isOutside(value, feature.tolerance);
  const dots = points.filter(({ value }) => !isOut(value));
  const out = points.filter(({ value }) => isOut(value));
  if (dots.length > 0)
    sheet.doc.path(dots.map(({ value, z }) => markPath("disc", x(value), y(z), 1.1)).join("")).fill(SERIES);
  if (out.length > 0)
    sheet.doc.path(out.map(({ value, z }) => markPath("diamond", x(value), y(z), 1.6)).join("")).fill(OUT);
  drawLimits(sheet, frame, { x, span, feature, words });
  drawValueAxis(sheet, place, frame, { x, span, feature, words });
}

export type DrawnLot = { code: string; min: number; mean: number; max: number };

/** Each lot from its smallest to its largest reading, in the order of time. */
export function drawLots(
  sheet: Sheet,
  place: Place,
  { lots, feature, words }: { lots: readonly DrawnLot[]; feature: ShownFeature; words: PrintWords },
): void {
  const frame = { ...frameOf(place), top: place.y + 18, right: place.x + place.width - 74 };
  const data = {
    low: Math.min(...lots.map(({ min }) => min)),
    high: Math.max(...lots.map(({ max }) => max)),
  };
  const flat = data.low === data.high ? Math.max(1e-6, Math.abs(data.low) * 1e-3) : 0;
  const { span } = shownSpan({ low: data.low - flat, high: data.high + flat }, feature.tolerance);
  const y = linearScale(span, { start: frame.bottom, end: frame.top });
  const step = (frame.right - frame.left) / lots.length;
  const x = (i: number) => frame.left + (i + 0.5) * step;
  drawTitle(sheet, place, words.lotByLot);
  const ticks = niceTicks(span, 4);
  for (const value of ticks.values) {
    sheet.line(frame.left, y(value), frame.right, y(value), RULE, 0.4);
    label(sheet, fixed(value, ticks.places), { x: place.x, y: y(value) - 3.5, width: 31, align: "right" });
  }
  for (const [name, limit] of [
    ["upper", feature.tolerance.upper],
    ["lower", feature.tolerance.lower],
  ] as const) {
    if (limit === null || limit < span.low || limit > span.high) continue;
    sheet.line(frame.left, y(limit), frame.right, y(limit), INK, 1);
    label(sheet, `${words.sides[name]} ${feature.shown(limit)}`, {
      x: frame.right + 3,
      y: y(limit) - 3.5,
      width: 70,
      align: "left",
    });
  }
  const spans = lots.map(({ min, max }, i) => `M${at(x(i))} ${at(y(min))}L${at(x(i))} ${at(y(max))}`);
  sheet.doc
    .path(spans.join(""))
    .lineWidth(Math.max(0.4, Math.min(1.5, step * 0.3)))
    .strokeColor(BAR)
    .stroke();
  const radius = Math.max(0.6, Math.min(1.6, step * 0.4));
  sheet.doc.path(lots.map(({ mean }, i) => markPath("disc", x(i), y(mean), radius)).join("")).fill(SERIES);
  const out = lots.flatMap(({ min, max }, i) =>
    [min, max]
      .filter((value) => isOutside(value, feature.tolerance))
      .map((value) => markPath("diamond", x(i), y(value), 1.6)),
  );
  if (out.length > 0) sheet.doc.path(out.join("")).fill(OUT);
  sheet.line(frame.left, frame.bottom, frame.right, frame.bottom, SOFT, 0.6);
  const every = Math.max(1, Math.ceil(lots.length / 8));
  for (let i = 0; i < lots.length; i += every) {
    const code = lots[i]!.code;
    label(sheet, code.length > 11 ? `${code.slice(0, 10)}…` : code, {
      x: x(i) - 30,
      y: frame.bottom + 4,
      width: 60,
      align: "center",
    });
  }
}

function drawTitle(sheet: Sheet, { x, y, width }: Place, title: string): void {
  sheet.style({ size: 7.5, font: "bold" }).doc.text(title, x, y, { width, height: 9, ellipsis: true });
}

function drawBeyond(
  sheet: Sheet,
  { left, right, top, bottom }: Frame,
  { x, tolerance: { lower, upper } }: { x: (value: number) => number; tolerance: Tolerance },
): void {
  const within = (value: number) => Math.min(right, Math.max(left, x(value)));
  if (lower !== null) sheet.doc.rect(left, top, within(lower) - left, bottom - top).fill(BEYOND);
  if (upper !== null) sheet.doc.rect(within(upper), top, right - within(upper), bottom - top).fill(BEYOND);
}

function drawLimits(
  sheet: Sheet,
  { left, right, top, bottom }: Frame,
  {
    x,
    span,
    feature,
    words,
  }: { x: (value: number) => number; span: Span; feature: ShownFeature; words: PrintWords },
): void {
  for (const [name, limit] of [
    ["lower", feature.tolerance.lower],
    ["upper", feature.tolerance.upper],
  ] as const) {
    if (limit === null || limit < span.low || limit > span.high) continue;
    sheet.line(x(limit), top - 4, x(limit), bottom, INK, 1);
    const middle = Math.min(right - 34, Math.max(left + 34, x(limit)));
    // Two limits close together have their names on two lines.
    label(sheet, `${words.sides[name]} ${feature.shown(limit)}`, {
      x: middle - 36,
      y: top - (name === "lower" ? 12 : 19),
      width: 72,
      align: "center",
    });
  }
}

function drawValueAxis(
  sheet: Sheet,
  place: Place,
  { left, right, bottom }: Frame,
  {
    x,
    span,
    feature,
    words,
  }: { x: (value: number) => number; span: Span; feature: ShownFeature; words: PrintWords },
): void {
  sheet.line(left, bottom, right, bottom, SOFT, 0.6);
  const { values, places } = niceTicks(span, 4);
  for (const value of values) {
    sheet.line(x(value), bottom, x(value), bottom + 3, SOFT, 0.6);
    label(sheet, fixed(value, places), { x: x(value) - 30, y: bottom + 4, width: 60, align: "center" });
  }
  const sign = unitSign(feature.unit);
  label(sheet, words.reading(sign, feature.isReduced), {
    x: left,
    y: place.y + place.height - 10,
    width: right - left,
    align: "center",
  });
}

function label(
  sheet: Sheet,
  words: string,
  { x, y, width, align }: { x: number; y: number; width: number; align: "left" | "right" | "center" },
): void {
  sheet.style({ size: 6, color: SOFT }).label(words, { x, y, width, align });
}

function isOutside(value: number, { lower, upper }: Tolerance): boolean {
  return (lower !== null && value < lower) || (upper !== null && value > upper);
}

function at(value: number): number {
  return Math.round(100 * value) / 100;
}
