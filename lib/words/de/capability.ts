import { counted, whole } from "../../format/numbers";
import type { capability as english } from "../en/capability";

const features = (count: number) => counted(count, "Merkmal", "Merkmale");
const readings = (count: number) => counted(count, "Messwert", "Messwerte");
const subgroups = (count: number) => counted(count, "Stichprobe", "Stichproben");
const lots = (count: number | null) =>
  count === null ? "Lose nicht angegeben" : counted(count, "Los", "Lose");

export const capability = {
  title: "Fähigkeit",
  purpose:
    "Was sich einem Kunden ehrlich über jedes Merkmal sagen lässt, und was dagegen steht, mehr zu sagen.",
  newStatement: "Neuer Nachweis",
  statements: "Nachweise",
  noFeatures: "Noch keine Merkmale",
  toIntake: "Zur Datenannahme",
  noFeaturesWhy: "Teile und Merkmale werden im Prüfplan eingegeben oder kommen mit der ersten Messdatei.",
  part: "Teil",
  allParts: "alle Teile",
  onlyKey: "Nur besondere Merkmale",
  show: "Anzeigen",
  firstOf: (shown: number, all: number) =>
    `Die ersten ${shown} von ${counted(all, "Merkmal", "Merkmalen")} sind hier untersucht, besondere zuerst. Wählen Sie ein Teil, um die anderen zu sehen.`,
  tally: {
    of: (count: number, all: number) => `${count} von ${counted(all, "Merkmal", "Merkmalen")}`,
    presentable: "als Fähigkeit darstellbar",
    ofKey: (count: number, all: number) =>
      `${count} von ${counted(all, "besonderen Merkmal", "besonderen Merkmalen")}`,
    without: (count: number) => `${count} ohne Index`,
    reach: (count: number, all: number) =>
      `bei ${count} von diesen ${all} erreicht die untere Grenze, was verlangt ist`,
  },
  reach: {
    of: (name: string, index: string, bound: string | null) =>
      `${name} ${index}, mindestens ${bound ?? "nicht bekannt"}`,
    shown: (figures: string, asked: string) => `${figures}: erreicht die verlangten ${asked}`,
    "not-yet": (figures: string, asked: string) =>
      `${figures}: erreicht die verlangten ${asked}, die untere Grenze noch nicht`,
    missed: (figures: string, asked: string) => `${figures}: verfehlt die verlangten ${asked}`,
  },
  table: {
    caption: (count: number, window: string) =>
      `${features(count)}, ${window}, nach der Normalverteilung, besondere zuerst, dann was sich nicht als Fähigkeit darstellen lässt`,
    none: "Kein solches Merkmal",
    noneWhy:
      "Im Prüfplan steht kein Merkmal dieser Wahl. Wählen Sie ein anderes Teil, oder zeigen Sie nicht nur besondere Merkmale.",
    heads: {
      feature: "Merkmal",
      claim: "Was sich sagen lässt",
      gates: "Bedingungen",
      within: "Fähigkeit",
      overall: "Prozessleistung",
    },
    key: "besonders",
    chart: "Regelkarte",
    chartOf: (feature: string) => `Regelkarte von ${feature}`,
    rests: (count: number, groups: number, stated: number | null) =>
      `${readings(count)}, ${subgroups(groups)}, ${lots(stated)}, Mittelwert `,
    otherModel: (feature: string) => `${feature} mit einem Modell, gewählt nach Art und Anpassung`,
    legend: "Was die Formen der Bedingungen sagen",
    atLeast: "mindestens",
  },
  window: {
    label: "Zeitraum",
    names: { "30": "letzte 30 Tage", "90": "letzte 90 Tage", all: "alle Messungen" },
    between: "von einem Tag bis zu einem anderen",
    betweenFold: "Von einem Tag bis zu einem anderen",
    first: "Erster Tag",
    last: "Letzter Tag",
    days: (first: string, last: string) => `${first} bis ${last}`,
    needsBoth:
      "Ein Zeitraum zwischen zwei Tagen braucht beide. Gezeigt werden stattdessen die letzten 90 Tage.",
    swapped: (last: string, first: string) =>
      `Der letzte Tag, ${last}, liegt vor dem ersten, ${first}. Gezeigt werden stattdessen die letzten 90 Tage.`,
  },
  asked: {
    target: "Der Zielwert ist eine Zahl über 0, etwa 1,33.",
    gauge: "Die Standardabweichung des Messmittels ist eine Zahl über 0, etwa 0,0012.",
    uncertainty: "Die Messunsicherheit ist eine Zahl über 0, etwa 0,004.",
  },
  models: {
    normal: "normal",
    lognormal: "lognormal",
    weibull: "Weibull",
    rayleigh: "Rayleigh",
    "folded-normal": "Betragsverteilung",
    "box-cox": "Box-Cox",
    auto: "nach Art und Anpassung gewählt",
  },
  page: {
    of: (feature: string) => `Fähigkeit von ${feature}`,
    key: (kind: string) => `${kind}, besonderes Merkmal`,
    tolerance: (words: string) => `Toleranz ${words}`,
    chartOf: (chart: string) => `Regelkarte: ${chart}`,
    at20: "Werte bei 20 °C",
    chart: "Regelkarte",
    plan: "Prüfplan",
    gates: "Bedingungen",
    gatesPurpose:
      "Was erfüllt sein muss, bevor das Wort Fähigkeit gebraucht wird. Eine, die nicht erfüllt ist oder die niemand beurteilen kann, macht aus der Aussage Prozessleistung.",
    indices: "Indizes",
    outside: "Außerhalb der Toleranz",
    further: "Weitere Fragen",
    furtherPurpose:
      "Für diesen Zeitraum beantwortet. Was eingegeben ist, steht in der Adresse, die sich weitergeben lässt.",
    rests: "Worauf es beruht",
    before: "Bevor es weitergegeben wird",
    nothingHere: "In diesem Zeitraum ist nichts zu untersuchen",
    notMeasured: "Noch nicht gemessen",
    showAll: "Alle Messungen zeigen",
    nothingWhy: (left: number) =>
      `Dieses Merkmal wurde gemessen, aber kein Messwert dieses Zeitraums zählt${left > 0 ? `: ${counted(left, "Messwert wurde", "Messwerte wurden")} mit zugeordneter Ursache ausgelassen` : ""}. Ein längerer Zeitraum enthält vielleicht welche.`,
    notMeasuredWhy:
      "Über ein Merkmal ohne Messungen lässt sich nichts sagen. Sie kommen mit einer Messdatei in der Datenannahme.",
  },
  claim: {
    onDay: (count: number) => `${readings(count)} vom {first}`,
    between: (count: number) => `${readings(count)} vom {first} bis {last}`,
    leftOut: (count: number) => `; ${readings(count)} mit zugeordneter Ursache ausgelassen`,
  },
  waysOut: {
    stable: "Die Regelkarte öffnen",
    enough: "Messungen annehmen",
    normal: "Ein nach Art und Anpassung gewähltes Modell versuchen",
    distribution: "Auf der Regelkarte nach gemischten Quellen suchen",
    independent: "Den Lauf der Punkte ansehen",
    resolution: "Auflösung im Prüfplan",
    gauge: "Messmittel und ihre Untersuchungen",
  },
  indexTable: {
    caption: (confidence: string) =>
      `Vertrauensbereiche zweiseitig, untere Vertrauensgrenzen einseitig, beide bei ${confidence} Vertrauensniveau`,
    heads: {
      index: "Index",
      value: "Schätzwert",
      bound: "Mindestens",
      interval: "Vertrauensbereich",
      word: "Darf heißen",
      meaning: "Was er sagt",
    },
    to: "bis",
    meanings: {
      Cp: "Breite der Toleranz durch sechs Sigma innerhalb der Stichproben, wo immer der Prozess liegt.",
      Cpk: "Vom Mittelwert zur näheren Grenze, durch drei Sigma innerhalb der Stichproben.",
      Cpl: "Dasselbe nur zur unteren Grenze.",
      Cpu: "Dasselbe nur zur oberen Grenze.",
      Pp: "Breite der Toleranz durch sechs Standardabweichungen aller Messwerte.",
      Ppk: "Vom Mittelwert zur näheren Grenze, durch drei Standardabweichungen aller Messwerte.",
      Ppl: "Dasselbe nur zur unteren Grenze.",
      Ppu: "Dasselbe nur zur oberen Grenze.",
      Cpm: "Breite der Toleranz durch das Sechsfache der Streuung um den Zielwert statt um den Mittelwert.",
    },
    absent: {
      oneSided:
        "Geurteilt wird nur gegen eine Toleranzgrenze, also gibt es kein Cp und kein Pp: Nichts hat eine Breite.",
      fitted:
        "Kein Cp, Cpk und Cpm: Nur die Normalverteilung trennt eine Streuung innerhalb der Stichproben vom Ganzen.",
      noWithin:
        "Kein Cp und kein Cpk: Die Stichproben zeigen keine eigene Streuung, die sich schätzen ließe.",
      noTarget: "Kein Cpm: Der Prüfplan nennt keinen Zielwert.",
    },
  },
  outside: {
    caption: (count: number) =>
      `Messwerte außerhalb der Toleranz, von ${counted(count, "Messwert", "Messwerten")}`,
    below: "Unter der unteren Grenze",
    above: "Über der oberen Grenze",
    heads: {
      where: "Wo",
      counted: "Gezählt",
      fraction: "Anteil",
      normal: "Nach der Normalverteilung",
      fitted: "Nach der angepassten Kurve",
    },
    interval: (confidence: string) => `Exakter Vertrauensbereich, ${confidence}`,
  },
  model: {
    label: "Verteilung",
    restsOn: (model: string) => `Grundlage der Indizes: ${model}.`,
    fromBound: "Angepasst ist sie an den Abstand von der natürlichen Grenze. ",
    noC: "Cp und Cpk werden nicht berechnet: Nur die Normalverteilung trennt eine Streuung innerhalb der Stichproben vom Ganzen.",
    below: "0,135 % liegen darunter",
    median: "Median",
    above: "99,865 % liegen darunter",
    tried: (significance: string) =>
      `Versuchte Modelle, in der Folge, die die Art des Merkmals nahelegt; genommen wird das erste mit p von mindestens ${significance}`,
    heads: { model: "Modell", fit: "Anpassung", taken: "Genommen" },
    taken: "genommen",
    notTaken: "nicht genommen",
    signs: {
      logMean: "μ von ln x",
      logStandardDeviation: "σ von ln x",
      shape: "Form k",
      scaleB: "Skala b",
      scaleS: "Skala s",
      location: "Lage m",
      lambda: "Potenz λ",
      geometricMean: "geometrisches Mittel g",
      powerMean: "μ von y",
      powerDeviation: "σ von y",
    },
  },
  data: {
    window: "Zeitraum",
    span: "{first} bis {last}",
    readings: "Messwerte",
    of: (count: number, on: number, groups: number, stated: number | null) =>
      `${whole(count)} an ${counted(on, "Teil", "Teilen")}, ${subgroups(groups)}, ${lots(stated)}`,
    mean: "Mittelwert",
    within: "Sigma innerhalb der Stichproben",
    overall: "Standardabweichung insgesamt",
    notEstimated: "nicht zu schätzen",
    ofAll: "aller Messwerte, n − 1 im Nenner",
    values: "Werte",
    reduced: "auf 20 °C umgerechnet",
    asMeasured: "wie gemessen",
    leftOut: "Mit Ursache ausgelassen",
    nothing: "nichts",
    count: readings,
    exclusions: (count: number) => `${readings(count)} mit zugeordneter Ursache ausgelassen`,
    heads: { cause: "Ursache", from: "Von", to: "Bis", by: "Ausgelassen von" },
    notKnown: "nicht bekannt",
  },
  pictures: {
    title: "Verteilung",
    asTable: "Dasselbe als Tabelle",
    noLots: (count: number) =>
      `Keine Lose zu vergleichen: ${counted(count, "Messwert nennt", "Messwerte nennen")} in diesem Zeitraum keines. Ein Los kommt mit der Messdatei; seine Spalte wird in der Datenannahme gewählt.`,
    lowerLimit: "untere Grenze",
    upperLimit: "obere Grenze",
    naturalBound: "natürliche Grenze",
    mean: "Mittelwert",
    reading: (unit: string, isReduced: boolean) =>
      `${isReduced ? "Messwert bei 20 °C" : "Messwert"}${unit === "" ? "" : ` in ${unit}`}`,
    histogram: {
      title: (model: string | null) =>
        model === null ? "Histogramm mit der Normalverteilung" : `Histogramm, als Kurve ${model}`,
      description: (said) =>
        `${readings(said.count)} in ${counted(said.bins, "Klasse", "Klassen")} von ${said.width}, von ${said.from} bis ${said.to}; die vollste enthält ${said.fullest}. ${said.outside} liegen außerhalb der Toleranz.`,
      bins: (width: string) => `Klassen von ${width}`,
      steps: (count: number) =>
        `, ${counted(count, "Schritt", "Schritte")} der Messwerte, damit das Runden keinen Kamm ergibt`,
      rule: (rule: "scott" | "freedman-diaconis") =>
        `; Breite nach der Regel von ${rule === "scott" ? "Scott" : "Freedman und Diaconis"}. `,
      curve: (model: string | null) =>
        `Die Kurve ist ${model === null ? "die Normalverteilung mit Mittelwert und Standardabweichung aller Messwerte." : `${model}, mit Maximum Likelihood angepasst.`}`,
      hatched: (count: number) => ` Schraffiert: ${readings(count)} außerhalb der Toleranz.`,
      far: (limits: string) =>
        ` Die Toleranz ist zu breit, um mit den Messwerten gezeichnet zu werden: ${limits}.`,
      farLimit: (side: "lower" | "upper", limit: string, sigmas: number) =>
        `die ${side === "lower" ? "untere" : "obere"} Grenze ${limit} liegt ${sigmas} Standardabweichungen vom Mittelwert`,
      caption: "Messwerte in jeder Klasse",
      heads: { from: "Von", to: "Bis unter", count: "Messwerte", outside: "Außerhalb der Toleranz" },
    },
    probability: {
      title: (model: string | null) =>
        model === null
          ? "Wahrscheinlichkeitsnetz der Normalverteilung"
          : `Wahrscheinlichkeitsnetz für ${model}`,
      drawn: (shown: number, all: number) =>
        shown < all
          ? `${shown} von ${counted(all, "Messwert", "Messwerten")}, beide Enden ganz`
          : readings(all),
      description: (drawn: string, model: string | null, strays: number, confidence: string) =>
        `${drawn}, der kleinste links unten. Auf der Linie liegt, was ${model ?? "ein normalverteilter Prozess mit ihrem Mittelwert und ihrer Standardabweichung"} ergäbe; ${strays} der gezeichneten Punkte liegen außerhalb des Bandes von ${confidence}.`,
      words: (drawn: string, strays: number, confidence: string) =>
        `${drawn}; ${strays === 0 ? "keiner" : strays} außerhalb des Bandes von ${confidence}, das für jeden Rang allein gilt, sodass einige außerhalb keine Überraschung sind. `,
      caption: "Messwerte nach Rang: beide Enden und jeder zehnte Punkt dazwischen",
      heads: {
        rank: "Rang",
        share: "Anteil darunter",
        value: "Messwert",
        low: "Band von",
        high: "bis",
      },
    },
    lots: {
      title: "Los für Los",
      noName: (id: number) => `Nr. ${id}`,
      description: (count: number, from: string, to: string, outside: number) =>
        `${lots(count)} in zeitlicher Folge, von ${from} bis ${to}; ${outside} davon haben einen Messwert außerhalb der Toleranz.`,
      shown: (shown: number, all: number) =>
        `${shown < all ? `Die neuesten ${shown} von ${counted(all, "Los", "Losen")}` : lots(all)} in zeitlicher Folge: vom kleinsten zum größten Messwert, der Punkt ist der Mittelwert. `,
      outside: (count: number) =>
        count === 0
          ? "Keines hat einen Messwert außerhalb der Toleranz."
          : `${lots(count)} mit einem Messwert außerhalb der Toleranz, an dem eine Raute steht.`,
      without: (count: number) =>
        ` ${counted(count, "Messwert nennt kein Los und ist", "Messwerte nennen kein Los und sind")} nicht gezeigt.`,
      caption: (count: number) => lots(count),
      heads: {
        lot: "Los",
        first: "Zuerst gemessen",
        count: "Messwerte",
        min: "Kleinster",
        mean: "Mittelwert",
        max: "Größter",
      },
      axis: "Los, in zeitlicher Folge",
    },
  },
  further: {
    target: "Index, der zu zeigen ist",
    targetHint: (usual: string) => `Cpk oder Ppk; ${usual}, wenn nichts eingegeben ist`,
    gauge: "Messmittel: Standardabweichung",
    gaugeHint: "Wiederhol- und Vergleichpräzision; leer gilt die untersuchte",
    uncertainty: "Erweiterte Messunsicherheit U",
    uncertaintyHint: (times: number) => `Leer gelten ${times} Standardabweichungen des Messmittels`,
    workOut: "Ausrechnen",
    howMany: "Wie viele Teile würden es zeigen?",
    noNumber: "Noch keine Zahl von Teilen: Es gibt keinen Index, von dem auszugehen wäre.",
    never: (name: string, target: string, index: string) =>
      `Keine Zahl von Teilen zeigt ${name} ${target}, wenn er jetzt ${index} ist: Der Prozess muss zuerst zentriert werden oder weniger streuen.`,
    pieces: (count: number, name: string, target: string, confidence: string, index: string) =>
      `${counted(count, "Teil zeigt", "Teile zeigen")} ${name} von mindestens ${target} bei ${confidence} Vertrauensniveau, wenn der jetzige ${name} ${index} sich hält. Die Schätzung schwankt von einer Untersuchung zur nächsten: Planen Sie mehr ein.`,
    whatGauge: "Was ist der Prozess, was das Messmittel?",
    noGauge:
      "Zum Messmittel dieses Merkmals ist keine Untersuchung bekannt, also lässt sich sein Teil der Streuung nicht abziehen. Geben Sie oben seine Standardabweichung ein, oder {study}.",
    studyGauge: "untersuchen Sie das Messmittel",
    noIndex: "Es gibt keinen Index, von dem der Teil des Messmittels abzuziehen wäre.",
    gaugeTakes: (sigma: string, share: string, basis: string) =>
      `Ein Messmittel mit einer Standardabweichung von ${sigma} macht ${share} der sichtbaren Varianz aus. ${basis} Behauptet wird der beobachtete Index; der andere sagt, was ein vollkommenes Messmittel zeigen würde. Beide nach der Normalverteilung.`,
    nothingLeft:
      "Die Streuung des Messmittels ist so groß wie alles, was zu sehen ist: Für den Prozess bleibt nichts.",
    gaugeCaption: "Indizes wie beobachtet und des Prozesses allein",
    heads: { index: "Index", observed: "Beobachtet", process: "Prozess allein" },
    nothing: "nichts übrig",
    whatProved: "Was beweist ein Messwert?",
    needs:
      "Die Bereiche brauchen eine Messunsicherheit und eine Toleranzgrenze. Geben Sie die Messunsicherheit oben ein.",
    guard: (width: string, isTyped: boolean) =>
      `Schutzabstand U = ${width}${isTyped ? ", wie eingegeben," : ""} zu beiden Seiten jeder Grenze`,
    noRoom: "kein Raum zwischen den Schutzabständen",
    withinU: "näher als U an einer Grenze",
    not: (zone: string) => `nicht ${zone}`,
    verdicts: {
      conforms: "stimmt überein",
      "not provable": "nicht beweisbar",
      "does not conform": "stimmt nicht überein",
    },
    conformityHeads: { verdict: "Ein Messwert", zone: "Wo", count: "Messwerte" },
  },
} satisfies typeof english;
