import { InvalidInput, requireFiniteNumbers } from "../checks";
import { type Computed, computed } from "../computed";
import { capabilityIndices, type Indices, type ProcessSummary } from "./indices";

export type GaugeAwareIndices = {
  /** As the readings show them, the gauge's variation in. */
  observed: Indices;
  /** What the process would show under a perfect gauge; null when the gauge explains all that is seen. */
  process: Indices | null;
  /** σ gauge² / s², the share of the observed variance that is the gauge's own. */
  gaugeShare: number;
  sdProcess: number | null;
  sigmaWithinProcess: number | null;
};

/**
 * Indices of what is seen and of the process behind it.
 *
 *   σ² observed = σ² process + σ² gauge
 *
 * for the overall standard deviation and for the sigma within subgroups alike. The observed index is the one a
 * customer sees and the one to be claimed; the other says how much a better gauge would gain. The difference of the
 * variances is uncertain where the gauge takes most of the spread.
 *
 * @param gaugeSigma standard deviation of the gauge, repeatability and reproducibility together
 * Source: AIAG, Measurement Systems Analysis, 4th edition, chapter I (from memory).
 *
 * @returns the problems of `capabilityIndices`
 * @throws InvalidInput as `capabilityIndices`, or when the gauge's sigma is negative or not finite
 */
export function gaugeAwareIndices(
  summary: ProcessSummary,
  { gaugeSigma }: { gaugeSigma: number },
): Computed<GaugeAwareIndices> {
  requireFiniteNumbers("gaugeAwareIndices", { gaugeSigma });
  if (gaugeSigma < 0) throw new InvalidInput("gaugeAwareIndices", "gaugeSigma", gaugeSigma, "at least 0");
  const observed = capabilityIndices(summary);
  if (!observed.ok) return observed;
  const sdProcess = withoutGauge(summary.sdOverall, gaugeSigma);
  const sigmaWithinProcess =
    summary.sigmaWithin === null ? null : withoutGauge(summary.sigmaWithin, gaugeSigma);
  const process =
    sdProcess === null
      ? null
      : capabilityIndices({ ...summary, sdOverall: sdProcess, sigmaWithin: sigmaWithinProcess });
  return computed({
    observed: observed.value,
    process: process?.ok ? process.value : null,
    gaugeShare: (gaugeSigma / summary.sdOverall) ** 2,
    sdProcess,
    sigmaWithinProcess,
  });
}

/** √(σ² − σ gauge²); null when nothing is left. */
function withoutGauge(sigma: number, gaugeSigma: number): number | null {
  return sigma > gaugeSigma ? Math.sqrt((sigma - gaugeSigma) * (sigma + gaugeSigma)) : null;
}
