/** An expansion coefficient per kelvin, and its standard uncertainty. */
export type Expansion = { coefficient: number; standardUncertainty: number };

export type Material = { name: string; expansion: Expansion };

/** How far a handbook's coefficient may lie from that of the piece at hand, either way: alloy and treatment vary. */
const HANDBOOK_SPREAD = 0.1;

function material(name: string, coefficient: number): Material {
  return { name, expansion: { coefficient, standardUncertainty: handbookUncertainty(coefficient) } };
}

/**
 * Standard uncertainty of a handbook's coefficient, in its unit: anywhere within ±10 % of it, as a rectangular
 * distribution has it, 0.1·α/√3. The spread is common practice, no source.
 */
export function handbookUncertainty(coefficient: number): number {
  return (HANDBOOK_SPREAD * Math.abs(coefficient)) / Math.sqrt(3);
}

/**
 * Usual materials with their linear expansion about 20 °C, as a start that a shop edits: a part's own coefficient, from
 * its supplier or by measuring, is better than any of these.
 *
 * Source: handbook values, from memory; the spread of ±10 % is common practice, no source.
 */
export const MATERIALS: readonly Material[] = [
  material("steel", 11.5e-6),
  material("cast iron", 10.5e-6),
  material("aluminium", 23e-6),
];
