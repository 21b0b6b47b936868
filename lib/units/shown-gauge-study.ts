import { placesWritten } from "../format/numbers";
import {
  type StudyData,
  type StudyResult,
  type StudySettings,
  studyResult,
} from "../measurement-systems/study-data";
import type { KnownUnit } from "../plan/feature-plan";
import { inShownUnit, type LengthDisplay, resolutionIn } from "./length";

export type ShownGaugeStudy = {
  data: StudyData;
  settings: StudySettings;
  result: StudyResult;
  unit: KnownUnit;
};

/**
 * A gauge study as it is shown: computed anew from its readings in the other unit, for its figures are lengths, squares
 * of lengths and shares in turn. The readings themselves are shown to the step that loses none of theirs.
 *
 * Null where nothing is to be converted, or the study gives no figures.
 */
export function shownGaugeStudy(
  { data, settings, unit: own }: { data: StudyData; settings: StudySettings; unit: KnownUnit },
  display: LengthDisplay,
): ShownGaugeStudy | null {
  const { unit, length } = inShownUnit(own, display);
  if (unit === own) return null;
  const shown: StudySettings = {
    ...settings,
    toleranceWidth: length(settings.toleranceWidth),
    resolution: length(settings.resolution),
  };
  const anew = studyResult(
    mapped(data, (value) => length<number>(value)),
    shown,
  );
  if (!anew.ok) return null;
  const written = 10 ** -Math.max(...lengthsOf(data).map(placesWritten));
  const places = Math.round(-Math.log10(resolutionIn(written, own, unit)));
  return {
    data: mapped(data, (value) => Number(length<number>(value).toFixed(Math.max(0, places)))),
    settings: shown,
    result: anew.result,
    unit,
  };
}

function lengthsOf(data: StudyData): number[] {
  switch (data.kind) {
    case "type-1":
      return [data.reference, ...data.values];
    case "bias-linearity":
      return data.readings.flatMap(({ reference, value }) => [reference, value]);
    default:
      return data.readings.map(({ value }) => value);
  }
}

function mapped(data: StudyData, length: (value: number) => number): StudyData {
  switch (data.kind) {
    case "crossed":
      return { ...data, readings: data.readings.map((one) => ({ ...one, value: length(one.value) })) };
    case "type-1":
      return { ...data, reference: length(data.reference), values: data.values.map(length) };
    case "bias-linearity":
      return {
        ...data,
        readings: data.readings.map(({ reference, value }) => ({
          reference: length(reference),
          value: length(value),
        })),
      };
    case "setup":
      return { ...data, readings: data.readings.map((one) => ({ ...one, value: length(one.value) })) };
  }
}
