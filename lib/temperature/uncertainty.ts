import { InvalidInput, requireFiniteNumbers } from "../checks";
import type { TemperatureReduction } from "../plan/feature-plan";
import { MM_PER_INCH } from "../units/length";
import { REFERENCE_TEMPERATURE, reducedTo20 } from "./reduce";

export type ReducedValue = {
  /** At 20 °C, in the unit of the value; what `reducedTo20` gives. */
  value: number;
  /** Taken off the measured value, in its unit. */
  correction: number;
  standardUncertainty: number;
  /** What each source adds, as standard uncertainties in the unit of the value; squares add up. */
  parts: { measuring: number; temperature: number; expansion: number; together: number };
};

/**
 * A size at 20 °C with the uncertainty that temperature and expansion coefficient carry to it.
 *
 *   x₂₀ = x − αLΔT,  ΔT = T − 20 °C
 *   u²(x₂₀) = u²(x) + (αL·u(T))² + (LΔT·u(α))² + (L·u(α)·u(T))²
 *
 * The last term is of second order and small, but all that u(α) adds at 20 °C. T is the part's own temperature when it
 * was measured; the gauge is taken to be at 20 °C or to correct itself.
 *
 * Uncertainties are standard ones: of the value in its unit, of the temperature in kelvin, of the coefficient per kelvin.
 *
 * Source: ISO 1; Guide to the Expression of Uncertainty in Measurement, 5.1.2 and, for the last term, the note there
 * (from memory).
 *
 * @returns null when the part temperature is not stated (NaN): how far the size may be from that at 20 °C is not known
 * @throws InvalidInput when a number is not finite, an uncertainty is negative or the length is not positive
 */
export function reducedWithUncertainty({
  value,
  partTemp,
  reduction,
  unit,
  uncertainty,
}: {
  value: number;
  partTemp: number;
  reduction: TemperatureReduction;
  unit: "mm" | "in";
  uncertainty: { value: number; temperature: number; expansion: number };
}): ReducedValue | null {
  const where = "reducedWithUncertainty";
  requireFiniteNumbers(where, { value, expansion: reduction.expansion });
  for (const [field, of] of Object.entries(uncertainty)) {
    if (!(of >= 0 && Number.isFinite(of))) {
      throw new InvalidInput(where, `uncertainty.${field}`, of, "at least 0");
    }
  }
  const reduced = reducedTo20({ value, partTemp, reduction, unit });
  if (Number.isNaN(partTemp)) return null;
  requireFiniteNumbers(where, { partTemp });

  const length = unit === "in" ? reduction.length / MM_PER_INCH : reduction.length;
  const parts = {
    measuring: uncertainty.value,
    temperature: Math.abs(reduction.expansion) * length * uncertainty.temperature,
    expansion: length * Math.abs(partTemp - REFERENCE_TEMPERATURE) * uncertainty.expansion,
    together: length * uncertainty.expansion * uncertainty.temperature,
  };
  return {
    value: reduced,
    correction: value - reduced,
    standardUncertainty: Math.hypot(...Object.values(parts)),
    parts,
  };
}
