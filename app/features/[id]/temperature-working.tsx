import type { FeatureHistory } from "../../../db/queries/history";
import { fixed, measured, whole, withUnit } from "../../../lib/format/numbers";
import type { TemperatureReduction } from "../../../lib/plan/feature-plan";
import { handbookUncertainty } from "../../../lib/temperature/materials";
import { REFERENCE_TEMPERATURE, reducedTo20 } from "../../../lib/temperature/reduce";
import { reducedWithUncertainty } from "../../../lib/temperature/uncertainty";

const PER_MILLION = 1e-6;
/** A part nearer to 20 °C than this is no example of a reduction. */
const TELLING = 0.5;

/** Whether readings are charted as measured or as they would be at 20 °C, with a late one as an example. */
export function TemperatureWorking({ history }: { history: FeatureHistory }) {
  const { feature, series, setup } = history;
  const { reduction } = setup.plan;
  const { unit } = feature;
  if (!reduction || unit === "deg" || unit === "none") {
    return <p>Readings are charted as measured, at the temperature the part had.</p>;
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
        Readings are charted as they would be at {REFERENCE_TEMPERATURE} °C (ISO 1): x₂₀ = x − α·L·(T −{" "}
        {REFERENCE_TEMPERATURE} °C), with α = {fixed(reduction.expansion / PER_MILLION, 1)}·10⁻⁶ per kelvin
        and L = {reduction.length} mm.
        {missing > 0
          ? ` ${whole(missing)} of ${whole(series.count)} readings state no part temperature and are charted as measured.`
          : ""}
      </p>
      {example ? (
        <p>
          For example: {withUnit(figure(example.value, 0), unit)} measured at {fixed(example.partTemp, 1)} °C
          is {withUnit(figure(reducedTo20({ ...example, reduction, unit }), 1), unit)} at{" "}
          {REFERENCE_TEMPERATURE} °C.
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
  const coefficient = `u(α) = ${fixed(expansion / PER_MILLION, 2)}·10⁻⁶ per kelvin (${feature.expansionUncertainty === null ? "handbook value, 10 % either way" : "control plan"})`;
  return (
    <p>
      Of that, {figure(correction)} is the reduction.{" "}
      {temperatureUncertainty === null
        ? `With ${coefficient} alone it is uncertain by at least ±${figure(COVERAGE * standardUncertainty)} (k = ${COVERAGE}); how well the part temperature is known, the control plan does not state.`
        : `With u(T) = ${temperatureUncertainty} K and ${coefficient} it is uncertain by ±${figure(COVERAGE * standardUncertainty)} (expanded, k = ${COVERAGE}): L·α·u(T) = ${figure(parts.temperature)}, L·ΔT·u(α) = ${figure(parts.expansion)}, L·u(α)·u(T) = ${figure(parts.together)}, squares added up.`}{" "}
      The gauge&apos;s own uncertainty is not in it (JCGM 100, from memory).
    </p>
  );
}

function positionsWithTemperature(partTemp: Float64Array): number[] {
  const positions: number[] = [];
  for (let i = 0; i < partTemp.length; i++) if (!Number.isNaN(partTemp[i])) positions.push(i);
  return positions;
}
