import { counted, whole } from "../../format/numbers";

const lie = (count: number) => (count === 1 ? "lies" : "lie");

/** The other charts of a feature's points, and what is said beside its own. */
export const otherCharts = {
  signals: "Signals",
  noneIn: {
    subgroups: (count: number): string => `None in ${counted(count, "subgroup")}.`,
    samples: (count: number): string => `None in ${counted(count, "sample")}.`,
    points: (count: number): string => `None in ${counted(count, "point")}.`,
  },
  earlier: (count: number): string => `And ${count} earlier ones.`,
  /** In the browser. */
  plain: { about: "about it: beyond a limit", noPoint: "no point" },
  lookOnly: "A look only: it raises no alarm.",
  memory: {
    parameters: {
      lambda: "λ, weight of the newest point",
      lambdaHint: "0.01 to 1; small ones find small shifts.",
      L: "L, limits in sigma",
      LHint: "Of the weighted average.",
      k: "k, half the shift to find",
      h: "h, where it signals",
      sigmaHint: "In sigma of the plotted point.",
      fast: "Fast initial response",
      fastHint: "Sums begin at h/2.",
      draw: "Draw it so",
    },
    notYet: "No limits to reckon from yet. They come with further subgroups.",
    sigmaOfPoint: "sigma of the point",
    names: { ewma: "Weighted average", cusum: "Cumulative sums, upper and lower" },
    onChart: (name: string): string => `${name} on the chart`,
    inUnit: (name: string, unit: string): string => (unit === "" ? name : `${name}, ${unit}`),
    spoken: (point: {
      number: number;
      when: string;
      value: string;
      limits: string;
      signal: string;
    }): string =>
      `Subgroup ${point.number}, ${point.when}: ${point.value}${point.limits === "" ? "" : `, limits ${point.limits}`}${point.signal === "" ? "" : `, ${point.signal}`}`,
    planned: "The control plan lets this chart watch: its signals raise alarms.",
    look: "A look only: it raises no alarm. An engineer can let it watch in the control plan.",
    wholeHistory: "Signals in the whole history",
    summary: (from: number, to: number): string => `The points as a table: subgroups ${from} to ${to}`,
    caption: (name: string, from: number, to: number, unit: string): string =>
      `${name}, subgroups ${from} to ${to}${unit === "" ? "" : `, in ${unit}`}`,
    heads: { number: "Subgroup", when: "Last reading", limits: "Limits", signal: "Signal" },
    leftOut: "left out",
    notJudged: "not judged",
    beyond: { up: "beyond its limit above", down: "beyond its limit below" },
    bothSums: (upper: string, lower: string): string => `${upper} above, ${lower} below`,
    fromTo: (lower: string, upper: string): string => `${lower} to ${upper}`,
    computed: (chart: string): string => `How is this computed: ${chart}`,
    latest: (number: number): string => `The latest point, subgroup ${number}`,
    sources: {
      ewma: "ISO 7870-6; S. W. Roberts, Technometrics 1 (1959) 239-250 (both from memory). Limits of each point's own variance. Run length by an integral equation: S. V. Crowder, Technometrics 29 (1987) 401-407 (from memory).",
      cusum:
        "ISO 7870-4; E. S. Page, Biometrika 41 (1954) 100-115; head start: J. M. Lucas and R. B. Crosier, Technometrics 24 (1982) 199-205 (all from memory). A sum that signals goes on from h, so that it comes back when the process does.",
    },
    anew: "It begins anew with every version of the limits, and passes over what is left out.",
    stretch: (stretch: { phrase: string; from: number; to: number; day: string; isStill: boolean }): string =>
      `${stretch.phrase}: ${stretch.from === stretch.to ? `subgroup ${stretch.from}` : `subgroups ${stretch.from} to ${stretch.to}`}, from ${stretch.day}${stretch.isStill ? ", still at the latest" : ""}.`,
    cameOff: (points: number, mean: string | null): string =>
      ` The sum came off 0 ${counted(points, "point")} ago${mean === null ? "" : `, and the mean has been about ${mean} since`}.`,
    working: {
      average: "Weighted average",
      averageIs: (formula: string, figure: string): string =>
        `λ·x̄ + (1 − λ)·(the one before) = ${formula} = ${figure}`,
      variance: "Its variance",
      varianceIs: (size: string, root: string): string =>
        `V = λ²σ²/n + (1 − λ)²·(the one before); with n = ${size} in every subgroup σ²/n·λ/(2 − λ) in the long run: √V = ${root}`,
      limits: "Limits",
      limitsAre: (formula: string, lower: string, upper: string): string =>
        `centre ± L√V = ${formula} = ${lower} to ${upper}`,
      from: "From limits",
      fromIs: (centre: string, sigma: string): string => `centre ${centre}, σ̂ = ${sigma}`,
      point: "Point",
      pointIs: (root: string, figures: string): string => `z = (x̄ − centre) / (σ̂${root}) = ${figures}`,
      upper: "Upper sum",
      lower: "Lower sum",
      signal: "Signal",
      signalIs: (h: number): string => `beyond h = ${h}`,
    },
  },
  counts: {
    drawn: "Limits drawn",
    threeSigma: "3 sigma, judged",
    probability: "Exact probability",
    onChart: "Counts on the chart",
    sample: "Sample",
    spoken: (point: {
      number: number;
      when: string;
      count: string;
      size: string;
      standing: string;
    }): string =>
      `Sample ${point.number}, ${point.when}: ${point.count} on ${point.size}${point.standing === "" ? "" : `, ${point.standing}`}`,
    onUsual: (size: string, units: string): string =>
      `Counts stand here as the count on ${size} ${units} at the same rate; limits and sums take each in its own sigma.`,
    leftOut: "left out",
    beyond: "beyond a limit",
    signals: "Signals, by the run rules in force at 3 sigma",
    numbers: (first: number, last: number): string =>
      first === last ? `sample ${first}` : `samples ${first} to ${last}`,
    summary: (from: number, to: number): string => `The samples as a table: ${from} to ${to}`,
    caption: (size: string, from: number, to: number): string =>
      `Counts on ${size} each, samples ${from} to ${to}`,
    captionVarying: (from: number, to: number): string =>
      `Counts on samples of varying size, samples ${from} to ${to}`,
    heads: {
      when: "Counted",
      count: "Count",
      inspected: "Inspected",
      plotted: "Per piece or unit",
      lower: "Lower limit",
      upper: "Upper limit",
      judged: "Judged",
    },
    computed: "How the limits of counts are computed",
    units: { pieces: "pieces", units: "units" },
    falseAlarm: (samples: number): string => `one false alarm in ${whole(samples)} samples`,
    noFalseAlarm: "practically no false alarm",
    rate: "Rate",
    rateIs: (bar: string, units: string, sums: string, figure: string): string =>
      `${bar} = Σ counts / Σ ${units} of the baseline${sums} = ${figure}`,
    sums: (counts: string, inspected: string, samples: number): string =>
      ` (${counted(samples, "sample")}) = ${counts} / ${inspected}`,
    size: (size: string, units: string): string => `n = ${size} ${units}, always as many (control plan)`,
    sizes: (least: string, most: string, latest: string, units: string): string =>
      `n = ${least} to ${most} ${units}, each count with its own; the latest ${latest}, for which the limits below are`,
    standardised: "For the run rules",
    standardisedIs: (formula: string, figure: string): string =>
      `z = ${formula} = ${figure} at the latest sample: each point in its own sigma, so that samples of any size stand side by side`,
    atThreeSigma: "Limits at 3 sigma",
    threeSigmaIs: (formula: string, often: string): string => `${formula}, cut at what is possible; ${often}`,
    exact: "Exact limits",
    exactIs: (law: "binomial" | "Poisson", span: string, often: string): string =>
      `at most 0.135 % beyond on either side by the ${law} distribution: ${span}; ${often}`,
    source:
      "ASTM E2587 and ISO 7870-2 (from memory); probability limits: common practice on the exact distribution. A count at a limit is no signal. Signals and alarms go by 3 sigma.",
  },
  lots: {
    none: "No lots",
    noneWhy:
      "The measurements of this feature state no lot. Files can bring one along; Intake has a column for it.",
    unnamed: (id: number): string => `no. ${id}`,
    beyondLimits: "beyond the limits of lot means",
    beyondWithin: "beyond what varies within lots",
    differ: "Lots differ by more than their pieces explain",
    between: "between lots",
    within: "within lots",
    onChart: "Lot means on the chart",
    mean: (unit: string): string => (unit === "" ? "Mean of the lot" : `Mean of the lot, ${unit}`),
    along: "Lots, in the order of time",
    spoken: (lot: { lot: string; day: string; mean: string; size: number; standing: string }): string =>
      `Lot ${lot.lot}, ${lot.day}: mean ${lot.mean} of ${lot.size}${lot.standing === "" ? "" : `, ${lot.standing}`}`,
    lines: (lots: string): string =>
      `Whole lines: limits of lot means, about one false alarm in ${lots} lots. Dotted: where means would lie if only what varies within lots moved them. A look only: it raises no alarm.`,
    noneBeyond: "No lot lies beyond the limits of lot means.",
    signal: (lot: string, day: string, mean: string): string => `Lot ${lot}, ${day}: mean ${mean}`,
    summary: "The lots as a table",
    caption: (lots: number, unit: string): string =>
      `Means of ${counted(lots, "lot")}${unit === "" ? "" : `, in ${unit}`}`,
    heads: {
      number: "No.",
      lot: "Lot",
      day: "Last reading",
      mean: "Mean",
      range: "Moving range",
    },
    canFreeze:
      "Every subgroup here is a lot, so such limits can be frozen below: choose “lot means” as the way to estimate sigma.",
    howToFreeze:
      "To judge by such limits, a subgroup has to be a lot: set the subgroup size in the control plan to the pieces of a lot, then freeze limits by “lot means”.",
    computed: "How is this computed",
    doDiffer: "Do lots differ?",
    withinTerm: "Within lots",
    withinIs: (figure: string, freedom: number): string =>
      `σ̂ = √(Σ(n − 1)s² / Σ(n − 1)) = ${figure} with ${whole(freedom)} degrees of freedom`,
    test: "Test",
    testIs: (test: { F: string; between: number; within: number; p: string }): string =>
      `F = mean square between / σ̂² = ${test.F} with ${whole(test.between)} and ${whole(test.within)} degrees of freedom, ${test.p}`,
    betweenTerm: "Between lots",
    betweenIs: (figure: string): string =>
      `σ̂ = √((mean square between − σ̂²within)/n₀), 0 where that is negative = ${figure}`,
    limitsFrom: (lots: number): string => `Limits of lot means, from ${counted(lots, "lot")}`,
    sigma: "Sigma of lot means",
    limits: "Limits",
    own: "Lots' own part",
    ownIs: (sigma: string, figure: string): string => `√(${sigma}² − σ̂²within·mean of 1/n) = ${figure}`,
    source:
      "W. H. Woodall and E. V. Thomas, IIE Transactions 27 (1995) 757-764; components: Searle, Casella and McCulloch, Variance Components (1992), chapter 3 (both from memory).",
    assumes:
      "That lots follow each other at random: a drift from lot to lot makes neighbours alike, moving ranges small and these limits narrow. That lots are of about one size. That a lot-to-lot difference belongs to the process at all, which only the shop can know: one that can be removed is better removed.",
    manyCounts: " That counts are many enough to be nearly normal.",
    /** What lib/limits/between-lot finds. */
    found: {
      seen: (seen: number, lots: number): string =>
        `${seen} of ${lots} lots ${lie(seen)} beyond limits drawn from the spread within lots`,
      none: (p: string, seen: string): string =>
        `Lot means differ no more than readings within lots explain (${p}); ${seen}.`,
      some: (seen: string, share: number): string =>
        `${seen}. ${share} % of the variance of a reading lies between lots, and the limits still serve.`,
      swamped: (seen: string, share: number, signalling: number, lots: number): string =>
        `${seen}: ${share} % of the variance of a reading lies between lots, so the chart signals at lots that differ as lots here do. Find what makes them differ, or, if that belongs to the process, judge lot means by limits from the moving range of the means: ${signalling} of ${lots} lots ${lie(signalling)} beyond those.`,
    },
  },
  shortRuns: {
    basis: "What a feature is compared with",
    fromNominal: "From nominal",
    fromCentre: "From the centre line",
    noTarget:
      "The control plan states no nominal and no target for this feature. Compare it with its centre line instead.",
    noSigma: "No sigma to divide by yet: there are no limits. They come with further subgroups.",
    which: (features: number, kind: string): string =>
      `${counted(features, "feature")} of this part that ${features === 1 ? "is a" : "are all of kind"} ${kind}, on charts of the same sort, in the order in which they were made.`,
    falseAlarms: (points: string): string =>
      ` By the run rules in force here, about one point in ${points} gives a false alarm on the upper chart, if targets and sigmas are right.`,
    notSet: "Most of these processes are not set to their nominal",
    manyBeyond: (beyond: number, all: number): string =>
      `${counted(beyond, "point")} of ${all} lie beyond the limits. That says where they are set, not that they moved. To see what moved, compare each {link}.`,
    withCentre: "with its centre line",
    onChart: "Deviations on the chart",
    deviation: {
      nominal: "Deviation from nominal, sigma of the point",
      centre: "Deviation from centre line, sigma of the point",
    },
    along: "Points of all features, in the order of time",
    spoken: (feature: string, when: string, location: string): string =>
      `${feature}, ${when}: ${location} sigma from its target`,
    summary: (count: number): string => `The points as a table: the latest ${count}`,
    caption: (features: number, count: number): string =>
      `Deviations of ${counted(features, "feature")}, the latest ${count} points`,
    heads: { point: "Point", feature: "Feature", when: "Last reading" },
    inSigma: (name: string): string => `${name}, in sigma`,
    ofFeature: (feature: string, subgroup: number): string => `${feature}, subgroup ${subgroup}`,
    signals: "Signals, by the run rules of this feature",
    ofSpread: (name: string): string => `${name}: `,
    earlier: (count: number): string =>
      `And ${count} earlier ones. When one feature gives them all, its target or its sigma is not what the process has; when several do, look at what they share.`,
    numbers: (first: number, last: number, names: string): string =>
      `${first === last ? `point ${first}` : `points ${first} to ${last}`} (${names})`,
    computed: "How is this computed",
    latest: "Its latest point",
    target: "Target",
    targetIs: {
      nominal: (figure: string): string => `target or nominal of the plan = ${figure}`,
      centre: (figure: string): string => `centre line in force = ${figure}`,
    },
    sigma: "Sigma",
    sigmaIs: (figure: string): string => `within subgroups, of the limits in force = ${figure}`,
    zIs: (figures: string): string => `(x̄ − target)·√n / σ̂ = ${figures}`,
    limits: "Limits",
    limitsAre: "0 ± 3, for every feature and every subgroup size",
    spreadIs: (figure: string, z: string): string =>
      `in sigma = ${figure}; judged as z of its own distribution = ${z}`,
    source: "ISO 7870-8 and ISO 7870-5 (from memory).",
    assumes:
      "That each target is where its process is set, and each sigma is that of its process; a wrong one shows as a run of that feature alone. Features of one piece share what moved the piece, so points at one moment are not independent of each other: several beyond a limit at once are one event.",
  },
  neighbours: {
    title: "Neighbouring points resemble each other",
    closely: (r: string): string =>
      `Neighbouring points resemble each other closely (r = ${r}): run rules, which take them to be independent, say little here.`,
    test: (count: number, p: string): string =>
      `Test of the correlation of neighbours in ${whole(count)} points: ${p} (NIST/SEMATECH e-Handbook 1.3.5.12). A shift or a drift makes neighbours alike as well: look for those first. What is left is the process's own memory, such as a bath or a tool that changes slowly.`,
    simulated: " The factor is simulated with a first-order model and the run rules in force.",
    forCapability: (limit: string): string =>
      `An index hardly feels r up to ${limit}, so the gate “independent” of capability lets it pass; run rules feel it already.`,
    hardly: "These rules hardly ever fire by chance; the factor could not be simulated.",
    growth: (found: { alike: boolean; r: string; factor: string; points: number; alone: number }): string =>
      `Neighbouring points ${found.alike ? "resemble each other" : "differ from each other"} (r = ${found.r}): these rules give about ${found.factor} times as many false alarms as with independent points, one in ${found.points} points instead of one in ${found.alone}.`,
  },
  variation: {
    title: "Where the variation comes from",
    of: (readings: number, lots: number, isAll: boolean): string =>
      `Of the variance of ${isAll ? "" : "the latest "}${counted(readings, "reading")} that count${readings === 1 ? "s" : ""}, in ${counted(lots, "lot")}. Each share as a standard deviation of its own:`,
    notApart: "not told apart",
    notApartWhy: (words: string): string =>
      `What varies ${words} cannot be told apart: there is one reading to each. The line above it holds both.`,
    method:
      "Nested components of variance by the analysis of variance; a negative estimate counts as none. A share of lots holds all that differs from lot to lot: material, setup, the week.",
    /** Of lib/components/variation. */
    shares: {
      lots: "between lots",
      within: { lot: "within a lot", fixture: "within a fixture", subgroup: "within a subgroup" },
      withinOfLot: { fixture: "within a fixture of a lot", subgroup: "within a subgroup of a lot" },
      between: { fixture: "between fixtures", subgroup: "between subgroups" },
      betweenInLot: {
        fixture: "between fixtures within a lot",
        subgroup: "between subgroups within a lot",
      },
      share: (percent: number, words: string): string => `${percent} % ${words}`,
      none: "Nothing varies: all readings are alike.",
    },
    lotsDiffer: (beyond: number, all: number): string =>
      `${beyond} of ${all} lots hold a mean beyond its limits, on both sides`,
    oneFact: (beyond: number): string =>
      `Lots differ by more than the readings within them, and the limits know only what varies within. So nearly every lot signals: one fact about the process, not ${beyond} faults. Look for what changes from lot to lot, and judge lots against each other.`,
    offered: (limits: { lower: string; upper: string; centre: string; sigma: string }): string =>
      `Limits for the mean of a whole lot, from the moving ranges between lots: ${limits.lower} to ${limits.upper} about ${limits.centre} (sigma ${limits.sigma}). They are offered here and judge nothing.`,
    doDiffer: "Do their means differ?",
    anova:
      "One-way analysis of variance, each kind by itself: what lots share is not taken off, so a fixture that had the bad lots looks bad. The drift page compares within lots.",
    many: (count: number, kind: string): string => counted(count, kind),
    problem: (many: string, words: string): string => `${many}: ${words}`,
    nothingWithin: (many: string): string =>
      `${many}: nothing varies within them, so there is nothing to test against.`,
    tested: (test: {
      many: string;
      differ: string;
      F: string;
      between: number;
      within: number;
      chance: string;
    }): string =>
      `The ${test.many} ${test.differ}: F = ${test.F} with ${whole(test.between)} and ${whole(test.within)} degrees of freedom; chance alone would do as much ${test.chance}.`,
    differ: {
      sure: "differ by more than chance",
      likely: "probably differ",
      no: "show no difference",
    },
    chance: {
      rare: "fewer than 1 in 1000 times",
      hundred: (times: string): string => `about ${times} in 100 times`,
      one: (of: number): string => `about 1 in ${whole(of)} times`,
    },
  },
};
