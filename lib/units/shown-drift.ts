import type { DriftFlag, DriftScan } from "../drift/drift-scan";
import type { FeatureShift } from "../drift/magnitude";
import { type LengthDisplay, lengthIn, resolutionIn, shownUnit } from "./length";

/** A flag as it is shown: how far its source moved, its features, and the limits they are bound for. */
export function shownFlag(flag: DriftFlag, display: LengthDisplay): DriftFlag {
  if (display === "plan") return flag;
  const { magnitude, features, unmoved, forecast, telling } = flag;
  const unit = shownUnit(magnitude.unit, display);
  const units = new Map([...features, ...unmoved].map((one) => [nameOf(one), one.unit]));
  const boundIn = (one: { part: string; feature: string }, value: number) => {
    const own = units.get(nameOf(one)) ?? magnitude.unit;
    return lengthIn(value, own, shownUnit(own, display));
  };
  return {
    ...flag,
    magnitude: {
      ...magnitude,
      unit,
      value: lengthIn(magnitude.value, magnitude.unit, unit),
      standardError:
        magnitude.standardError === null ? null : lengthIn(magnitude.standardError, magnitude.unit, unit),
    },
    // What an older version stored has no telling, and keeps the sentence it has.
    ...(telling && {
      telling: {
        ...telling,
        resolution: telling.resolution && resolutionIn(telling.resolution, magnitude.unit, unit),
      },
    }),
    features: features.map((one) => shiftIn(one, display)),
    unmoved: unmoved.map((one) => shiftIn(one, display)),
    forecast: forecast && {
      ...forecast,
      features: forecast.features.map((one) => ({
        ...one,
        level: boundIn(one, one.level),
        bound: boundIn(one, one.bound),
      })),
    },
  };
}

function nameOf({ part, feature }: { part: string; feature: string }): string {
  return `${part}|${feature}`;
}

function shiftIn<Shift extends Pick<FeatureShift, "unit" | "shift" | "standardError">>(
  one: Shift,
  display: LengthDisplay,
): Shift {
  const unit = shownUnit(one.unit, display);
  return {
    ...one,
    unit,
    shift: lengthIn(one.shift, one.unit, unit),
    standardError: lengthIn(one.standardError, one.unit, unit),
  };
}

/** What a stored scan says of places and events, as it is shown; everything else of it is in sigma. */
export function shownScan<Scan extends Pick<DriftScan, "standing" | "atEvents">>(
  scan: Scan,
  display: LengthDisplay,
): Scan {
  if (display === "plan") return scan;
  return {
    ...scan,
    standing: scan.standing.map((source) => ({
      ...source,
      features: source.features.map((one) => {
        const unit = shownUnit(one.unit, display);
        return {
          ...one,
          unit,
          offset: lengthIn(one.offset, one.unit, unit),
          standardError: lengthIn(one.standardError, one.unit, unit),
        };
      }),
    })),
    atEvents: scan.atEvents.map((event) => {
      const unit = shownUnit(event.unit, display);
      return {
        ...event,
        unit,
        shift: lengthIn(event.shift, event.unit, unit),
        features: event.features.map((one) => shiftIn(one, display)),
      };
    }),
  };
}
