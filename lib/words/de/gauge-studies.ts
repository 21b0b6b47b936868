import { counted } from "../../format/numbers";
import type { gaugeStudies as english } from "../en/gauge-studies";

const readings = (count: number) => counted(count, "Messwert", "Messwerte");
const inUnit = (unit: string) => (unit === "" ? "" : `, in ${unit}`);
const AIAG = "AIAG, Measurement Systems Analysis, 4. Ausgabe (aus dem Gedächtnis)";

export const gaugeStudies = {
  headline: {
    noClasses: "es zeigt keine eigene Streuung",
    classes: (count: number) => `es unterscheidet ${counted(count, "Klasse", "Klassen")} dieser Teile`,
    ofTolerance: (share: string, standing: string, classes: string) =>
      `Das Messmittel braucht ${share} der Toleranz (${standing}); ${classes}.`,
    ofVariation: (share: string, classes: string) =>
      `Das Messmittel macht ${share} der gesehenen Streuung aus; ${classes}. Eine Toleranz war nicht angegeben.`,
    nothingVaried: "In dieser Untersuchung streute nichts.",
    typeOne: (study) =>
      `Cg ${study.Cg} und Cgk ${study.Cgk}: ${study.isEnough ? "genug" : "nicht genug"}, üblich verlangt ist mindestens ${study.asked}; ${study.bias}.`,
    oneSize: (bias: string) => `Eine Größe wurde gemessen: ${bias}; Linearität braucht zwei Größen.`,
    linearity: (isFree: boolean, changes: boolean) =>
      `${isFree ? "Nirgends ist ein Bias zu sehen" : "Es gibt einen Bias"}, und ${changes ? "er ändert sich mit der Größe" : "eine Änderung mit der Größe ist nicht zu sehen"}.`,
    setup: (share: string, setup: string, repeatability: string) =>
      `Der neue Aufbau macht ${share} der Varianz aus: Seine Standardabweichung ist ${setup} neben ${repeatability} innerhalb eines Aufbaus.`,
    biasUnknown: "ob es einen Bias gibt, lässt sich nicht prüfen",
    bias: "ein Bias ist zu sehen",
    noBias: "ein Bias ist nicht zu sehen",
  },
  page: {
    tab: (id: string) => `Messmitteluntersuchung ${id}`,
    title: (kind: string, id: number, gauge: string) => `${kind} ${id} von ${gauge}`,
    madeOn: (day: string) => `gemacht am ${day}`,
    onFeature: "an {feature}",
    onNone: "an keinem Merkmal des Prüfplans",
    readings: (unit: string) => `Messwerte ${unit === "" ? "ohne Einheit" : `in ${unit}`}`,
    entered: "eingegeben {when}",
    enteredBy: "eingegeben {when} von {by}",
    download: "Die Messwerte herunterladen (CSV)",
    before: "Bevor man sie verwendet",
    withdrawn: "Zurückgezogen",
    withdrawnWhy: (why: string) => `Sie zählt für kein Merkmal mehr: ${why}`,
    superseded: "Ersetzt",
    supersededBy: "Eine neuere gilt: {study}.",
    study: (id: number) => `Untersuchung ${id}`,
    speaks:
      "Eine Untersuchung spricht von diesen Teilen, diesen Menschen und jenem Tag. Wiederholen Sie sie nach einer Reparatur, einer Kalibrierung mit Korrektur oder einer Änderung an Spannung oder Programm.",
    scatters:
      "Sie sagt, wie stark das Messmittel streut, nicht, ob es richtig anzeigt: Dafür gibt es eine Bias-Untersuchung und den Kalibrierschein. Ob ein Messmittel verwendet werden darf, richtet sich nach der Zeichnung, den Anforderungen des Kunden und dem Verfahren des Betriebs durch dessen befugte Personen.",
    same: "Eben aus den Messwerten neu berechnet, ist jede Zahl die, die aufbewahrt wurde.",
    different:
      "Aus den Messwerten neu berechnet, weichen die Zahlen von den aufbewahrten ab: Das Programm hat sich seither geändert. Gezeigt sind die aufbewahrten.",
  },
  withdraw: {
    open: "Diese Untersuchung zurückziehen",
    why: "Warum sie nicht gilt",
    hint: "Zum Beispiel: mit verschlissenem Taster gemacht. Die Untersuchung bleibt mit diesem Grund lesbar.",
    saving: "Wird gespeichert …",
    submit: "Zurückziehen",
  },
  formulas: {
    how: "Wie ist das berechnet?",
    rounded:
      "Zahlen sind gerundet gezeigt und voll gerechnet; beim Nachrechnen auf Papier kann also eine letzte Stelle abweichen.",
    presumes: "Was sie voraussetzt",
    standings: {
      open: "Aus den Messwerten nicht zu sehen",
      yes: "Trifft zu",
      no: "Trifft nicht zu",
    },
    common: "übliche Praxis, ohne Quelle",
    fromTo: (lower: string, upper: string) => `${lower} bis ${upper}`,
    notKnown: "nicht bekannt",
  },
  inUnit,
  crossed: {
    components: "Komponenten",
    componentsPurpose:
      "Standardabweichungen; eine Komponente, die die mittleren Quadrate unter 0 setzen, steht als 0.",
    anova: "Varianzanalyse",
    pooled: (p: string) =>
      `Die Wechselwirkung (${p}) ist vom Zufall nicht zu unterscheiden und wurde mit der Wiederholpräzision zusammengefasst.`,
    exact: "Die Wiederholungen stimmen genau überein; die Wechselwirkung lässt sich also nicht prüfen.",
    kept: (p: string) => `Die Wechselwirkung (${p}) blieb stehen.`,
    byRange: "Nach Mittelwert und Spannweite",
    byRangePurpose:
      "Das Verfahren mit Papier und Bleistift, für den Vergleich mit älteren Untersuchungen; die Wechselwirkung sieht es nicht.",
    terms: {
      part: "Teil",
      operator: "Prüfer",
      interaction: "Teil mal Prüfer",
      repeatability: "Wiederholpräzision",
      total: "gesamt",
    },
    names: {
      repeatability: "Wiederholpräzision",
      operator: "Prüfer",
      interaction: "Teil mal Prüfer",
      reproducibility: "Vergleichpräzision (beides)",
      grr: "Messmittel: Wiederhol- und Vergleichpräzision",
      part: "von Teil zu Teil",
      total: "alles, was zu sehen war",
    },
    caption: (level: string, unit: string) =>
      `${level}-Intervalle nach modifizierten großen Stichproben${unit === "" ? "" : `; Standardabweichungen in ${unit}`}`,
    heads: {
      from: "Von",
      sd: "Standardabweichung",
      interval: "Intervall",
      variance: "Der Varianz",
      study: "Der Untersuchung",
      tolerance: "Der Toleranz",
    },
    anovaCaption: "Zweifach, Teile und Prüfer als zufällig",
    anovaHeads: {
      term: "Ursache",
      df: "Freiheitsgrade",
      ss: "Quadratsumme",
      ms: "Mittleres Quadrat",
    },
    methods: {
      ev: "Wiederholpräzision (EV)",
      av: "Prüfer (AV)",
      grr: "Messmittel (GRR)",
      pv: "von Teil zu Teil (PV)",
      study: "der Untersuchung",
      tolerance: "der Toleranz",
      ndc: "unterscheidbare Klassen (ndc)",
    },
    methodsCaption: (unit: string) =>
      `Beide Verfahren nebeneinander${unit === "" ? "" : `; Standardabweichungen in ${unit}`}`,
    methodHeads: {
      name: "Kennwert",
      range: "Mittelwert und Spannweite",
      anova: "Varianzanalyse",
    },
    picture: {
      title: "Messwerte nach Teil und Prüfer",
      description: (parts: number, operators: number) =>
        `${counted(parts, "Teil", "Teile")} von links nach rechts; für jedes die Messwerte von ${counted(operators, "Prüfer", "Prüfern")} minus dem Mittelwert des Teils.`,
      words: (operators: string, unit: string) =>
        `Jeder Messwert minus dem Mittelwert seines Teils. Gegen alle Prüfer zusammen: ${operators}${unit === "" ? "" : ` in ${unit}`}.`,
      reads: (operator: string, shape: string, figure: string) => `${operator} (${shape}) liest ${figure}`,
      caption: "Messwerte jedes Teils und Prüfers",
      heads: { part: "Teil", operator: "Prüfer", readings: "Messwerte", mean: "Mittelwert" },
      across: (unit: string) => `minus Mittelwert des Teils${unit === "" ? "" : ` in ${unit}`}`,
      along: "Teil",
      shapes: {
        disc: "Kreis",
        square: "Quadrat",
        up: "Dreieck",
        down: "Dreieck nach unten",
        plus: "Plus",
        cross: "Kreuz",
        bar: "Balken",
      },
    },
    figures: {
      repeatability: "Wiederholpräzision",
      interaction: "Teil mal Prüfer",
      operator: "Prüfer",
      part: "Von Teil zu Teil",
      gauge: "Messmittel",
      study: "Der Untersuchung",
      tolerance: "Der Toleranz",
      ndc: "Unterscheidbare Klassen",
      interval: "Intervall des Messmittels",
      byRange: "Mittelwert und Spannweite",
    },
    fromTo: (lower: string, upper: string) => `${lower} bis ${upper}`,
    gaugeFormula: "σ Messmittel = √(σ²ₑ + σ²ₒ + σ²ₚₒ)",
    studyFormula: "100 σ Messmittel / σ gesamt",
    toleranceFormula: "100 × 6 σ Messmittel / (U − L)",
    ndcFormula: "ndc = ⌊1,41 σₚ / σ Messmittel⌋",
    intervalFormula: "Schätzung ± √Σ (g cᵢ MSᵢ)², aus den mittleren Quadraten vor dem Abschneiden",
    rangeFormula: "EV = R̄·K₁, AV = √((x̄-Unterschied·K₂)² − EV²/pn), PV = R der Teile·K₃",
    cut: (figure: string) => `${figure}, auf 0 gesetzt`,
    nothingVaried: "nichts streute",
    noTolerance: "keine Toleranz war angegeben",
    noVariation: "das Messmittel zeigt keine Streuung",
    ndcIs: (working: string, ndc: number | null) => `${working}, also ${ndc}`,
    rangeIs: (ev: string, av: string, pv: string) => `EV = ${ev}; AV aus ${av}; PV = ${pv}`,
    sources: {
      aiag: AIAG,
      ndc: `${AIAG}; üblich verlangt sind mindestens 5`,
      interval:
        "Graybill und Wang 1980; Burdick, Borror und Montgomery, Journal of Quality Technology 35 (2003) (aus dem Gedächtnis)",
      byRange: `${AIAG}; Faktoren berechnet und nicht gerundet`,
    },
    presumes: {
      size: (parts: number, operators: number, trials: number) =>
        `Sie ist so groß wie üblich verlangt (10 Teile, 3 Prüfer, 2 Wiederholungen): ${counted(parts, "Teil", "Teile")}, ${counted(operators, "Prüfer", "Prüfer")}, ${counted(trials, "Wiederholung", "Wiederholungen")}.`,
      by: (part: string, operator: string) => `Teil ${part} bei ${operator}`,
      alike: (wide: string | null, limit: string) =>
        `Alle streuen an jedem Teil gleich: ${wide === null ? "keine Spannweite der Wiederholungen liegt über ihrer Grenze" : `die Spannweite von ${wide} liegt über ihrer Grenze`} (D₄·R̄ = ${limit}).`,
      interaction: (p: string | null, poolAbove: string) =>
        p === null
          ? "Die Prüfer unterscheiden sich an jedem Teil gleich: Das lässt sich nicht prüfen."
          : `Die Prüfer unterscheiden sich an jedem Teil gleich: p der Wechselwirkung ${p}, über ${poolAbove} mit der Wiederholpräzision zusammengefasst.`,
      step: (step: string | null, scatter: string) =>
        step === null
          ? "Der Schritt des Messmittels ist fein neben seiner Streuung: Seine Auflösung war nicht angegeben."
          : `Der Schritt des Messmittels (${step}) ist fein neben seiner Streuung (${scatter}).`,
      range: "Die Teile wurden über den Bereich genommen, den der Prozess fertigt.",
      blind: "Die Prüfer sahen frühere Messwerte nicht und maßen in zufälliger Folge.",
    },
  },
  linearity: {
    title: "Bias bei jeder Größe",
    caption: (sizes: number, unit: string, level: string) =>
      `${counted(sizes, "Größe", "Größen")}${inUnit(unit)}; Intervalle mit ${level} Vertrauen`,
    heads: {
      reference: "Bekannte Größe",
      count: "Messwerte",
      bias: "Bias",
      interval: "Intervall",
      line: "Nach der Geraden",
      figure: "Kennwert",
      estimate: "Schätzung",
      error: "Standardfehler",
      lower: "Untere",
      upper: "Obere",
    },
    line: "Die Gerade",
    lineCaption: "Bias über der Größe nach kleinsten Quadraten",
    slope: "Steigung",
    atZero: "bei Größe 0",
    picture: {
      title: "Bias über der Größe",
      description: (count: number, pieces: number) =>
        `Abweichungen von ${counted(count, "Messwert", "Messwerten")} von den bekannten Größen von ${counted(pieces, "Teil", "Teilen")}, und die Gerade durch sie.`,
      words: (level: string, isFree: boolean) =>
        `Punkte sind Messwerte minus der bekannten Größe, Quadrate deren Mittelwerte; die Gerade ist ihre Regression und das Band ihr ${level}-Intervall. ${isFree ? "Kein Bias liegt überall im Band." : "Irgendwo schließt das Band keinen Bias aus."}`,
      caption: "Die Gerade und ihr Band",
      across: (unit: string) => `Messwert minus bekannte Größe${unit === "" ? "" : ` in ${unit}`}`,
      along: (unit: string) => `bekannte Größe${unit === "" ? "" : ` in ${unit}`}`,
    },
    figures: { bias: (size: number) => `Bias bei ${size}`, line: "Gerade", band: "Band" },
    biasFormula: "Mittelwert von (Messwert − Referenz), t = Bias / (s / √n)",
    lineFormula: "Bias = a + b · Größe",
    lineIs: (intercept: string, slope: string, residual: string) =>
      `Bias = ${intercept} + ${slope} × Größe; Reststandardabweichung ${residual}`,
    bandIs: (freedom: number) => `mit ${freedom} Freiheitsgraden`,
    lineSource: `${AIAG}; NIST/SEMATECH e-Handbook 2.4.5`,
    sameSource: "dieselbe",
    presumes: {
      sizes: (count: number) => `Mindestens fünf Größen über den gemessenen Bereich: ${count}.`,
      known: "Die bekannten Größen sind viel genauer bekannt, als das Messmittel sie liest.",
      alike: "Das Messmittel streut bei jeder Größe gleich.",
    },
  },
  setup: {
    components: "Komponenten",
    caption: (setups: number, unit: string) => `${counted(setups, "Aufbau", "Aufbauten")}${inUnit(unit)}`,
    anew: "neuer Aufbau",
    within: "innerhalb eines Aufbaus",
    noInterval: "die Aufbauten haben verschieden viele Messwerte",
    heads: {
      from: "Von",
      sd: "Standardabweichung",
      setup: "Aufbau",
      piece: "Teil",
      count: "Messwerte",
      mean: "Mittelwert",
    },
    interval: (level: string) => `${level}-Intervall`,
    setups: "Aufbauten",
    meansCaption: (unit: string) => `Mittelwerte der Aufbauten${inUnit(unit)}`,
    figures: { anew: "Neuer Aufbau", share: "Anteil" },
    anewFormula: "σ² Aufbau = (MS Aufbau − MS innerhalb) / Messwerte eines Aufbaus, je Teil",
    anewIs: (sigma: string, p: string | null) =>
      `σ = ${sigma}${p === null ? "" : `; p für keine Wirkung ${p}`}`,
    anewSource: "NIST/SEMATECH e-Handbook 2.4.4, geschachtelte Ursachen",
    shareFormula: "σ² Aufbau / (σ² Aufbau + σ² innerhalb)",
    nothingVaried: "nichts streute",
    byDefinition: "nach Definition",
    presumes: {
      enough: (setups: number) => `Es sind genug Aufbauten, um ihre Streuung zu kennen (5): ${setups}.`,
      anew: "Das Messmittel wurde zwischen den Aufbauten wirklich abgebaut und neu ausgerichtet.",
    },
  },
  typeOne: {
    figures: "Kennwerte",
    rows: {
      Cg: "Cg: Raum für die Streuung",
      Cgk: "Cgk: Raum für Streuung und Bias",
      mean: "Mittelwert",
      bias: "Bias",
      interval: (level: string) => `Bias, ${level}-Intervall`,
      p: "p für einen Bias von 0",
      sd: "Standardabweichung",
      step: "Schritt des Messmittels, der Toleranz",
    },
    notStated: "nicht angegeben",
    caption: (count: number, unit: string) => `${readings(count)}${inUnit(unit)}`,
    heads: { name: "Kennwert", value: "Wert", reading: "Messwert" },
    bias: "Bias",
    biasFormula: "x̄ − Referenz, t = Bias / (s / √n)",
    biasIs: (figures: string, t: string | null, freedom: number) =>
      `${figures}${t === null ? "" : `, t = ${t} mit ${freedom} Freiheitsgraden`}`,
    picture: {
      title: "Messwerte in ihrer Folge",
      description: (count: number) => `${readings(count)} eines Teils von links nach rechts.`,
      words: (reference: string) =>
        `Jeder Punkt ist ein Messwert; die volle Linie ist die bekannte Größe ${reference}, die gestrichelten liegen ein Zehntel der Toleranz daneben.`,
      across: (unit: string) => (unit === "" ? "Messwert" : `Messwert in ${unit}`),
      along: "Folge der Messwerte",
    },
    presumes: {
      count: (usual: number, count: number) =>
        `Es sind so viele Messwerte wie üblich verlangt (${usual}): ${count}.`,
      step: (percent: string | null) =>
        percent === null
          ? "Der Schritt des Messmittels ist höchstens 5 % der Toleranz: Er war nicht angegeben."
          : `Der Schritt des Messmittels ist höchstens 5 % der Toleranz: ${percent} %.`,
      known: "Die Größe des Teils ist viel genauer bekannt, als das Messmittel sie liest.",
      independent:
        "Die Messwerte sind unabhängig: Das Teil wurde jedes Mal herausgenommen und neu eingelegt.",
    },
  },
} satisfies typeof english;
