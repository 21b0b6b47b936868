import type { figures as english } from "../en/figures";

export const figures = {
  fromTo: (lower: string, upper: string) => `${lower} bis ${upper}`,
  atMost: (upper: string) => `höchstens ${upper}`,
  atLeast: (lower: string) => `mindestens ${lower}`,
  noTolerance: "keine Toleranz",
  perMillion: (figure: string) => `${figure} je Million`,
  belowPerMillion: (figure: string) => `unter ${figure} je Million`,
  pBelow: (figure: string) => `p unter ${figure}`,
  unitNames: { in: "Zoll", deg: "Grad" },
  sigma: "Sigma",
  notKnown: "nicht bekannt",
  notComputed: "nicht berechnet",
} satisfies typeof english;
