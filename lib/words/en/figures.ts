/** What stands with figures. Arguments are figures already written, with their units. */
export const figures = {
  fromTo: (lower: string, upper: string): string => `${lower} to ${upper}`,
  atMost: (upper: string): string => `at most ${upper}`,
  atLeast: (lower: string): string => `at least ${lower}`,
  noTolerance: "no tolerance",
  sigma: "sigma",
  notKnown: "not known",
  notComputed: "not computed",
};
