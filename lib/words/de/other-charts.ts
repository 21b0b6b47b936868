import { counted, whole } from "../../format/numbers";
import type { otherCharts as english } from "../en/other-charts";

const lie = (count: number) => (count === 1 ? "liegt" : "liegen");
const law = (name: "binomial" | "Poisson") =>
  name === "binomial" ? "Binomialverteilung" : "Poisson-Verteilung";

/** Kinds of sources as they are counted. */
const MANY: Record<string, [one: string, many: string]> = {
  Los: ["Los", "Lose"],
  Vorrichtung: ["Vorrichtung", "Vorrichtungen"],
  Werkzeug: ["Werkzeug", "Werkzeuge"],
  Maschine: ["Maschine", "Maschinen"],
  Messmittel: ["Messmittel", "Messmittel"],
  Bediener: ["Bediener", "Bediener"],
  Rüstzustand: ["Rüstzustand", "Rüstzustände"],
};

export const otherCharts = {
  signals: "Signale",
  noneIn: {
    subgroups: (count: number) => `Keine in ${counted(count, "Stichprobe", "Stichproben")}.`,
    samples: (count: number) => `Keine in ${counted(count, "Stichprobe", "Stichproben")}.`,
    points: (count: number) => `Keine in ${counted(count, "Punkt", "Punkten")}.`,
  },
  earlier: (count: number) => `Und ${count} frühere.`,
  plain: { about: "darum: jenseits einer Grenze", noPoint: "kein Punkt" },
  lookOnly: "Nur zur Ansicht: Ein Alarm entsteht daraus nicht.",
  memory: {
    parameters: {
      lambda: "λ, Gewicht des neuesten Punktes",
      lambdaHint: "0,01 bis 1; kleine finden kleine Verschiebungen.",
      L: "L, Grenzen in Sigma",
      LHint: "Des gewichteten Mittelwerts.",
      k: "k, halbe gesuchte Verschiebung",
      h: "h, wo es ein Signal gibt",
      sigmaHint: "In Sigma des eingezeichneten Punktes.",
      fast: "Schneller Start (FIR)",
      fastHint: "Die Summen beginnen bei h/2.",
      draw: "So zeichnen",
    },
    notYet: "Noch keine Grenzen, mit denen zu rechnen wäre. Sie kommen mit weiteren Stichproben.",
    sigmaOfPoint: "Sigma des Punktes",
    names: { ewma: "Gewichteter Mittelwert", cusum: "Kumulierte Summen, obere und untere" },
    onChart: (name: string) => `${name} auf der Karte`,
    inUnit: (name: string, unit: string) => (unit === "" ? name : `${name}, ${unit}`),
    spoken: (point) =>
      `Stichprobe ${point.number}, ${point.when}: ${point.value}${point.limits === "" ? "" : `, Grenzen ${point.limits}`}${point.signal === "" ? "" : `, ${point.signal}`}`,
    planned: "Der Prüfplan lässt diese Karte mitbeobachten: Ihre Signale lösen Alarme aus.",
    look: "Nur zur Ansicht: Ein Alarm entsteht daraus nicht. Die Technik kann sie im Prüfplan mitbeobachten lassen.",
    wholeHistory: "Signale im ganzen Verlauf",
    summary: (from: number, to: number) => `Die Punkte als Tabelle: Stichproben ${from} bis ${to}`,
    caption: (name: string, from: number, to: number, unit: string) =>
      `${name}, Stichproben ${from} bis ${to}${unit === "" ? "" : `, in ${unit}`}`,
    heads: { number: "Stichprobe", when: "Letzte Messung", limits: "Grenzen", signal: "Signal" },
    leftOut: "ausgelassen",
    notJudged: "nicht beurteilt",
    beyond: { up: "oben jenseits der Grenze", down: "unten jenseits der Grenze" },
    bothSums: (upper: string, lower: string) => `${upper} oben, ${lower} unten`,
    fromTo: (lower: string, upper: string) => `${lower} bis ${upper}`,
    computed: (chart: string) => `Wie das berechnet ist: ${chart}`,
    latest: (number: number) => `Der neueste Punkt, Stichprobe ${number}`,
    sources: {
      ewma: "ISO 7870-6; S. W. Roberts, Technometrics 1 (1959) 239–250 (beide aus dem Gedächtnis). Grenzen nach der Varianz jedes einzelnen Punktes. Lauflänge über eine Integralgleichung: S. V. Crowder, Technometrics 29 (1987) 401–407 (aus dem Gedächtnis).",
      cusum:
        "ISO 7870-4; E. S. Page, Biometrika 41 (1954) 100–115; Startwert: J. M. Lucas und R. B. Crosier, Technometrics 24 (1982) 199–205 (alle aus dem Gedächtnis). Eine Summe, die ein Signal gibt, geht von h aus weiter, damit sie zurückkommt, wenn der Prozess es tut.",
    },
    anew: "Sie beginnt mit jeder Fassung der Grenzen neu und übergeht, was ausgelassen ist.",
    stretch: (stretch) =>
      `${stretch.phrase}: ${stretch.from === stretch.to ? `Stichprobe ${stretch.from}` : `Stichproben ${stretch.from} bis ${stretch.to}`}, ab ${stretch.day}${stretch.isStill ? ", noch bei der neuesten" : ""}.`,
    cameOff: (points: number, mean: string | null) =>
      ` Die Summe verließ die 0 vor ${counted(points, "Punkt", "Punkten")}${mean === null ? "" : `, und der Mittelwert liegt seither bei etwa ${mean}`}.`,
    working: {
      average: "Gewichteter Mittelwert",
      averageIs: (formula: string, figure: string) => `λ·x̄ + (1 − λ)·(der vorige) = ${formula} = ${figure}`,
      variance: "Seine Varianz",
      varianceIs: (size: string, root: string) =>
        `V = λ²σ²/n + (1 − λ)²·(die vorige); mit n = ${size} in jeder Stichprobe auf Dauer σ²/n·λ/(2 − λ): √V = ${root}`,
      limits: "Grenzen",
      limitsAre: (formula: string, lower: string, upper: string) =>
        `Mittellinie ± L√V = ${formula} = ${lower} bis ${upper}`,
      from: "Aus den Grenzen",
      fromIs: (centre: string, sigma: string) => `Mittellinie ${centre}, σ̂ = ${sigma}`,
      point: "Punkt",
      pointIs: (root: string, figures: string) => `z = (x̄ − Mittellinie) / (σ̂${root}) = ${figures}`,
      upper: "Obere Summe",
      lower: "Untere Summe",
      signal: "Signal",
      signalIs: (h: number) => `jenseits von h = ${h}`,
    },
  },
  counts: {
    drawn: "Gezeichnete Grenzen",
    threeSigma: "3 Sigma, beurteilt",
    probability: "Exakte Wahrscheinlichkeit",
    onChart: "Anzahlen auf der Karte",
    sample: "Stichprobe",
    spoken: (point) =>
      `Stichprobe ${point.number}, ${point.when}: ${point.count} an ${point.size}${point.standing === "" ? "" : `, ${point.standing}`}`,
    onUsual: (size: string, units: string) =>
      `Anzahlen stehen hier umgerechnet auf ${size} ${units} bei gleichem Anteil; Grenzen und Summen nehmen jede in ihrem eigenen Sigma.`,
    leftOut: "ausgelassen",
    beyond: "jenseits einer Grenze",
    signals: "Signale nach den geltenden Regeln bei 3 Sigma",
    numbers: (first: number, last: number) =>
      first === last ? `Stichprobe ${first}` : `Stichproben ${first} bis ${last}`,
    summary: (from: number, to: number) => `Die Stichproben als Tabelle: ${from} bis ${to}`,
    caption: (size: string, from: number, to: number) =>
      `Anzahlen an je ${size}, Stichproben ${from} bis ${to}`,
    captionVarying: (from: number, to: number) =>
      `Anzahlen bei wechselndem Prüfumfang, Stichproben ${from} bis ${to}`,
    heads: {
      when: "Gezählt",
      count: "Anzahl",
      inspected: "Geprüft",
      plotted: "Je Teil oder Einheit",
      lower: "Untere Grenze",
      upper: "Obere Grenze",
      judged: "Beurteilt",
    },
    computed: "Wie die Grenzen für Zählwerte berechnet sind",
    units: { pieces: "Teile", units: "Einheiten" },
    falseAlarm: (samples: number) => `ein Fehlalarm in ${whole(samples)} Stichproben`,
    noFalseAlarm: "praktisch kein Fehlalarm",
    rate: "Anteil",
    rateIs: (bar: string, units: string, sums: string, figure: string) =>
      `${bar} = Σ Anzahlen / Σ ${units} des Vorlaufs${sums} = ${figure}`,
    sums: (counts: string, inspected: string, samples: number) =>
      ` (${samples} Stichproben) = ${counts} / ${inspected}`,
    size: (size: string, units: string) => `n = ${size} ${units}, immer gleich viele (Prüfplan)`,
    sizes: (least: string, most: string, latest: string, units: string) =>
      `n = ${least} bis ${most} ${units}, jede Anzahl mit ihrem eigenen; zuletzt ${latest}, dafür gelten die Grenzen hier`,
    standardised: "Für die Regeln",
    standardisedIs: (formula: string, figure: string) =>
      `z = ${formula} = ${figure} bei der letzten Stichprobe: jeder Punkt in seinem eigenen Sigma, sodass Stichproben jeden Umfangs nebeneinander stehen`,
    atThreeSigma: "Grenzen bei 3 Sigma",
    threeSigmaIs: (formula: string, often: string) => `${formula}, beschnitten auf das Mögliche; ${often}`,
    exact: "Exakte Grenzen",
    exactIs: (name: "binomial" | "Poisson", span: string, often: string) =>
      `höchstens 0,135 % jenseits auf jeder Seite nach der ${law(name)}: ${span}; ${often}`,
    source:
      "ASTM E2587 und ISO 7870-2 (aus dem Gedächtnis); Wahrscheinlichkeitsgrenzen: übliche Praxis nach der exakten Verteilung. Eine Anzahl auf einer Grenze ist kein Signal. Signale und Alarme richten sich nach 3 Sigma.",
  },
  lots: {
    none: "Keine Lose",
    noneWhy:
      "Die Messungen dieses Merkmals nennen kein Los. Dateien können eines mitbringen; die Datenannahme hat dafür eine Spalte.",
    unnamed: (id: number) => `Nr. ${id}`,
    beyondLimits: "jenseits der Grenzen für Losmittelwerte",
    beyondWithin: "jenseits dessen, was innerhalb der Lose streut",
    differ: "Die Lose unterscheiden sich stärker, als ihre Teile erklären",
    between: "zwischen den Losen",
    within: "innerhalb der Lose",
    onChart: "Losmittelwerte auf der Karte",
    mean: (unit: string) => (unit === "" ? "Mittelwert des Loses" : `Mittelwert des Loses, ${unit}`),
    along: "Lose in zeitlicher Folge",
    spoken: (lot) =>
      `Los ${lot.lot}, ${lot.day}: Mittelwert ${lot.mean} aus ${lot.size}${lot.standing === "" ? "" : `, ${lot.standing}`}`,
    lines: (lots: string) =>
      `Durchgezogen: Grenzen für Losmittelwerte, etwa ein Fehlalarm in ${lots} Losen. Gepunktet: wo die Mittelwerte lägen, wenn nur das sie bewegte, was innerhalb der Lose streut. Nur zur Ansicht: Ein Alarm entsteht daraus nicht.`,
    noneBeyond: "Kein Los liegt jenseits der Grenzen für Losmittelwerte.",
    signal: (lot: string, day: string, mean: string) => `Los ${lot}, ${day}: Mittelwert ${mean}`,
    summary: "Die Lose als Tabelle",
    caption: (lots: number, unit: string) =>
      `Mittelwerte von ${counted(lots, "Los", "Losen")}${unit === "" ? "" : `, in ${unit}`}`,
    heads: {
      number: "Nr.",
      lot: "Los",
      day: "Letzte Messung",
      mean: "Mittelwert",
      range: "Gleitende Spannweite",
    },
    canFreeze:
      "Jede Stichprobe hier ist ein Los; solche Grenzen lassen sich also unten festlegen: Wählen Sie „Losmittelwerte“ als Art, Sigma zu schätzen.",
    howToFreeze:
      "Um nach solchen Grenzen zu urteilen, muss eine Stichprobe ein Los sein: Setzen Sie den Stichprobenumfang im Prüfplan auf die Teile eines Loses, und legen Sie dann Grenzen nach „Losmittelwerte“ fest.",
    computed: "Wie das berechnet ist",
    doDiffer: "Unterscheiden sich die Lose?",
    withinTerm: "Innerhalb der Lose",
    withinIs: (figure: string, freedom: number) =>
      `σ̂ = √(Σ(n − 1)s² / Σ(n − 1)) = ${figure} mit ${whole(freedom)} Freiheitsgraden`,
    test: "Test",
    testIs: (test) =>
      `F = mittleres Quadrat zwischen / σ̂² = ${test.F} mit ${whole(test.between)} und ${whole(test.within)} Freiheitsgraden, ${test.p}`,
    betweenTerm: "Zwischen den Losen",
    betweenIs: (figure: string) =>
      `σ̂ = √((mittleres Quadrat zwischen − σ̂²innerhalb)/n₀), 0, wo das negativ ist = ${figure}`,
    limitsFrom: (lots: number) => `Grenzen für Losmittelwerte, aus ${counted(lots, "Los", "Losen")}`,
    sigma: "Sigma der Losmittelwerte",
    limits: "Grenzen",
    own: "Eigener Anteil der Lose",
    ownIs: (sigma: string, figure: string) => `√(${sigma}² − σ̂²innerhalb·Mittelwert von 1/n) = ${figure}`,
    source:
      "W. H. Woodall und E. V. Thomas, IIE Transactions 27 (1995) 757–764; Komponenten: Searle, Casella und McCulloch, Variance Components (1992), Kapitel 3 (beide aus dem Gedächtnis).",
    assumes:
      "Dass Lose zufällig aufeinanderfolgen: Eine Drift von Los zu Los macht Nachbarn ähnlich, gleitende Spannweiten klein und diese Grenzen eng. Dass die Lose etwa gleich groß sind. Dass ein Unterschied von Los zu Los überhaupt zum Prozess gehört, was nur der Betrieb wissen kann: Einer, der sich beseitigen lässt, wird besser beseitigt.",
    manyCounts: " Dass die Anzahlen groß genug sind, um annähernd normalverteilt zu sein.",
    found: {
      seen: (seen: number, lots: number) =>
        `${seen} von ${lots} Losen ${lie(seen)} jenseits von Grenzen, die aus der Streuung innerhalb der Lose gebildet sind`,
      none: (p: string, seen: string) =>
        `Losmittelwerte unterscheiden sich nicht stärker, als die Messwerte innerhalb der Lose erklären (${p}); ${seen}.`,
      some: (seen: string, share: number) =>
        `${seen}. ${share} % der Varianz eines Messwerts liegen zwischen den Losen, und die Grenzen taugen noch.`,
      swamped: (seen: string, share: number, signalling: number, lots: number) =>
        `${seen}: ${share} % der Varianz eines Messwerts liegen zwischen den Losen; die Karte gibt also Signale bei Losen, die sich unterscheiden, wie Lose hier es tun. Suchen Sie, was sie unterscheidet, oder beurteilen Sie, wenn das zum Prozess gehört, Losmittelwerte nach Grenzen aus deren gleitender Spannweite: ${signalling} von ${lots} Losen ${lie(signalling)} jenseits von diesen.`,
    },
  },
  shortRuns: {
    basis: "Womit ein Merkmal verglichen wird",
    fromNominal: "Vom Nennmaß",
    fromCentre: "Von der Mittellinie",
    noTarget:
      "Der Prüfplan nennt für dieses Merkmal weder Nennmaß noch Zielwert. Vergleichen Sie es stattdessen mit seiner Mittellinie.",
    noSigma:
      "Noch kein Sigma, durch das zu teilen wäre: Es gibt keine Grenzen. Sie kommen mit weiteren Stichproben.",
    which: (features: number, kind: string) =>
      `${counted(features, "Merkmal", "Merkmale")} der Art „${kind}“ an diesem Teil, auf Karten derselben Sorte, in der Folge, in der sie gefertigt wurden.`,
    falseAlarms: (points: string) =>
      ` Nach den hier geltenden Regeln gibt etwa ein Punkt von ${points} einen Fehlalarm auf der oberen Karte, wenn Zielwerte und Sigmas stimmen.`,
    notSet: "Die meisten dieser Prozesse sind nicht auf ihr Nennmaß eingestellt",
    manyBeyond: (beyond: number, all: number) =>
      `${beyond} von ${all} Punkten liegen jenseits der Grenzen. Das sagt, wo sie eingestellt sind, nicht, dass sie sich verschoben haben. Um zu sehen, was sich verschoben hat, vergleichen Sie jedes {link}.`,
    withCentre: "mit seiner Mittellinie",
    onChart: "Abweichungen auf der Karte",
    deviation: {
      nominal: "Abweichung vom Nennmaß, Sigma des Punktes",
      centre: "Abweichung von der Mittellinie, Sigma des Punktes",
    },
    along: "Punkte aller Merkmale in zeitlicher Folge",
    spoken: (feature: string, when: string, location: string) =>
      `${feature}, ${when}: ${location} Sigma von seinem Zielwert`,
    summary: (count: number) => `Die Punkte als Tabelle: die neuesten ${count}`,
    caption: (features: number, count: number) =>
      `Abweichungen von ${counted(features, "Merkmal", "Merkmalen")}, die neuesten ${count} Punkte`,
    heads: { point: "Punkt", feature: "Merkmal", when: "Letzte Messung" },
    inSigma: (name: string) => `${name}, in Sigma`,
    ofFeature: (feature: string, subgroup: number) => `${feature}, Stichprobe ${subgroup}`,
    signals: "Signale nach den Regeln dieses Merkmals",
    ofSpread: (name: string) => `${name}: `,
    earlier: (count: number) =>
      `Und ${count} frühere. Kommen alle von einem Merkmal, so passen sein Zielwert oder sein Sigma nicht zum Prozess; kommen sie von mehreren, so sehen Sie an, was diese gemeinsam haben.`,
    numbers: (first: number, last: number, names: string) =>
      `${first === last ? `Punkt ${first}` : `Punkte ${first} bis ${last}`} (${names})`,
    computed: "Wie das berechnet ist",
    latest: "Sein neuester Punkt",
    target: "Zielwert",
    targetIs: {
      nominal: (figure: string) => `Zielwert oder Nennmaß des Plans = ${figure}`,
      centre: (figure: string) => `geltende Mittellinie = ${figure}`,
    },
    sigma: "Sigma",
    sigmaIs: (figure: string) => `innerhalb der Stichproben, der geltenden Grenzen = ${figure}`,
    zIs: (figures: string) => `(x̄ − Zielwert)·√n / σ̂ = ${figures}`,
    limits: "Grenzen",
    limitsAre: "0 ± 3, für jedes Merkmal und jeden Stichprobenumfang",
    spreadIs: (figure: string, z: string) =>
      `in Sigma = ${figure}; beurteilt als z der eigenen Verteilung = ${z}`,
    source: "ISO 7870-8 und ISO 7870-5 (aus dem Gedächtnis).",
    assumes:
      "Dass jeder Zielwert ist, worauf sein Prozess eingestellt ist, und jedes Sigma das seines Prozesses; ein falsches zeigt sich als Folge von Punkten dieses einen Merkmals. Merkmale eines Teils teilen, was das Teil bewegt hat; Punkte desselben Augenblicks sind also nicht unabhängig voneinander: Mehrere zugleich jenseits einer Grenze sind ein Ereignis.",
  },
  neighbours: {
    title: "Benachbarte Punkte ähneln einander",
    closely: (r: string) =>
      `Benachbarte Punkte ähneln einander sehr (r = ${r}): Regeln, die sie für unabhängig halten, sagen hier wenig.`,
    test: (count: number, p: string) =>
      `Test der Korrelation von Nachbarn in ${whole(count)} Punkten: ${p} (NIST/SEMATECH e-Handbook 1.3.5.12). Auch eine Verschiebung oder eine Drift macht Nachbarn ähnlich: Suchen Sie zuerst danach. Was bleibt, ist das Gedächtnis des Prozesses selbst, etwa ein Bad oder ein Werkzeug, das sich langsam ändert.`,
    simulated: " Der Faktor ist mit einem Modell erster Ordnung und den geltenden Regeln simuliert.",
    forCapability: (limit: string) =>
      `Ein Index spürt r bis ${limit} kaum, daher erfüllt es die Bedingung „unabhängig“ der Fähigkeit; Regeln spüren es schon.`,
    hardly:
      "Diese Regeln geben so gut wie nie durch Zufall ein Signal; der Faktor ließ sich nicht simulieren.",
    growth: (found) =>
      `Benachbarte Punkte ${found.alike ? "ähneln einander" : "unterscheiden sich voneinander"} (r = ${found.r}): Diese Regeln geben etwa ${found.factor}-mal so viele Fehlalarme wie bei unabhängigen Punkten, einen in ${found.points} Punkten statt einen in ${found.alone}.`,
  },
  variation: {
    title: "Woher die Streuung kommt",
    of: (readings: number, lots: number, isAll: boolean) =>
      `Von der Varianz ${isAll ? "der" : "der neuesten"} ${counted(readings, "Messung, die zählt", "Messungen, die zählen")}, in ${counted(lots, "Los", "Losen")}. Jeder Anteil als eigene Standardabweichung:`,
    notApart: "nicht zu trennen",
    notApartWhy: (words: string) =>
      `Was ${words} streut, lässt sich nicht trennen: Es gibt jeweils nur eine Messung. Die Zeile darüber enthält beides.`,
    method:
      "Geschachtelte Varianzkomponenten nach der Varianzanalyse; eine negative Schätzung gilt als keine. Ein Anteil der Lose enthält alles, was sich von Los zu Los unterscheidet: Material, Einrichtung, die Woche.",
    shares: {
      lots: "zwischen den Losen",
      within: {
        lot: "innerhalb eines Loses",
        fixture: "innerhalb einer Vorrichtung",
        subgroup: "innerhalb einer Stichprobe",
      },
      withinOfLot: {
        fixture: "innerhalb einer Vorrichtung eines Loses",
        subgroup: "innerhalb einer Stichprobe eines Loses",
      },
      between: { fixture: "zwischen den Vorrichtungen", subgroup: "zwischen den Stichproben" },
      betweenInLot: {
        fixture: "zwischen den Vorrichtungen eines Loses",
        subgroup: "zwischen den Stichproben eines Loses",
      },
      share: (percent: number, words: string) => `${percent} % ${words}`,
      none: "Nichts streut: Alle Messwerte sind gleich.",
    },
    lotsDiffer: (beyond: number, all: number) =>
      `${beyond} von ${all} Losen enthalten einen Mittelwert jenseits seiner Grenzen, auf beiden Seiten`,
    oneFact: (beyond: number) =>
      `Die Lose unterscheiden sich stärker als die Messwerte innerhalb von ihnen, und die Grenzen kennen nur, was innerhalb streut. So gibt fast jedes Los ein Signal: eine Tatsache über den Prozess, nicht ${beyond} Fehler. Suchen Sie, was sich von Los zu Los ändert, und beurteilen Sie Lose gegeneinander.`,
    offered: (limits) =>
      `Grenzen für den Mittelwert eines ganzen Loses, aus den gleitenden Spannweiten zwischen den Losen: ${limits.lower} bis ${limits.upper} um ${limits.centre} (Sigma ${limits.sigma}). Sie werden hier angeboten und beurteilen nichts.`,
    doDiffer: "Unterscheiden sich ihre Mittelwerte?",
    anova:
      "Einfache Varianzanalyse, jede Art für sich: Was Lose gemeinsam haben, ist nicht abgezogen; eine Vorrichtung, die die schlechten Lose hatte, sieht also schlecht aus. Die Seite Drift vergleicht innerhalb der Lose.",
    many: (count: number, kind: string) => {
      const [one, many] = MANY[kind] ?? [kind, kind];
      return counted(count, one, many);
    },
    problem: (many: string, words: string) => `${many}: ${words}`,
    nothingWithin: (many: string) =>
      `${many}: Innerhalb von ihnen streut nichts; es gibt also nichts, wogegen zu testen wäre.`,
    tested: (test) =>
      `${test.many} ${test.differ}: F = ${test.F} mit ${whole(test.between)} und ${whole(test.within)} Freiheitsgraden; durch Zufall allein käme es ${test.chance} so weit.`,
    differ: {
      sure: "unterscheiden sich stärker als durch Zufall",
      likely: "unterscheiden sich wahrscheinlich",
      no: "zeigen keinen Unterschied",
    },
    chance: {
      rare: "seltener als 1-mal in 1000",
      hundred: (times: string) => `etwa ${times}-mal in 100`,
      one: (of: number) => `etwa 1-mal in ${whole(of)}`,
    },
  },
} satisfies typeof english;
