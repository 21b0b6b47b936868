import { counted } from "../../format/numbers";

const readings = (count: number) => counted(count, "reading");
const inUnit = (unit: string) => (unit === "" ? "" : `, in ${unit}`);

/** Studies of gauges: entering them, what they found, and the way to each figure. */
export const gaugeStudies = {
  headline: {
    noClasses: "it shows no variation of its own",
    classes: (count: number): string =>
      `it tells ${count} ${count === 1 ? "class" : "classes"} of these parts apart`,
    ofTolerance: (share: string, standing: string, classes: string): string =>
      `The gauge takes ${share} of the tolerance (${standing}); ${classes}.`,
    ofVariation: (share: string, classes: string): string =>
      `The gauge takes ${share} of the variation seen; ${classes}. No tolerance was stated.`,
    nothingVaried: "Nothing varied in this study.",
    typeOne: (study: { Cg: string; Cgk: string; isEnough: boolean; asked: string; bias: string }): string =>
      `Cg ${study.Cg} and Cgk ${study.Cgk}: ${study.isEnough ? "enough" : "not enough"}, at least ${study.asked} is commonly asked for; ${study.bias}.`,
    oneSize: (bias: string): string => `One size was measured: ${bias}; linearity needs two sizes.`,
    linearity: (isFree: boolean, changes: boolean): string =>
      `${isFree ? "No bias can be seen anywhere" : "There is a bias"}, and ${changes ? "the bias changes with size" : "no change of the bias with size can be seen"}.`,
    setup: (share: string, setup: string, repeatability: string): string =>
      `Setting up anew makes ${share} of the variance: its standard deviation is ${setup} beside ${repeatability} within a setup.`,
    biasUnknown: "whether there is a bias cannot be tested",
    bias: "a bias is seen",
    noBias: "no bias can be seen",
  },
  page: {
    tab: (id: string): string => `Gauge study ${id}`,
    title: (kind: string, id: number, gauge: string): string => `${kind} ${id} of ${gauge}`,
    madeOn: (day: string): string => `made on ${day}`,
    onFeature: "on {feature}",
    onNone: "on no feature of the control plan",
    readings: (unit: string): string => `readings ${unit === "" ? "without a unit" : `in ${unit}`}`,
    entered: "entered {when}",
    enteredBy: "entered {when} by {by}",
    download: "Download the readings (CSV)",
    before: "Before it is used",
    withdrawn: "Withdrawn",
    withdrawnWhy: (why: string): string => `It counts for no feature any more: ${why}`,
    superseded: "Superseded",
    supersededBy: "A newer one is in force: {study}.",
    study: (id: number): string => `study ${id}`,
    speaks:
      "A study speaks of these parts, these people and that day. Repeat it after a repair, a calibration with a correction, or a change of clamping or program.",
    scatters:
      "It says how much the gauge scatters, not whether it reads right: for that take a bias study and the calibration certificate. Whether a gauge may be used follows the drawing, the customer's requirements and the shop's own procedure under its qualified people.",
    same: "Computed anew from the readings just now, every figure is the one that was kept.",
    different:
      "Computed anew from the readings, the figures differ from those that were kept: the program has changed since. Shown are those that were kept.",
  },
  withdraw: {
    open: "Withdraw this study",
    why: "Why it does not hold",
    hint: "For example: made with a worn stylus. The study stays readable with this reason.",
    saving: "Saving …",
    submit: "Withdraw it",
  },
  formulas: {
    how: "How is this computed?",
    rounded:
      "Numbers are shown rounded and used in full, so a last digit may differ when one follows on paper.",
    presumes: "What it presumes",
    standings: { open: "Not seen in the readings", yes: "Holds", no: "Does not hold" },
    common: "common practice, no source",
    fromTo: (lower: string, upper: string): string => `${lower} to ${upper}`,
    notKnown: "not known",
  },
  inUnit,
  crossed: {
    components: "Components",
    componentsPurpose: "Standard deviations; a component that the mean squares put below 0 is shown as 0.",
    anova: "Analysis of variance",
    pooled: (p: string): string =>
      `The interaction (${p}) tells nothing from chance and was joined with repeatability.`,
    exact: "Trials repeat exactly, so the interaction cannot be tested.",
    kept: (p: string): string => `The interaction (${p}) was kept.`,
    byRange: "By average and range",
    byRangePurpose:
      "The method with pencil and paper, for studies that are compared with older ones; it does not see the interaction.",
    terms: {
      part: "part",
      operator: "operator",
      interaction: "part by operator",
      repeatability: "repeatability",
      total: "total",
    },
    names: {
      repeatability: "repeatability",
      operator: "operator",
      interaction: "part by operator",
      reproducibility: "reproducibility (both)",
      grr: "gauge: repeatability and reproducibility",
      part: "part to part",
      total: "all that was seen",
    },
    caption: (level: string, unit: string): string =>
      `${level} intervals by modified large samples${unit === "" ? "" : `; standard deviations in ${unit}`}`,
    heads: {
      from: "From",
      sd: "Standard deviation",
      interval: "Interval",
      variance: "Of variance",
      study: "Of study",
      tolerance: "Of tolerance",
    },
    anovaCaption: "Two-way, parts and operators taken as random",
    anovaHeads: {
      term: "Source",
      df: "Degrees of freedom",
      ss: "Sum of squares",
      ms: "Mean square",
    },
    methods: {
      ev: "repeatability (EV)",
      av: "operators (AV)",
      grr: "gauge (GRR)",
      pv: "part to part (PV)",
      study: "of study",
      tolerance: "of tolerance",
      ndc: "classes told apart (ndc)",
    },
    methodsCaption: (unit: string): string =>
      `Both methods side by side${unit === "" ? "" : `; standard deviations in ${unit}`}`,
    methodHeads: { name: "Figure", range: "Average and range", anova: "Analysis of variance" },
    picture: {
      title: "Readings by part and operator",
      description: (parts: number, operators: number): string =>
        `${counted(parts, "part")} from left to right; for each, the readings of ${counted(operators, "operator")} less the mean of the part.`,
      words: (operators: string, unit: string): string =>
        `Each reading less the mean of its part. Against all operators together, ${operators}${unit === "" ? "" : ` in ${unit}`}.`,
      reads: (operator: string, shape: string, figure: string): string =>
        `${operator} (${shape}) reads ${figure}`,
      caption: "Readings of each part and operator",
      heads: { part: "Part", operator: "Operator", readings: "Readings", mean: "Mean" },
      across: (unit: string): string => `less the mean of the part${unit === "" ? "" : ` in ${unit}`}`,
      along: "part",
      shapes: {
        disc: "disc",
        square: "square",
        up: "triangle",
        down: "triangle down",
        plus: "plus",
        cross: "cross",
        bar: "bar",
      },
    },
    figures: {
      repeatability: "Repeatability",
      interaction: "Part by operator",
      operator: "Operator",
      part: "Part to part",
      gauge: "Gauge",
      study: "Of study",
      tolerance: "Of tolerance",
      ndc: "Classes told apart",
      interval: "Interval of the gauge",
      byRange: "Average and range",
    },
    fromTo: (lower: string, upper: string): string => `${lower} to ${upper}`,
    gaugeFormula: "σ gauge = √(σ²ₑ + σ²ₒ + σ²ₚₒ)",
    studyFormula: "100 σ gauge / σ total",
    toleranceFormula: "100 × 6 σ gauge / (U − L)",
    ndcFormula: "ndc = ⌊1.41 σₚ / σ gauge⌋",
    intervalFormula: "estimate ± √Σ (g cᵢ MSᵢ)², from the mean squares before cutting",
    rangeFormula: "EV = R̄·K₁, AV = √((x̄ difference·K₂)² − EV²/pn), PV = R part·K₃",
    cut: (figure: string): string => `${figure}, cut to 0`,
    nothingVaried: "nothing varied",
    noTolerance: "no tolerance was stated",
    noVariation: "the gauge shows no variation",
    ndcIs: (working: string, ndc: number | null): string => `${working}, so ${ndc}`,
    rangeIs: (ev: string, av: string, pv: string): string => `EV = ${ev}; AV from ${av}; PV = ${pv}`,
    sources: {
      aiag: "AIAG, Measurement Systems Analysis, 4th edition (from memory)",
      ndc: "AIAG, Measurement Systems Analysis, 4th edition (from memory); at least 5 are commonly asked for",
      interval:
        "Graybill and Wang 1980; Burdick, Borror and Montgomery, Journal of Quality Technology 35 (2003) (from memory)",
      byRange:
        "AIAG, Measurement Systems Analysis, 4th edition (from memory); factors computed and not rounded",
    },
    presumes: {
      size: (parts: number, operators: number, trials: number): string =>
        `It is as large as commonly asked for (10 parts, 3 operators, 2 trials): ${counted(parts, "part")}, ${counted(operators, "operator")}, ${counted(trials, "trial")}.`,
      by: (part: string, operator: string): string => `part ${part} by ${operator}`,
      alike: (wide: string | null, limit: string): string =>
        `Everybody scatters alike on every part: ${wide === null ? "no range of trials lies above its limit" : `the range of ${wide} lies above its limit`} (D₄·R̄ = ${limit}).`,
      interaction: (p: string | null, poolAbove: string): string =>
        p === null
          ? "Operators differ alike on every part: it cannot be tested."
          : `Operators differ alike on every part: p of the interaction ${p}, joined with repeatability above ${poolAbove}.`,
      step: (step: string | null, scatter: string): string =>
        step === null
          ? "The step of the gauge is fine beside its scatter: its resolution was not stated."
          : `The step of the gauge (${step}) is fine beside its scatter (${scatter}).`,
      range: "Parts were taken across the range that the process makes.",
      blind: "Operators did not see earlier readings, and measured in random order.",
    },
  },
  linearity: {
    title: "Bias at each size",
    caption: (sizes: number, unit: string, level: string): string =>
      `${counted(sizes, "size")}${inUnit(unit)}; intervals with ${level} confidence`,
    heads: {
      reference: "Known size",
      count: "Readings",
      bias: "Bias",
      interval: "Interval",
      line: "By the line",
      figure: "Figure",
      estimate: "Estimate",
      error: "Standard error",
      lower: "Lower",
      upper: "Upper",
    },
    line: "The line",
    lineCaption: "Bias over size by least squares",
    slope: "slope",
    atZero: "at size 0",
    picture: {
      title: "Bias over size",
      description: (count: number, pieces: number): string =>
        `Deviations of ${readings(count)} from the known sizes of ${counted(pieces, "piece")}, and the line through them.`,
      words: (level: string, isFree: boolean): string =>
        `Dots are readings less the known size, squares their means; the line is their regression and the band its ${level} interval. ${isFree ? "No bias lies within the band everywhere." : "Somewhere the band leaves no bias outside."}`,
      caption: "The line and its band",
      across: (unit: string): string => `reading less known size${unit === "" ? "" : ` in ${unit}`}`,
      along: (unit: string): string => `known size${unit === "" ? "" : ` in ${unit}`}`,
    },
    figures: { bias: (size: number): string => `Bias at ${size}`, line: "Line", band: "Band" },
    biasFormula: "mean of (reading − reference), t = bias / (s / √n)",
    lineFormula: "bias = a + b · size",
    lineIs: (intercept: string, slope: string, residual: string): string =>
      `bias = ${intercept} + ${slope} × size; residual standard deviation ${residual}`,
    bandIs: (freedom: number): string => `with ${freedom} degrees of freedom`,
    lineSource:
      "AIAG, Measurement Systems Analysis, 4th edition (from memory); NIST/SEMATECH e-Handbook 2.4.5",
    sameSource: "the same",
    presumes: {
      sizes: (count: number): string => `At least five sizes over the range that is measured: ${count}.`,
      known: "The known sizes are known far better than the gauge reads them.",
      alike: "The gauge scatters alike at every size.",
    },
  },
  setup: {
    components: "Components",
    caption: (setups: number, unit: string): string => `${counted(setups, "setup")}${inUnit(unit)}`,
    anew: "setting up anew",
    within: "within a setup",
    noInterval: "setups have different numbers of readings",
    heads: {
      from: "From",
      sd: "Standard deviation",
      setup: "Setup",
      piece: "Part",
      count: "Readings",
      mean: "Mean",
    },
    interval: (level: string): string => `${level} interval`,
    setups: "Setups",
    meansCaption: (unit: string): string => `Means of the setups${inUnit(unit)}`,
    figures: { anew: "Setting up anew", share: "Share" },
    anewFormula: "σ² setup = (MS setup − MS within) / readings of a setup, within each part",
    anewIs: (sigma: string, p: string | null): string =>
      `σ = ${sigma}${p === null ? "" : `; p of no effect ${p}`}`,
    anewSource: "NIST/SEMATECH e-Handbook 2.4.4, nested sources",
    shareFormula: "σ² setup / (σ² setup + σ² within)",
    nothingVaried: "nothing varied",
    byDefinition: "by definition",
    presumes: {
      enough: (setups: number): string => `There are enough setups to know their spread (5): ${setups}.`,
      anew: "The gauge was really taken down and aligned anew between setups.",
    },
  },
  typeOne: {
    figures: "Figures",
    rows: {
      Cg: "Cg: room for the scatter",
      Cgk: "Cgk: room for scatter and bias",
      mean: "mean",
      bias: "bias",
      interval: (level: string): string => `bias, ${level} interval`,
      p: "p of a bias of 0",
      sd: "standard deviation",
      step: "step of the gauge, of tolerance",
    },
    notStated: "not stated",
    caption: (count: number, unit: string): string => `${readings(count)}${inUnit(unit)}`,
    heads: { name: "Figure", value: "Value", reading: "Reading" },
    bias: "Bias",
    biasFormula: "x̄ − reference, t = bias / (s / √n)",
    biasIs: (figures: string, t: string | null, freedom: number): string =>
      `${figures}${t === null ? "" : `, t = ${t} with ${freedom} degrees of freedom`}`,
    picture: {
      title: "Readings in their order",
      description: (count: number): string => `${readings(count)} of one piece from left to right.`,
      words: (reference: string): string =>
        `Each dot is a reading; the full line is the known size ${reference}, the broken ones lie a tenth of the tolerance off.`,
      across: (unit: string): string => (unit === "" ? "reading" : `reading in ${unit}`),
      along: "order of the readings",
    },
    presumes: {
      count: (usual: number, count: number): string =>
        `There are as many readings as commonly asked for (${usual}): ${count}.`,
      step: (percent: string | null): string =>
        percent === null
          ? "The step of the gauge is at most 5 % of the tolerance: it was not stated."
          : `The step of the gauge is at most 5 % of the tolerance: ${percent} %.`,
      known: "The size of the piece is known far better than the gauge reads it.",
      independent: "The readings are independent: the piece was taken out and put in again each time.",
    },
  },
};
