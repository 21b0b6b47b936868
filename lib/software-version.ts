/** Of the program, as package.json has it. */
export const SOFTWARE_VERSION = "0.1.0";

/** A digest of the computing code, which the bundler puts in this place (app/start/bundle.mjs); absent in tests. */
declare const COMPUTATION: string | undefined;

/**
 * What a statement says it was computed by: the version, and the digest of the very code. Two builds of one digest give
 * the same digits; where the digest differs, recomputing tells whether anything else does.
 */
export const COMPUTED_BY =
  typeof COMPUTATION === "undefined" ? SOFTWARE_VERSION : `${SOFTWARE_VERSION} (${COMPUTATION})`;
