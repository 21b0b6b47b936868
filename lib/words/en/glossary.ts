/** Words of the trade: what they mean on these pages, and where they are at home. From memory where no section is named. */
export const glossary = {
  title: "Glossary",
  purpose:
    "What the words on these pages mean, and which standards and handbooks they come from; those are named from memory, and the standard itself decides. How a figure of your own comes about stands beside it, under “How is this computed”.",
  source: (source: string) => `Source: ${source}.`,
  see: "See",
  groups: {
    measured: "What is measured",
    steady: "Is it steady",
    moved: "What moved it",
    enough: "Is it good enough",
    gauge: "Can the gauge see it",
    people: "What people do about it",
  },
  entries: {
    feature: {
      meaning:
        "One thing on a part that the drawing gives a dimension and a tolerance, such as the diameter of a bore. Each feature has a control chart of its own. Also called a characteristic.",
      source: "ISO 3534-2, vocabulary of applied statistics",
    },
    tolerance: {
      meaning:
        "What the drawing allows: from the lower to the upper tolerance limit. It says nothing about what the process does; control limits do.",
      source: "ISO 286-1 and ISO 8015 for sizes; ISO 1101 for form and position",
    },
    "key-characteristic": {
      meaning:
        "A feature whose variation matters most for fit, function or safety, and which is therefore watched even when it has never failed.",
      source: "EN 9103 and IATF 16949, in general words",
    },
    subgroup: {
      meaning:
        "A few pieces made one after another under the same conditions and charted as one point. What varies within them is what chance alone does.",
      source:
        "ISO 7870-2, Shewhart control charts; NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6.3",
    },
    lot: {
      meaning: "Pieces that were made or delivered together, known by one number.",
      source: "ISO 3534-2, vocabulary of applied statistics",
    },
    sources: {
      meaning:
        "What may move a measurement: fixture, tool, machine, gauge, operator, or the setup of a portable gauge. Measurements that name their sources let a shift be traced to one of them.",
      source: "Common practice; the parts of a cause-and-effect diagram (K. Ishikawa)",
    },
    "source-event": {
      meaning: "Something that was done to a source: a tool change, a repair, an adjustment, a calibration.",
      source: "Common practice",
    },
    "reference-temperature": {
      meaning:
        "Lengths are defined at 20 °C. A warm part measures too large; with its temperature, length and coefficient of expansion a reading is reckoned back.",
      source: "ISO 1, standard reference temperature",
    },
    "control-chart": {
      meaning:
        "Points in the order of time between limits that chance alone hardly ever leaves. The upper chart shows where the process is, the lower one how much pieces differ among themselves.",
      source:
        "ISO 7870-2, Shewhart control charts; NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6.3",
    },
    "control-limits": {
      meaning:
        "Where points stay while nothing but chance moves them: three sigma of the point on either side of the centre line. They come from the process, never from the drawing.",
      source:
        "ISO 7870-2, Shewhart control charts; NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6.3",
    },
    "trial-limits": {
      meaning:
        "Limits from the first subgroups, before anybody looked whether those were made under usual conditions. They stay labelled so until a person freezes limits.",
      source:
        "ISO 7870-2, Shewhart control charts; NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6.3",
    },
    baseline: {
      meaning:
        "The stretch of history that limits are computed from: steady, and made under usual conditions.",
      source:
        "ISO 7870-2, Shewhart control charts; NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6.3",
    },
    sigma: {
      meaning:
        "The standard deviation: how far values usually lie from their mean. Within subgroups it tells what chance does; over the whole time it also holds every shift from lot to lot.",
      source: "ISO 3534-1; NIST/SEMATECH e-Handbook, section 6.3.2",
    },
    "run-rule": {
      meaning:
        "A pattern that chance hardly ever makes, such as one point beyond a limit or nine in a row on one side. When a rule fires, that is a signal: a prompt to look, not a disposition of pieces.",
      source:
        "Western Electric, Statistical Quality Control Handbook (1956); L. S. Nelson, Journal of Quality Technology 16 (1984)",
    },
    "average-run-length": {
      meaning:
        "How many points pass on average until a chart signals. It should be long while all is well (few false alarms) and short once the process has moved.",
      source: "ISO 7870-1, general guidelines on control charts",
    },
    ewma: {
      meaning:
        "Charts with a memory: each point also holds what came before, so that small lasting shifts are found sooner than by single points.",
      source: "ISO 7870-6 (EWMA) and ISO 7870-4 (CUSUM); NIST/SEMATECH e-Handbook, section 6.3.2",
    },
    "assigned-cause": {
      meaning:
        "A reason that somebody found and named for a point, such as a chip under the part. Only subgroups with one may be left out of limits.",
      source:
        "ISO 7870-2, Shewhart control charts; NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6.3",
    },
    drift: {
      meaning:
        "A source whose pieces have come to differ from those of its neighbours in the same lots. Since lots are compared with themselves, a bad casting does not look like a bad fixture.",
      source: "Linear models with fixed effects; any textbook on regression",
    },
    "change-point": {
      meaning:
        "The lot at which the difference most likely began, and the lots between which it began in 9 of 10 cases.",
      source: "Change-point estimation by least squares; common practice",
    },
    confounded: {
      meaning:
        "Two sources that always went together, such as one tool on one machine. No arithmetic separates them; a run with them crossed does, and the page names it.",
      source: "Design of experiments; NIST/SEMATECH e-Handbook, chapter 5",
    },
    forecast: {
      meaning:
        "If it goes on at the same rate, how many pieces are made until the mean meets the tolerance limit, with the range of 90 of 100 cases.",
      source: "Prediction from a fitted line; NIST/SEMATECH e-Handbook, section 4.5",
    },
    capability: {
      meaning:
        "What a steady process can do against its tolerance: Cp divides the tolerance by six sigma within subgroups, Cpk also counts how far the mean lies from the middle. Said only of a process without unresolved signals.",
      source: "ISO 22514-2, process capability and performance; NIST/SEMATECH e-Handbook, section 6.1.6",
    },
    performance: {
      meaning:
        "The same with sigma over the whole time, shifts and all: what was delivered, whether the process was steady or not.",
      source: "ISO 22514-2, process capability and performance; NIST/SEMATECH e-Handbook, section 6.1.6",
    },
    "confidence-bound": {
      meaning:
        "An index from a few pieces may be luck. The lower bound is what can be claimed: in 95 of 100 such samples it lies below the true index.",
      source: "ISO 22514-4, estimates and confidence intervals; NIST/SEMATECH e-Handbook, section 6.1.6",
    },
    gate: {
      meaning:
        "What has to hold before an index may be shown to a customer: enough lots and pieces, no open signals, a distribution that fits, a gauge that resolves enough.",
      source: "ISO 22514-2, process capability and performance; NIST/SEMATECH e-Handbook, section 6.1.6",
    },
    normality: {
      meaning:
        "The shape of the values. On a probability plot the points of a fitting shape lie along a straight line. Form and position errors are rarely normal, because they cannot fall below 0.",
      source: "ISO 5479, tests for departure from normality; NIST/SEMATECH e-Handbook, section 1.3.3",
    },
    resolution: {
      meaning: "The smallest step that a gauge shows. Figures on the pages are written with its decimals.",
      source: "JCGM 200, international vocabulary of metrology",
    },
    mpe: {
      meaning:
        "How far a gauge may be wrong according to its maker, often A + L/K: a fixed part and one that grows with the length.",
      source: "ISO 10360 for coordinate measuring machines; JCGM 200, international vocabulary of metrology",
    },
    "gauge-study": {
      meaning:
        "Several people measure the same parts several times. Repeatability is what differs when one person measures again, reproducibility what differs from person to person.",
      source:
        "ISO 22514-7, capability of measurement processes; the AIAG manual on measurement systems analysis; ISO 5725",
    },
    "gauge-share": {
      meaning:
        "Six sigma of the gauge as a part of the tolerance: 10 % and less is usually good, above 30 % usually too much.",
      source:
        "ISO 22514-7, capability of measurement processes; the AIAG manual on measurement systems analysis",
    },
    ndc: {
      meaning:
        "Into how many groups the gauge can sort the pieces it measured with certainty. From five on a chart can be trusted.",
      source:
        "ISO 22514-7, capability of measurement processes; the AIAG manual on measurement systems analysis",
    },
    bias: {
      meaning:
        "Bias is how far a gauge reads off a known reference on average; linearity is how that changes over its range.",
      source:
        "JCGM 200, international vocabulary of metrology; ISO 22514-7, capability of measurement processes; the AIAG manual on measurement systems analysis",
    },
    alarm: {
      meaning:
        "One excursion of a feature that a person has to answer. Unacknowledged: nobody has taken it up. Acknowledged: somebody has. Returned to normal: the process has, the reason is still to be written. Shelved: put off until a stated time. Closed: cause and action are recorded.",
      source: "IEC 62682, management of alarm systems; ISA-18.2",
    },
    "reaction-plan": {
      meaning: "The steps to take when a feature signals, agreed beforehand and written in the control plan.",
      source: "The AIAG and VDA practice on control plans; IATF 16949, in general words",
    },
    containment: {
      meaning:
        "Pieces made since the last good subgroup are set apart until qualified people have decided about them by the shop's own procedure.",
      source: "ISO 9001, control of nonconforming outputs",
    },
    "control-plan": {
      meaning:
        "For each feature: tolerance, how often it is measured, which chart and rules judge it, and what to do.",
      source: "The AIAG practice on control plans; IATF 16949, in general words",
    },
    "alarm-budget": {
      meaning:
        "How many false alarms the rules in force give per shift if nothing ever moved, from exact run lengths and the measuring rate. Compare it with what people can take up.",
      source: "IEC 62682, management of alarm systems; ISA-18.2; ISO 7870-1",
    },
  },
};
