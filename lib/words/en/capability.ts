import { counted, whole } from "../../format/numbers";

const readings = (count: number): string => counted(count, "reading");
const lots = (count: number | null): string => (count === null ? "lots not stated" : counted(count, "lot"));

export const capability = {
  title: "Capability",
  purpose: "What can honestly be said of each feature to a customer, and what stands against saying more.",
  newStatement: "New statement",
  statements: "Statements",
  noFeatures: "No features yet",
  toIntake: "To the intake",
  noFeaturesWhy:
    "Parts and features are entered in the control plan, or come along with the first measurement file.",
  part: "Part",
  allParts: "all parts",
  onlyKey: "Only key characteristics",
  show: "Show",
  firstOf: (shown: number, all: number) =>
    `The first ${shown} of ${counted(all, "feature")} are studied here, key characteristics first. Choose a part to see the others.`,
  tally: {
    of: (count: number, all: number) => `${count} of ${counted(all, "feature")}`,
    presentable: "can be presented as capability",
    ofKey: (count: number, all: number) => `${count} of ${counted(all, "key characteristic")}`,
    without: (count: number) => `${count} without an index`,
    reach: (count: number, all: number) =>
      `${count} of these ${all} with a bound that reaches what is asked for`,
  },
  /** How an index stands to what the control plan asks for. */
  reach: {
    /** The index never stands without its bound. */
    of: (name: string, index: string, bound: string | null) =>
      `${name} ${index}, at least ${bound ?? "not known"}`,
    shown: (figures: string, asked: string) => `${figures}: reaches the ${asked} asked for`,
    "not-yet": (figures: string, asked: string) =>
      `${figures}: reaches the ${asked} asked for, its bound not yet`,
    missed: (figures: string, asked: string) => `${figures}: misses the ${asked} asked for`,
  },
  table: {
    caption: (features: number, window: string) =>
      `${counted(features, "feature")}, ${window}, by the normal model, key characteristics first, then what cannot be presented as capability`,
    none: "No such feature",
    noneWhy:
      "No feature of this choice is in the control plan. Choose another part, or show other than key characteristics.",
    heads: {
      feature: "Feature",
      claim: "What can be said",
      gates: "Gates",
      within: "Capability",
      overall: "Performance",
    },
    key: "key",
    chart: "chart",
    chartOf: (feature: string) => `Control chart of ${feature}`,
    rests: (count: number, subgroups: number, stated: number | null) =>
      `${readings(count)}, ${counted(subgroups, "subgroup")}, ${lots(stated)}, mean `,
    otherModel: (feature: string) => `${feature} by a model chosen by kind and fit`,
    legend: "What the shapes of the gates say",
    atLeast: "at least",
  },
  window: {
    label: "Window",
    names: { "30": "last 30 days", "90": "last 90 days", all: "all measurements" },
    between: "from one day to another",
    betweenFold: "From one day to another",
    first: "First day",
    last: "Last day",
    days: (first: string, last: string) => `${first} to ${last}`,
    needsBoth: "A window between two days needs both of them. The last 90 days are shown instead.",
    swapped: (last: string, first: string) =>
      `The last day, ${last}, lies before the first, ${first}. The last 90 days are shown instead.`,
  },
  asked: {
    target: "The target is a number above 0, such as 1.33.",
    gauge: "The gauge's deviation is a number above 0, such as 0.0012.",
    uncertainty: "The uncertainty is a number above 0, such as 0.004.",
  },
  models: {
    normal: "normal",
    lognormal: "lognormal",
    weibull: "Weibull",
    rayleigh: "Rayleigh",
    "folded-normal": "folded normal",
    "box-cox": "Box-Cox",
    auto: "chosen by kind and fit",
  },
  page: {
    of: (feature: string) => `Capability of ${feature}`,
    key: (kind: string) => `${kind}, key characteristic`,
    tolerance: (words: string) => `Tolerance ${words}`,
    chartOf: (chart: string) => `Chart of ${chart}`,
    at20: "values at 20 °C",
    chart: "Control chart",
    plan: "Control plan",
    gates: "Gates",
    gatesPurpose:
      "What must hold before the word capability is used. One that fails, or that nobody can tell, turns the claim into performance.",
    indices: "Indices",
    outside: "Outside the tolerance",
    further: "Further questions",
    furtherPurpose: "Answered for this window. What is typed stands in the address, which can be passed on.",
    rests: "What it rests on",
    before: "Before it is passed on",
    nothingHere: "Nothing to study in this window",
    notMeasured: "Not measured yet",
    showAll: "Show all measurements",
    nothingWhy: (left: number) =>
      `This feature was measured, but no reading of this window counts${left > 0 ? `: ${readings(left)} were left out with an assigned cause` : ""}. A longer window may hold some.`,
    notMeasuredWhy:
      "Nothing can be said of a feature without measurements. They come with a measurement file on Intake.",
  },
  claim: {
    onDay: (count: number) => `${readings(count)} from {first}`,
    between: (count: number) => `${readings(count)} from {first} to {last}`,
    leftOut: (count: number) => `; ${readings(count)} left out with an assigned cause`,
  },
  waysOut: {
    stable: "Open its control chart",
    enough: "Take in measurements",
    normal: "Try a model chosen by kind and fit",
    distribution: "Look for mixed sources on its chart",
    independent: "See the run of its points",
    resolution: "Resolution in the control plan",
    gauge: "Gauges and their studies",
  },
  indexTable: {
    caption: (confidence: string) =>
      `Intervals two-sided, lower bounds one-sided, both with ${confidence} confidence`,
    heads: {
      index: "Index",
      value: "Estimate",
      bound: "At least",
      interval: "Interval",
      word: "May be called",
      meaning: "What it says",
    },
    to: "to",
    meanings: {
      Cp: "Width of the tolerance over six sigma within subgroups, wherever the process lies.",
      Cpk: "From the mean to the nearer limit, over three sigma within subgroups.",
      Cpl: "The same towards the lower limit alone.",
      Cpu: "The same towards the upper limit alone.",
      Pp: "Width of the tolerance over six standard deviations of all readings.",
      Ppk: "From the mean to the nearer limit, over three standard deviations of all readings.",
      Ppl: "The same towards the lower limit alone.",
      Ppu: "The same towards the upper limit alone.",
      Cpm: "Width of the tolerance over six times the spread about the target instead of the mean.",
    },
    absent: {
      oneSided:
        "Only one tolerance limit is judged against, so there is no Cp and no Pp: nothing has a width.",
      fitted: "No Cp, Cpk and Cpm: only the normal model parts a spread within subgroups from the whole.",
      noWithin: "No Cp and no Cpk: the subgroups show no spread of their own that could be estimated.",
      noTarget: "No Cpm: the control plan states no target.",
    },
  },
  outside: {
    caption: (count: number) => `Readings outside the tolerance, of ${readings(count)}`,
    below: "Below the lower limit",
    above: "Above the upper limit",
    heads: {
      where: "Where",
      counted: "Counted",
      fraction: "Fraction",
      normal: "By the normal curve",
      fitted: "By the fitted curve",
    },
    interval: (confidence: string) => `Exact ${confidence} interval`,
  },
  model: {
    label: "Distribution",
    restsOn: (model: string) => `Indices rest on ${model}.`,
    fromBound: "It is fitted to the distance from the natural bound. ",
    noC: "Cp and Cpk are not taken: only the normal model parts a spread within subgroups from the whole.",
    below: "0.135 % lie below",
    median: "median",
    above: "99.865 % lie below",
    tried: (significance: string) =>
      `Models tried, in the order that the kind of feature suggests; the first with p of at least ${significance} is taken`,
    heads: { model: "Model", fit: "Fit", taken: "Taken" },
    taken: "taken",
    notTaken: "not taken",
    signs: {
      logMean: "μ of ln x",
      logStandardDeviation: "σ of ln x",
      shape: "shape k",
      scaleB: "scale b",
      scaleS: "scale s",
      location: "location m",
      lambda: "power λ",
      geometricMean: "geometric mean g",
      powerMean: "μ of y",
      powerDeviation: "σ of y",
    },
  },
  data: {
    window: "Window",
    span: "{first} to {last}",
    readings: "Readings",
    of: (count: number, pieces: number, subgroups: number, stated: number | null) =>
      `${whole(count)} on ${counted(pieces, "piece")}, ${counted(subgroups, "subgroup")}, ${lots(stated)}`,
    mean: "Mean",
    within: "Sigma within subgroups",
    overall: "Overall standard deviation",
    notEstimated: "not to be estimated",
    ofAll: "of all readings, n − 1 below",
    values: "Values",
    reduced: "reduced to 20 °C",
    asMeasured: "as measured",
    leftOut: "Left out with a cause",
    nothing: "nothing",
    count: readings,
    exclusions: (count: number) => `${readings(count)} left out with an assigned cause`,
    heads: { cause: "Cause", from: "From", to: "To", by: "Left out by" },
    notKnown: "not known",
  },
  pictures: {
    title: "Distribution",
    asTable: "The same as a table",
    noLots: (count: number) =>
      `No lots to compare: ${readings(count)} of this window state none. A lot comes with the measurement file; its column is chosen on Intake.`,
    lowerLimit: "lower limit",
    upperLimit: "upper limit",
    naturalBound: "natural bound",
    mean: "mean",
    reading: (unit: string, isReduced: boolean) =>
      `${isReduced ? "reading at 20 °C" : "reading"}${unit === "" ? "" : ` in ${unit}`}`,
    histogram: {
      title: (model: string | null) =>
        model === null ? "Histogram with the normal curve" : `Histogram with the curve of ${model}`,
      description: (said: {
        count: number;
        bins: number;
        width: string;
        from: string;
        to: string;
        fullest: number;
        outside: number;
      }) =>
        `${readings(said.count)} in ${counted(said.bins, "bin")} of ${said.width}, from ${said.from} to ${said.to}; the fullest holds ${said.fullest}. ${said.outside} lie outside the tolerance.`,
      bins: (width: string) => `Bins of ${width}`,
      steps: (count: number) => `, ${counted(count, "step")} of the readings, so that rounding makes no comb`,
      rule: (rule: "scott" | "freedman-diaconis") =>
        `; width by ${rule === "scott" ? "Scott's rule" : "the rule of Freedman and Diaconis"}. `,
      curve: (model: string | null) =>
        `The curve is ${model === null ? "the normal one with the mean and the standard deviation of all readings." : `${model}, fitted by maximum likelihood.`}`,
      hatched: (count: number) => ` Hatched: ${readings(count)} outside the tolerance.`,
      far: (limits: string) => ` The tolerance is too wide to be drawn with the readings: ${limits}.`,
      farLimit: (side: "lower" | "upper", limit: string, sigmas: number) =>
        `the ${side} limit ${limit} lies ${sigmas} standard deviations from the mean`,
      caption: "Readings in each bin",
      heads: { from: "From", to: "To below", count: "Readings", outside: "Outside the tolerance" },
    },
    probability: {
      title: (model: string | null) =>
        model === null ? "Normal probability plot" : `Probability plot for ${model}`,
      drawn: (shown: number, all: number) =>
        shown < all ? `${shown} of ${readings(all)}, both tails whole` : readings(all),
      description: (drawn: string, model: string | null, strays: number, confidence: string) =>
        `${drawn}, smallest at the lower left. On the line lies what ${model ?? "a normal process with their mean and standard deviation"} would give; ${strays} of the points drawn lie outside its ${confidence} band.`,
      words: (drawn: string, strays: number, confidence: string) =>
        `${drawn}; ${strays === 0 ? "none" : strays} outside the ${confidence} band, which holds each rank by itself, so a few outside are no surprise. `,
      caption: "Readings by rank: both tails and every tenth of the points between",
      heads: {
        rank: "Rank",
        share: "Share below",
        value: "Reading",
        low: "Band from",
        high: "to",
      },
    },
    lots: {
      title: "Lot by lot",
      noName: (id: number) => `no. ${id}`,
      description: (count: number, from: string, to: string, outside: number) =>
        `${counted(count, "lot")} in the order of time, from ${from} to ${to}; ${outside} of them have a reading outside the tolerance.`,
      shown: (shown: number, all: number) =>
        `${shown < all ? `The newest ${shown} of ${counted(all, "lot")}` : counted(all, "lot")} in the order of time: from the smallest to the largest reading, the dot is the mean. `,
      outside: (count: number) =>
        count === 0
          ? "None has a reading outside the tolerance."
          : `${counted(count, "lot")} with a reading outside the tolerance, ending in a diamond.`,
      without: (count: number) => ` ${readings(count)} state no lot and are not shown.`,
      caption: (count: number) => counted(count, "lot"),
      heads: {
        lot: "Lot",
        first: "First measured",
        count: "Readings",
        min: "Smallest",
        mean: "Mean",
        max: "Largest",
      },
      axis: "lot, in the order of time",
    },
  },
  further: {
    target: "Index to be shown",
    targetHint: (usual: string) => `Cpk or Ppk; ${usual} when nothing is typed`,
    gauge: "Gauge: standard deviation",
    gaugeHint: "Repeatability and reproducibility; empty takes the studied one",
    uncertainty: "Expanded uncertainty U",
    uncertaintyHint: (times: number) => `Empty takes ${times} deviations of the gauge`,
    workOut: "Work out",
    howMany: "How many pieces would show it?",
    noNumber: "No number of pieces yet: there is no index to go on from.",
    never: (name: string, target: string, index: string) =>
      `No number of pieces shows ${name} ${target} from a present value of ${index}: the process has to be centred or narrowed first.`,
    pieces: (count: number, name: string, target: string, confidence: string, index: string) =>
      `${counted(count, "piece")} show ${name} of at least ${target} with ${confidence} confidence, if the present ${name} ${index} holds. The estimate moves from study to study: plan for more.`,
    whatGauge: "What is the process, what is the gauge?",
    noGauge:
      "No study of this feature’s gauge is known, so its part of the spread cannot be taken off. Type its standard deviation above, or {study}.",
    studyGauge: "study the gauge",
    noIndex: "There is no index to take the gauge’s part from.",
    gaugeTakes: (sigma: string, share: string, basis: string) =>
      `A gauge with a standard deviation of ${sigma} makes ${share} of the variance that is seen. ${basis} The observed index is the one to claim; the other says what a perfect gauge would show. Both by the normal model.`,
    nothingLeft: "The gauge’s variation is as large as all that is seen: nothing is left for the process.",
    gaugeCaption: "Indices as observed, and of the process alone",
    heads: { index: "Index", observed: "Observed", process: "Process alone" },
    nothing: "nothing left",
    whatProved: "What does a reading prove?",
    needs: "The zones need an uncertainty of measurement and a tolerance limit. Type the uncertainty above.",
    guard: (width: string, isTyped: boolean) =>
      `Guard band U = ${width}${isTyped ? ", as typed" : ""} on either side of each limit`,
    noRoom: "no room between the guard bands",
    withinU: "within U of a limit",
    not: (zone: string) => `not ${zone}`,
    verdicts: {
      conforms: "conforms",
      "not provable": "not provable",
      "does not conform": "does not conform",
    },
    conformityHeads: { verdict: "A reading", zone: "Where", count: "Readings" },
  },
};
