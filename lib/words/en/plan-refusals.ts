import { counted } from "../../format/numbers";

/** Why nothing of the control plan and its limits was saved. */
export const planRefusals = {
  "part-number": "Nothing saved: a part needs a number.",
  "part-there": (number: string, revision: string) =>
    `Nothing saved: part ${number} revision ${revision || "(none)"} is there already.`,
  "part-unknown": (id: number) => `Nothing saved: there is no part ${id}.`,
  "feature-unknown": (id: number) => `Nothing saved: there is no feature ${id}.`,
  "feature-name": "Nothing saved: a feature needs a name.",
  "feature-name-taken": (name: string) => `Nothing saved: this part has a feature "${name}" already.`,
  "feature-unit": (name: string, before: string, after: string) =>
    `Nothing saved: "${name}" has measurements in ${before}, so its unit cannot become ${after}. Enter a new feature for the other unit, or choose the display unit in the plant's settings.`,
  "value-no-count": (value: number) =>
    `Nothing saved: a stored value does not fit. The control plan charts counts, and ${value} is no whole number from 0 on.`,
  "value-many": (value: number, size: number) =>
    `Nothing saved: a stored value does not fit. The control plan has ${size} pieces looked at, and ${value} nonconforming are more than that.`,
  "tolerance-order": (lower: number, upper: number) =>
    `Nothing saved: the lower tolerance limit ${lower} is not below the upper one ${upper}.`,
  "single-size": "Nothing saved: a chart of single readings has subgroups of 1.",
  "mean-size": (size: number) =>
    `Nothing saved: a chart of subgroup means needs subgroups of 2 to 1000, not ${size}.`,
  "resolution-step": "Nothing saved: the resolution is a step above 0.",
  "length-positive": "Nothing saved: the length that expands is above 0 mm.",
  "reduced-length":
    "Nothing saved: a value is reduced to 20 °C only with a length that expands, and an angle has none.",
  "memory-smoothing": "Nothing saved: λ of the weighted average lies from 0.01 to 1.",
  "memory-width": "Nothing saved: L of the weighted average lies above 0 and is at most 6.",
  "memory-reference": "Nothing saved: k of the cumulative sum lies from 0 to 3.",
  "memory-decisionInterval": "Nothing saved: h of the cumulative sum lies above 0 and is at most 20.",
  "memory-headStart": "Nothing saved: the head start of the cumulative sum lies from 0 to h/2.",
  "value-no-size":
    "Nothing saved: a stored count does not say on how many pieces or units it was found. Enter a usual number.",
  "value-other-size": (inspected: number, planned: number, chart: "p" | "u") =>
    `Nothing saved: a stored count was found on ${inspected}, not on ${planned}. Choose ${chart} for sizes that vary.`,
  "value-part-size": (inspected: number) =>
    `Nothing saved: a stored count was found on ${inspected}, which is no whole number of pieces.`,
  "counts-one-size": (chart: "p" | "u") =>
    `Nothing saved: this chart takes samples of one size. Enter it, or choose ${chart} for sizes that vary.`,
  "counts-on-nothing": "Nothing saved: counts are found on a number of pieces or units above 0.",
  "counts-among": (most: number) =>
    `Nothing saved: nonconforming pieces are counted among a whole number of them, up to ${most}.`,
  "counts-single": "Nothing saved: counts stand singly: their chart is that of single readings.",
  "counts-tolerance":
    "Nothing saved: counts have no tolerance; what is nonconforming was decided before they were counted.",
  "counts-unit": "Nothing saved: counts have no unit.",
  "counts-reduced": "Nothing saved: counts are not reduced to 20 °C.",
  "rules-none": "Nothing saved: choose at least one run rule, or nothing would ever signal.",
  "owner-gone": "Nothing saved: this is not in the control plan any more. Reload the page.",
  "steps-many": (most: number, count: number) =>
    `Nothing saved: a plan has at most ${most} steps, this has ${count}.`,
  "verify-range": (most: number, count: number) =>
    `Nothing saved: verification takes 1 to ${most} good subgroups, not ${count}.`,
  "plan-newer": (by: string | null, version: number) =>
    `Nothing saved: ${by ?? "somebody"} has written version ${version} meanwhile. Your text is still here: compare, and save again.`,

  "limits-why": "Nothing saved: write why these limits are frozen; the record keeps it.",
  "limits-few": (count: number, least: number) =>
    `Nothing saved: the baseline holds ${counted(count, "subgroup")} that ${count === 1 ? "counts" : "count"}, and limits need at least ${least}. Choose a longer baseline, or go on with trial limits until there are enough.`,
  "limits-no-lots":
    "Nothing saved: lot means differ by no more than the readings within a lot explain, so there is no lot-to-lot variation to take into limits.",
  "limits-no-variation":
    "Nothing saved: the baseline shows no variation at this resolution, so there is nothing to draw limits from.",
  "estimator-counts":
    "Nothing saved: the sigma of counts follows from their mean; there is nothing to choose.",
  "estimator-lots":
    "Nothing saved: limits of lot means need one subgroup for each lot, and lots that are stated. Set the subgroup size in the control plan to the pieces of a lot, or choose another way to estimate sigma.",
  "estimator-unequal":
    "Nothing saved: subgroups of this baseline differ in size, and that way to estimate sigma needs equal ones. Choose another.",
  "estimator-other": "Nothing saved: that way to estimate sigma does not go with this chart. Choose another.",
  "exclusion-cause": "Nothing saved: name the assigned cause; a subgroup is never left out without one.",
  "exclusion-order": "Nothing saved: the last subgroup to leave out comes before the first.",
  "exclusion-taken-in": "Nothing saved: these subgroups were taken back in already. Reload the page.",

  "gauge-code": "Nothing saved: a gauge needs a code, the one that measurement files name it by.",
  "gauge-there": (code: string) =>
    `Nothing saved: there is a gauge ${code} already. Change its record instead.`,
  "gauge-unknown": (id: number) => `Nothing saved: there is no gauge ${id}.`,
  "gauge-A": "Nothing saved: A of the maximum permissible error is at least 0 µm.",
  "gauge-K": "Nothing saved: K of the maximum permissible error is above 0.",
  "gauge-K-alone": "Nothing saved: K alone says nothing: enter A as well, 0 where there is none.",
  "gauge-due": "Nothing saved: the calibration is due after the day on which it was made.",
  "study-feature": "Nothing saved: the feature it was made on is not in the control plan any more.",
  "study-unit": (feature: string, own: string, unit: string) =>
    `Nothing saved: ${feature} is measured in ${own}, and the study in ${unit}.`,
  "study-why": "Nothing saved: write why this study does not hold; the record keeps it.",
  "study-withdrawn": "Nothing saved: this study was withdrawn already. Reload the page.",
  "study-parts": (count: number) =>
    `Nothing saved: it has ${counted(count, "part")}, and at least 2 are needed.`,
  "study-operators": (count: number) =>
    `Nothing saved: it has ${counted(count, "operator")}, and at least 2 are needed: what changes between them is half of the question.`,
  "study-gap": (part: string, operator: string, count: number, others: number) =>
    `Nothing saved: part ${part} by operator ${operator} has ${counted(count, "reading")}, others have ${others}. Every operator measures every part equally often.`,
  "study-trials":
    "Nothing saved: every operator measured every part once; at least 2 trials show how well it repeats.",
  "study-tolerance":
    "Nothing saved: a type-1 study judges against a tolerance: state its width or a feature that has one.",
  "study-one-setup":
    "Nothing saved: no piece was measured in two setups or more, so nothing tells what setting up anew adds.",
  "study-one-reading":
    "Nothing saved: no piece was measured twice in one setup, so nothing tells setup and repeatability apart.",
  "study-alike":
    "Nothing saved: all readings are alike: the gauge's step hides its own scatter. Read it one digit further, or study it with finer readings.",
  "study-few": (got: number, needed: number) =>
    `Nothing saved: it has ${counted(got, "reading")}, and at least ${needed} are needed.`,
};
