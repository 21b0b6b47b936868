import { counted, whole } from "../../format/numbers";

/** How a control chart is computed, with the feature's own figures. */
export const working = {
  title: "How is this computed",
  fromTo: (lower: string, upper: string): string => `${lower} to ${upper}`,
  points: {
    title: "Points",
    counts: (size: number, chart: string): string =>
      `Every value is a count on ${size}: ${chart}. It is judged as the count, with the sigma that follows from the mean count; how, stands by the chart.`,
    countsVarying: (chart: string): string =>
      `Every value is a count on a sample of its own size: ${chart}. It is judged in its own sigma, which follows from the mean rate and its size; how, stands by the chart.`,
    chartOf: (chart: string): string => `A chart of ${chart}.`,
    single:
      "Every reading is a point; its moving range is the distance from the reading before it that counts.",
    labelled: (size: number): string =>
      `Readings of one lot with the same subgroup label are one point; readings without a label are taken ${size} by ${size} in the order of time.`,
    inOrder: (size: number): string =>
      `Readings are taken ${size} by ${size} in the order of time; a subgroup that is not complete is no point yet.`,
  },
  limits: {
    trial: "Trial limits",
    version: (version: number): string => `Limits ${version}`,
    notFrozen: (least: number): string =>
      `Nobody has frozen limits yet. Until then they come from the first subgroups, and move while these are fewer than ${least}.`,
    frozen: "Frozen {when}: {reason}",
    frozenBy: "Frozen {when} by {by}: {reason}",
    why: (name: string, because: string, source: string): string =>
      `Why ${name}: ${because} Source: ${source}.`,
    baseline: "Baseline",
    baselineIs: (window: string, subgroups: number, readings: number): string =>
      `${window}: ${counted(subgroups, "subgroup")}, ${counted(readings, "reading")}`,
    centre: "Centre line",
    centreIs: (name: string, figure: string): string =>
      `${name} = mean of all readings of the baseline = ${figure}`,
    quotientIs: (spread: string, figure: string, divisor: string, value: string): string =>
      `${spread} = ${figure}, and ${divisor} = ${value}`,
    sigma: "Within-subgroup sigma",
    ofSize: (name: string, size: number): string => `${name}, n = ${size}`,
    locationIs: (formula: string, lower: string, upper: string): string =>
      `${formula} = ${lower} to ${upper}`,
    spreadIs: (formula: string, lower: string, upper: string, centre: string): string =>
      `${formula} = ${lower} to ${upper} about ${centre}; the lower one stops at 0`,
    ofTwo: "(d₂ ± 3d₃)σ̂ of two readings",
    byHand: "By hand",
    byHandSingle: (figures: string): string =>
      `The same as x̄ ± E₂·MR̄ and D₄·MR̄ with ${figures}, computed and not rounded.`,
    byHandRange: (size: number, figures: string): string =>
      `The same as x̿ ± A₂·R̄ and D₃·R̄ to D₄·R̄ with, for n = ${size}, ${figures}, computed and not rounded.`,
    byHandSd: (size: number, figures: string): string =>
      `The same as x̿ ± A₃·s̄ and B₃·s̄ to B₄·s̄ with, for n = ${size}, ${figures}, computed and not rounded.`,
    otherSizes: "Other sizes",
    sizes: (count: number): string =>
      `Subgroups have ${count} different sizes; each has limits of its own by the same formulas.`,
  },
  changed: {
    plan: "Chart or subgroup size in the control plan have changed since these limits were frozen, so their baseline cannot be taken again the same way. Consider freezing new ones.",
    none: "Their baseline no longer gives limits.",
    today: (centre: string, sigma: string): string =>
      `Since they were frozen, readings or exclusions of their baseline have changed: today it would give a centre of ${centre} and a sigma of ${sigma}. Frozen limits stay until somebody freezes new ones.`,
  },
  rules: {
    title: (set: string): string => `Run rules in force: ${set}`,
    look: "They look at z = (point − centre line) / its sigma, anew with every version of the limits. Differences below a billionth of sigma are ties.",
    noneBelow: "None of them holds on the lower chart, whose points are skewed.",
    below: (statements: string): string => `On the lower chart, whose points are skewed, only: ${statements}`,
  },
  leftOut: {
    title: "Left out",
    none: "Nothing: every subgroup counts.",
    is: "{cause}: {numbers}, since {when}",
    isBy: "{cause}: {numbers}, since {when} by {by}",
  },
  versions: {
    title: "All versions of the limits",
    is: (row: { version: number; centre: string; sigma: string; subgroups: number }): string =>
      `Limits ${row.version}: centre ${row.centre}, sigma ${row.sigma} from ${whole(row.subgroups)} subgroups.`,
  },
  each: {
    title: "The same baseline by each estimator",
    caption: "Sigma of the baseline by each estimator",
    ofLots: "MR̄ of lot means, see Lot means",
    within: (within: string, between: string): string => `${within} within, ${between} between`,
    heads: {
      estimator: "Estimator",
      formula: "Formula",
      sigma: "Sigma",
      freedom: "Degrees of freedom",
    },
    differ:
      "Estimates of one sigma that differ by more than their degrees of freedom allow (about 1/√(2ν) of it) say that the baseline was not one process, or holds outliers.",
  },
  lots: {
    title: (version: number): string => `Limits ${version}, of lot means`,
    within: "Within lots",
    withinIs: (figure: string): string => `σ̂ within = ${figure}`,
    between: "Between lots",
    betweenIs: (figure: string): string => `σ̂ between = √((MR̄/d₂)² − σ̂²within·mean of 1/n) = ${figure}`,
    mean: (size: number): string => `A mean of ${size}`,
    meanIs: (size: number, figure: string): string => `√(σ̂²between + σ̂²within/${size}) = ${figure}`,
    limits: "Limits",
    baseline: "Baseline",
    baselineIs: (lots: number, by: string | null, reason: string): string =>
      `${whole(lots)} lots; frozen${by ? ` by ${by}` : ""}: ${reason}`,
    source:
      "W. H. Woodall and E. V. Thomas, IIE Transactions 27 (1995) 757-764 (from memory). The lower chart goes by σ̂ within, as ever. A subgroup has to be one lot, or means of one lot are judged as if they were of several.",
  },
  runLength: {
    title: "How often they signal",
    counts: "How often counts signal by chance is worked out by the chart, exactly, for limits alone.",
    alsoWatched: (chart: string): string => `Also watched by ${chart}.`,
    source:
      "Average run lengths with known limits and independent normal points, the shift there from the first of them: C. W. Champ and W. H. Woodall, Technometrics 29 (1987) 393-399 (from memory), by Markov chain or integral equation; “≈” is simulated.",
    often: (subgroups: string): string =>
      `Both charts together give one false alarm in ${subgroups} subgroups on average.`,
    hardly: "False alarms hardly ever come.",
    shift: (shift: string, subgroups: string): string => `${shift} sigma of the point in ${subgroups}`,
    found: (shifts: string): string =>
      `A lasting shift is found on average, counted in subgroups: ${shifts}.`,
    /** Of a chart with a memory. */
    million: "over a million",
    memory: (inControl: string, found: readonly { shift: string; points: string }[]): string => {
      const shifts = found.map(({ shift, points }, i) =>
        i === 0
          ? `a shift of ${shift} sigma of the point is found in ${points} points`
          : `${shift} in ${points}`,
      );
      return `On average ${inControl} points per false alarm; ${shifts.join(", ")}.`;
    },
  },
  temperature: {
    asMeasured: "Readings are charted as measured, at the temperature the part had.",
    reduced: (reference: number, expansion: string, length: number): string =>
      `Readings are charted as they would be at ${reference} °C (ISO 1): x₂₀ = x − α·L·(T − ${reference} °C), with α = ${expansion}·10⁻⁶ per kelvin and L = ${length} mm.`,
    missing: (count: number, all: number): string =>
      ` ${whole(count)} of ${whole(all)} readings state no part temperature and are charted as measured.`,
    example: (example: { measured: string; at: string; reduced: string; reference: number }): string =>
      `For example: ${example.measured} measured at ${example.at} °C is ${example.reduced} at ${example.reference} °C.`,
    coefficient: (figure: string, isHandbook: boolean): string =>
      `u(α) = ${figure}·10⁻⁶ per kelvin (${isHandbook ? "handbook value, 10 % either way" : "control plan"})`,
    correction: (figure: string): string => `Of that, ${figure} is the reduction.`,
    atLeast: (coefficient: string, figure: string, coverage: number): string =>
      `With ${coefficient} alone it is uncertain by at least ±${figure} (k = ${coverage}); how well the part temperature is known, the control plan does not state.`,
    uncertain: (said: {
      temperature: number;
      coefficient: string;
      figure: string;
      coverage: number;
      parts: { temperature: string; expansion: string; together: string };
    }): string =>
      `With u(T) = ${said.temperature} K and ${said.coefficient} it is uncertain by ±${said.figure} (expanded, k = ${said.coverage}): L·α·u(T) = ${said.parts.temperature}, L·ΔT·u(α) = ${said.parts.expansion}, L·u(α)·u(T) = ${said.parts.together}, squares added up.`,
    notTheGauge: "The gauge's own uncertainty is not in it (JCGM 100, from memory).",
  },
};
