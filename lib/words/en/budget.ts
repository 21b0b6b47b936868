import { counted, whole } from "../../format/numbers";

const features = (count: number) => counted(count, "feature");

/** What the rules of a plant cost in false alarms. */
export const budget = {
  title: "Alarm budget",
  purpose:
    "Charts that are watched long enough signal by chance. This is how often, under the rules in force, and what each rule earns for it.",
  adding: "Adding up what the rules in force cost",
  from: "Where they come from",
  fromPurpose: (count: number): string =>
    `The ${features(count)} that ${count === 1 ? "gives" : "give"} the most. What is measured often gives many, whatever its rules.`,
  offAndOn: "Rules off and on",
  offAndOnPurpose:
    "One rule taken off or put on, for all features of one plan: false alarms that it saves or costs, and how many subgroups a lasting shift then goes unnoticed.",
  workingOut: "Working out what each rule costs",
  plant: "The whole plant",
  perShift: "false alarms per shift",
  usedUp: (share: string): string => `${share} of that is used up before anything real has happened.`,
  parts: (location: string, spread: string, memory: string | null): string =>
    `${location} from the charts of means and single readings, ${spread} from those of spread${memory === null ? "" : `, ${memory} from EWMA and CUSUM charts that also watch`}; a false alarm of both charts at once counts once.`,
  operator: (acceptable: number, most: number): string =>
    `One operator: on average ${acceptable} alarms an hour are very likely to be acceptable, ${most} are the most that can be managed (ANSI/ISA-18.2-2016, from memory), if one person takes up all alarms of the plant.`,
  rateAllHours:
    "Measuring rate: {from} to {to}, all hours, because nothing was measured within a shift of the settings.",
  rate: (shifts: number): string =>
    `Measuring rate: {from} to {to}, ${counted(shifts, "shift")} in which something was measured.`,
  plan: "Plan",
  ofPlan: (chart: string, rules: string, count: number): string => `${chart}, ${rules}: ${features(count)}`,
  show: "Show",
  none: "No features yet",
  toPlan: "To the control plan",
  noneWhy:
    "Once the control plan has features and they are measured, this page says how many false alarms a shift has to expect.",
  idle: "No budget yet",
  toIntake: "To intake",
  idleWhy: (days: number): string =>
    `Nothing was measured in the ${days} days before {when}, so there is no measuring rate to reckon with. The budget appears with the next measurements; nothing needs to be repaired. What a rule set costs per 1,000 subgroups stands on each feature's plan page.`,
  biggest: {
    caption: "Features with the most false alarms",
    chartOf: (chart: string, size: number): string => `${chart} of ${size}`,
    and: (rules: string, memory: string): string => `${rules} and ${memory}`,
    heads: {
      feature: "Feature",
      part: "Part",
      chart: "Chart of",
      rules: "Run rules",
      rate: ["Subgroups", "per shift"],
      run: ["Subgroups", "per false alarm"],
      perShift: ["False alarms", "per shift"],
      between: ["Shifts", "between two"],
      share: ["Share of", "the plant's"],
    },
    noneExpected: "none expected",
  },
  tradeOff: {
    cells: (pace: string, count: number): string =>
      `Each cell: subgroups until the location chart signals a shift that lasts, and below it the same in shifts of work, at ${pace} subgroups per shift, the median of ${features(count)}. Shifts are in sigma of the plotted point.`,
    ofReadings: (size: number, share: string): string =>
      ` For means of ${size}, 1 sigma of the point is ${share} sigma of single readings.`,
    simulated: "“≈” is simulated, all else exact.",
    caption: (chart: string): string => `Rules off and on for ${chart}`,
    heads: { change: "Rules", perShift: "False alarms per shift", difference: "Difference" },
    thisIsInForce: "none, this is in force",
    shift: " shift: subgroups, shifts of work",
    inForce: "As in force",
    without: "− without",
    with: "+ with",
    notKnown: "shifts not known",
  },
  group: {
    summary: (count: number): string =>
      `The ${features(count)} of this plan, and where to change ${count === 1 ? "its" : "their"} rules`,
    rules: "Run rules in force",
    features: "Features",
    who: "An engineer changes the rules on a feature's plan page, with a reason.",
    more: (count: number): string => `And ${features(count)} more; the control plan lists all of them.`,
  },
  how: {
    title: "How is this computed",
    lines: (runs: number): [term: string, words: string, source: string][] => [
      [
        "False alarms per shift",
        "Sum over the features of subgroups per shift / subgroups per false alarm. The second is the average run length with nothing wrong, of the location chart and the spread chart together: the rules that hold on spread are reckoned on the true, skewed distribution of the range or the standard deviation. An EWMA or CUSUM that also watches adds one in its own average run length. Counts are reckoned as normal readings without a chart of spread.",
        "Common practice, no source",
      ],
      [
        "Subgroups per shift",
        "Readings of the last two weeks / subgroup size / shifts in which anything was measured. Closed days and idle nights do not count.",
        "Common practice, no source",
      ],
      [
        "Average run length",
        "Exact where the rules can be followed as a Markov chain of what all of them remember together, as all rules about zones and sides can; trends and alternations alone or beside limits by an integral equation.",
        "C. W. Champ and W. H. Woodall, Technometrics 29 (1987) 393-399 (from memory)",
      ],
      [
        "Figures with ≈",
        `Other sets are simulated with the code that judges measured points, ${whole(runs)} run lengths a figure from a fixed seed. The standard error, about 2 % of the figure, is read when the pointer rests on it.`,
        "Standard error of a mean",
      ],
      [
        "What it leaves out",
        "Readings are taken as normal and independent, and limits as the true ones. Neighbours that are alike and limits from a short baseline give more false alarms than this says. That signals of one run of bad luck join into one alarm gives somewhat fewer.",
        "C. P. Quesenberry, Journal of Quality Technology 25 (1993) 237-247 (from memory)",
      ],
      [
        "One operator",
        "About 6 alarms an hour on average are very likely to be acceptable, about 12 the most that can be managed. The figures come from control rooms; where an alarm means walking to a machine, fewer can be taken up.",
        "ANSI/ISA-18.2-2016 (from memory); IEC 62682 has the same",
      ],
    ],
  },
  /** Of lib/alarm-budget/operator-rates. */
  load: {
    sentence: (perShift: string, hours: string, acceptable: string): string =>
      `About ${perShift} false alarms are expected in a shift of ${hours} h; one operator can take up about ${acceptable} alarms of all kinds (ISA-18.2).`,
    advice: {
      acceptable: "",
      heavy: " Little room is left for real ones: take rules off where a late signal costs least.",
      "too many":
        " Real ones will be lost among them: take rules off, measure less often, or share the alarms.",
    },
  },
};
