/**
 * The scan's few constants. They were set by simulation on seeds of their own (the measured rates are in
 * README.md of this folder); none is from a standard.
 */

/** A source is flagged when its log evidence passes log(number of sources) + this. */
export const THRESHOLD = 1.5;

/** Lots have a budget of their own: that a lot was different is information and no alarm about equipment. */
export const LOT_THRESHOLD = 0.5;

/** Variance of the usual shift of a feature that moves, in sigma squared. */
export const SLAB = 1;

/** The same for scatter, on the cube-root scale of a variance ratio. */
export const SPREAD_SLAB = 0.35 * 0.35;

/** Below it a shift is recorded and kept in the model, but not flagged; in sigma. */
export const LEAST_EFFECT = 0.35;

/** Fewer features than this, and it is the feature's own chart that tells. */
export const LEAST_FEATURES = 2;

/** Shares of a source's features that may have moved; the evidence is averaged over them. */
export const SHARES = [0.05, 0.2, 0.6, 1] as const;

/** How a kind of source usually moves: few of its features (a locator) or all of them (a gauge). */
export const SHARE_WEIGHTS: Record<string, readonly number[]> = {
  fixture: [0.3, 0.4, 0.2, 0.1],
  operator: [0.25, 0.35, 0.25, 0.15],
  setup: [0.25, 0.35, 0.25, 0.15],
  machine: [0.1, 0.2, 0.4, 0.3],
  process: [0.1, 0.2, 0.4, 0.3],
  lot: [0.1, 0.2, 0.4, 0.3],
  tool: [0.05, 0.15, 0.3, 0.5],
  gauge: [0.1, 0.1, 0.3, 0.5],
  temperature: [0.25, 0.25, 0.25, 0.25],
};

/** Expansion of iron and steel, per kelvin, rounded: the scale of the temperature test only. */
export const USUAL_EXPANSION = 1e-5;

/** ISO 1:2022. */
export const REFERENCE_TEMPERATURE = 20;

/** Lots of a part that the scan looks back on. */
export const WINDOW_LOTS = 60;

export const LEAST_PIECES = 8;
export const LEAST_LOTS = 4;

/** Flags of one scan; more would mean that the model does not fit the shop. */
export const MOST_FLAGS = 4;
