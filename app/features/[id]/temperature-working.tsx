import type { FeatureHistory } from "../../../db/queries/history";
import { fixed, measured, whole, withUnit } from "../../../lib/format/numbers";
import { REFERENCE_TEMPERATURE, reducedTo20 } from "../../../lib/temperature/reduce";

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
    </>
  );
}

function positionsWithTemperature(partTemp: Float64Array): number[] {
  const positions: number[] = [];
  for (let i = 0; i < partTemp.length; i++) if (!Number.isNaN(partTemp[i])) positions.push(i);
  return positions;
}
