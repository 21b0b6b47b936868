import { use } from "react";
import type { FeatureHistory } from "../../../db/queries/history";
import { fixed, measured, withUnit } from "../../../lib/format/numbers";
import type { TemperatureReduction } from "../../../lib/plan/feature-plan";
import { handbookUncertainty } from "../../../lib/temperature/materials";
import { REFERENCE_TEMPERATURE, reducedTo20 } from "../../../lib/temperature/reduce";
import { reducedWithUncertainty } from "../../../lib/temperature/uncertainty";
import { words } from "../../language/language";

const PER_MILLION = 1e-6;
/** A part nearer to 20 °C than this is no example of a reduction. */
const TELLING = 0.5;

/** Whether readings are charted as measured or as they would be at 20 °C, with a late one as an example. */
export function TemperatureWorking({ history }: { history: FeatureHistory }) {
  const { feature, series, setup } = history;
  const { reduction } = setup.plan;
  const { unit } = feature;
  const { temperature: said } = use(words()).working;
  if (!reduction || unit === "deg" || unit === "none") {
    return <p>{said.asMeasured}</p>;
  }
  const stated = positionsWithTemperature(series.partTemp);
  const last = stated.findLast((at) => Math.abs(series.partTemp[at]! - REFERENCE_TEMPERATURE) >= TELLING);
  const missing = series.count - stated.length;
  const figure = (value: number, extra: number) => measured(value, { resolution: feature.resolution, extra });
  const example =
    last === undefined ? null : { value: series.value[last]!, partTemp: series.partTemp[last]! };
  return (
    <>
      <p>
        {said.reduced(REFERENCE_TEMPERATURE, fixed(reduction.expansion / PER_MILLION, 1), reduction.length)}
        {missing > 0 ? said.missing(missing, series.count) : ""}
      </p>
      {example ? (
        <p>
          {said.example({
            measured: withUnit(figure(example.value, 0), unit),
            at: fixed(example.partTemp, 1),
            reduced: withUnit(figure(reducedTo20({ ...example, reduction, unit }), 1), unit),
            reference: REFERENCE_TEMPERATURE,
          })}
        </p>
      ) : null}
      {example ? <Uncertainty history={history} example={example} reduction={reduction} unit={unit} /> : null}
    </>
  );
}

/** Coverage factor of an expanded uncertainty, about 95 % (JCGM 100, from memory). */
const COVERAGE = 2;

/** What the reduction adds to the uncertainty of a value, with the example's own figures. */
function Uncertainty({
  history,
  example,
  reduction,
  unit,
}: {
  history: FeatureHistory;
  example: { value: number; partTemp: number };
  reduction: TemperatureReduction;
  unit: "mm" | "in";
}) {
  const { feature } = history;
  const { temperatureUncertainty } = feature;
  const { temperature: said } = use(words()).working;
  const expansion = feature.expansionUncertainty ?? handbookUncertainty(reduction.expansion);
  const reduced = reducedWithUncertainty({
    ...example,
    reduction,
    unit,
    uncertainty: { value: 0, temperature: temperatureUncertainty ?? 0, expansion },
  });
  if (!reduced) return null;
  const { parts, correction, standardUncertainty } = reduced;
  const figure = (value: number) =>
    withUnit(measured(value, { resolution: feature.resolution, extra: 2 }), unit);
  const isHandbook = feature.expansionUncertainty === null;
  const coefficient = said.coefficient(fixed(expansion / PER_MILLION, 2), isHandbook);
  const uncertain = figure(COVERAGE * standardUncertainty);
  return (
    <p>
      {said.correction(figure(correction))}{" "}
      {temperatureUncertainty === null
        ? said.atLeast(coefficient, uncertain, COVERAGE)
        : said.uncertain({
            temperature: temperatureUncertainty,
            coefficient,
            figure: uncertain,
            coverage: COVERAGE,
            parts: {
              temperature: figure(parts.temperature),
              expansion: figure(parts.expansion),
              together: figure(parts.together),
            },
          })}{" "}
      {said.notTheGauge}
    </p>
  );
}

function positionsWithTemperature(partTemp: Float64Array): number[] {
  const positions: number[] = [];
  for (let i = 0; i < partTemp.length; i++) if (!Number.isNaN(partTemp[i])) positions.push(i);
  return positions;
}
