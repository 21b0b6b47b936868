/** What an index does not say, for whoever passes it on. `confidence` in words: "95 %". */
export function cautions(confidence: string): string[] {
  return [
    "Capability is no acceptance of product and no proof of safety or airworthiness. Pieces are accepted by the drawing, the customer's requirements and the shop's nonconformance procedure, under its qualified people.",
    "An index speaks of the readings in its window. It holds for the next ones as long as the process stays as it was: that is what the chart watches.",
    `The lower bound covers the chance in which pieces were measured, at ${confidence} confidence. It does not cover a wrong gauge, a wrong datum or readings that were never taken.`,
    "The spread shown is that of the process and the gauge together; a better gauge would show the same pieces with higher indices.",
    "Fractions by a fitted curve far below what could be counted are a calculation on an assumed shape, not something anybody has seen.",
  ];
}
