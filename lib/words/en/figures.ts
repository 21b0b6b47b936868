/** What stands with figures. Arguments are figures already written, with their units. */
export const figures = {
  fromTo: (lower: string, upper: string): string => `${lower} to ${upper}`,
  atMost: (upper: string): string => `at most ${upper}`,
  atLeast: (lower: string): string => `at least ${lower}`,
  noTolerance: "no tolerance",
  /** Fractions too small for a percentage. */
  perMillion: (figure: string): string => `${figure} per million`,
  belowPerMillion: (figure: string): string => `below ${figure} per million`,
  pBelow: (figure: string): string => `p below ${figure}`,
  /** Of units whose sign makes no sentence: a table is "in inches", not "in in". */
  unitNames: { in: "inches", deg: "degrees" },
  sigma: "sigma",
  notKnown: "not known",
  notComputed: "not computed",
};
