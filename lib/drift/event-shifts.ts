import { median } from "../summary/moments";
import { solve } from "./cholesky";
import { coefficientsOf, columnsOf, generalised } from "./columns";
import { type Design, indicatorsOf } from "./design";
import { millimetreIn } from "./length-unit";
import type { EventKind, PieceKind, ScannedSource, SourceEvent } from "./measured-part";
import { presentLevels } from "./piece-table";
import type { TableScan } from "./scan-table";
import type { Ratios } from "./strata";

/** How a source lies after an event against before it: intended or not, somebody should know. */
export type EventShift = {
  source: ScannedSource;
  event: EventKind;
  at: number;
  /** Features beyond 4 standard errors, most certain first, in their unit. */
  features: { part: string; feature: string; unit: string; shift: number; standardError: number }[];
  /** Features that were read on both sides of the event. */
  inScope: number;
  /**
   * A gauge's in mm (inches where all are), over all features it read, weighted by their information; of others the
   * middle one of the features that changed.
   */
  shift: number;
  unit: string;
};

/** What a change at an event has to reach on how many features. Common practice, no source. */
const ERRORS = 4;
const LEAST_FEATURES = 2;

const KINDS: readonly (PieceKind | "gauge" | "tool")[] = [
  "fixture",
  "machine",
  "operator",
  "setup",
  "gauge",
  "tool",
];

/**
 * The scan takes what changes with a logged event as intended and begins anew. So that a calibration that went wrong
 * does not pass unseen, each event's before and after are compared here: the difference of the source's two levels,
 * estimated by generalised least squares beside everything else that is static, lots being random.
 */
export function eventShifts(scans: readonly TableScan[], events: readonly SourceEvent[]): EventShift[] {
  const found = new Map<string, Entry>();
  for (const scan of scans) {
    for (const [d, design] of scan.prepared.designs.entries()) {
      for (const kind of KINDS) {
        for (const pair of pairsIn(scan, design, kind)) {
          const event = eventBetween(events, { kind, ...pair });
          if (event === null) continue;
          const key = `${kind}|${pair.code}|${event.at}`;
          const entry = found.get(key) ?? {
            source: { kind, id: pair.code },
            event: event.event,
            at: event.at,
            features: [],
            all: [],
          };
          found.set(key, entry);
          addFeatures(entry, scan, d, { kind, ...pair });
        }
      }
    }
  }
  return [...found.values()]
    .filter(({ features }) => features.length >= LEAST_FEATURES)
    .map(({ all, ...entry }) => ({
      ...entry,
      inScope: all.length,
      ...(entry.source.kind === "gauge" ? commonShift(all) : middleShift(entry.features)),
    }))
    .sort((a, b) => b.at - a.at);
}

type Entry = Pick<EventShift, "source" | "event" | "at" | "features"> & { all: EventShift["features"] };

type Pair = { code: string; before: number; after: number; beforeTo: number; afterFrom: number };

/** Levels of one source that follow each other in time. */
function pairsIn({ prepared }: TableScan, design: Design, kind: (typeof KINDS)[number]): Pair[] {
  const { levels, of } = design[kind];
  if (new Set(levels.codes).size === levels.codes.length) return [];
  const from = new Map<number, number>();
  const to = new Map<number, number>();
  for (const [i, level] of of.entries()) {
    if (level < 0) continue;
    const at = prepared.table.takenAt[design.rows[i]!]!;
    from.set(level, Math.min(at, from.get(level) ?? at));
    to.set(level, Math.max(at, to.get(level) ?? at));
  }
  const inTime = [...from].sort(([, a], [, b]) => a - b).map(([level]) => level);
  return inTime.flatMap((after, k) => {
    const before = inTime.slice(0, k).findLast((level) => levels.codes[level] === levels.codes[after]);
    if (before === undefined) return [];
    return [
      { code: levels.codes[after]!, before, after, beforeTo: to.get(before)!, afterFrom: from.get(after)! },
    ];
  });
}

function eventBetween(
  events: readonly SourceEvent[],
  { kind, code, beforeTo, afterFrom }: Pair & { kind: string },
): SourceEvent | null {
  return (
    events.findLast(
      (one) => one.kind === kind && one.source === code && one.at > beforeTo && one.at <= afterFrom,
    ) ?? null
  );
}

function addFeatures(
  entry: Entry,
  { prepared, fit }: TableScan,
  d: number,
  { kind, before, after }: Pair & { kind: (typeof KINDS)[number] },
): void {
  const design = prepared.designs[d]!;
  const told = new Map<number, ReturnType<typeof differenceIn>>();
  for (const f of design.features) {
    const klass = fit.classOf[f]!;
    const tell = told.get(klass) ?? differenceIn(design, fit.classes[klass]!, { kind, before, after });
    told.set(klass, tell);
    const difference = tell(fit.values[f]!);
    if (difference === null) continue;
    const { feature, sigma } = prepared.features[f]!;
    const unit = sigma * fit.scale[f]!;
    const one = {
      part: prepared.table.part,
      feature: feature.name,
      unit: feature.unit,
      shift: difference.estimate * unit,
      standardError: difference.standardError * unit,
    };
    entry.all.push(one);
    if (Math.abs(one.shift) > ERRORS * one.standardError) entry.features.push(one);
  }
  entry.features.sort((a, b) => Math.abs(b.shift / b.standardError) - Math.abs(a.shift / a.standardError));
}

/** The level after less the one before, as a function of a feature's values; null where it cannot be told. */
function differenceIn(
  { strata, statics, ...columns }: Design,
  ratios: Ratios,
  { kind, before, after }: { kind: (typeof KINDS)[number]; before: number; after: number },
): (values: Float64Array) => { estimate: number; standardError: number } | null {
  // Against the level before, which has no column of its own; the other kinds' columns come first.
  const others = statics.filter((group) => group.kind !== kind);
  const { of } = columns[kind];
  const levels = presentLevels(columns[kind].levels, of).filter((level) => level !== before);
  const gls = generalised(strata, columnsOf(strata, [...others, indicatorsOf(of, levels)], []), ratios);
  const place = others.reduce((sum, { count }) => sum + count, 0) + levels.indexOf(after);
  if (gls.gram.kept[place] !== 1) return () => null;
  const solved = new Float64Array(gls.columns.size);
  solved[place] = 1;
  solve(gls.gram, solved);
  const standardError = Math.sqrt(Math.max(0, solved[place]!));
  return (values) => ({ estimate: coefficientsOf(gls, values)[place]!, standardError });
}

function middleShift(features: EventShift["features"]): Pick<EventShift, "shift" | "unit"> {
  const { unit, shifts } = inOneUnit(features);
  return { shift: median(shifts.map(({ shift }) => shift)), unit };
}

/** A gauge that was set otherwise adds the same length to everything it reads. */
function commonShift(features: EventShift["features"]): Pick<EventShift, "shift" | "unit"> {
  const { unit, shifts } = inOneUnit(features);
  let [sum, information] = [0, 0];
  for (const { shift, standardError } of shifts) {
    sum += shift / standardError ** 2;
    information += 1 / standardError ** 2;
  }
  return { shift: sum / information, unit };
}

function inOneUnit(features: EventShift["features"]) {
  const [first = "none", ...others] = new Set(features.map((one) => one.unit));
  const unit = others.length === 0 ? first : "mm";
  const shifts = features.map((one) => {
    const scale = millimetreIn(unit) / millimetreIn(one.unit);
    return { shift: one.shift * scale, standardError: one.standardError * scale };
  });
  return { unit, shifts };
}
