/**
 * How long a chart runs until its first signal, in plotted points, the signalling one counted.
 *
 * `mean` is the average run length: with nothing wrong, the points per false alarm; with the process
 * shifted from the first point on, how long it takes to notice. Run lengths scatter about as much as their
 * mean: `sd` is nearly as large.
 */
export type RunLength = { mean: number; sd: number };

/** How far the mean of the plotted points may lie from the centre, in their sigma: beyond, all is certain. */
export const FARTHEST_SHIFT = 20;
