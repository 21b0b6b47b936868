import { counted, whole } from "../../format/numbers";
import type { working as english } from "../en/working";

export const working = {
  title: "Wie das berechnet ist",
  fromTo: (lower: string, upper: string) => `${lower} bis ${upper}`,
  points: {
    title: "Punkte",
    counts: (size: number, chart: string) =>
      `Jeder Wert ist eine Anzahl an ${size}: ${chart}. Er wird als Anzahl beurteilt, mit dem Sigma, das aus der mittleren Anzahl folgt; wie, steht bei der Karte.`,
    countsVarying: (chart: string) =>
      `Jeder Wert ist eine Anzahl an einer Stichprobe von eigenem Umfang: ${chart}. Er wird in seinem eigenen Sigma beurteilt, das aus dem mittleren Anteil und dem Umfang folgt; wie, steht bei der Karte.`,
    chartOf: (chart: string) => `Eine Karte für ${chart}.`,
    single:
      "Jeder Messwert ist ein Punkt; seine gleitende Spannweite ist der Abstand vom vorigen Messwert, der zählt.",
    labelled: (size: number) =>
      `Messwerte eines Loses mit derselben Stichprobennummer sind ein Punkt; Messwerte ohne eine werden in zeitlicher Folge zu je ${size} zusammengefasst.`,
    inOrder: (size: number) =>
      `Messwerte werden in zeitlicher Folge zu je ${size} zusammengefasst; eine Stichprobe, die nicht vollständig ist, ist noch kein Punkt.`,
  },
  limits: {
    trial: "Vorläufige Grenzen",
    version: (version: number) => `Grenzen ${version}`,
    notFrozen: (least: number) =>
      `Noch hat niemand Grenzen festgelegt. Bis dahin kommen sie aus den ersten Stichproben und bewegen sich, solange es weniger als ${least} sind.`,
    frozen: "Festgelegt am {when}: {reason}",
    frozenBy: "Festgelegt am {when} von {by}: {reason}",
    why: (name: string, because: string, source: string) => `Warum ${name}: ${because} Quelle: ${source}.`,
    baseline: "Vorlauf",
    baselineIs: (window: string, subgroups: number, readings: number) =>
      `${window}: ${counted(subgroups, "Stichprobe", "Stichproben")}, ${counted(readings, "Messwert", "Messwerte")}`,
    centre: "Mittellinie",
    centreIs: (name: string, figure: string) =>
      `${name} = Mittelwert aller Messwerte des Vorlaufs = ${figure}`,
    quotientIs: (spread: string, figure: string, divisor: string, value: string) =>
      `${spread} = ${figure}, und ${divisor} = ${value}`,
    sigma: "Sigma innerhalb der Stichproben",
    ofSize: (name: string, size: number) => `${name}, n = ${size}`,
    locationIs: (formula: string, lower: string, upper: string) => `${formula} = ${lower} bis ${upper}`,
    spreadIs: (formula: string, lower: string, upper: string, centre: string) =>
      `${formula} = ${lower} bis ${upper} um ${centre}; die untere endet bei 0`,
    ofTwo: "(d₂ ± 3d₃)σ̂ aus zwei Messwerten",
    byHand: "Von Hand",
    byHandSingle: (figures: string) =>
      `Dasselbe wie x̄ ± E₂·MR̄ und D₄·MR̄ mit ${figures}, berechnet und nicht gerundet.`,
    byHandRange: (size: number, figures: string) =>
      `Dasselbe wie x̿ ± A₂·R̄ und D₃·R̄ bis D₄·R̄ mit, für n = ${size}, ${figures}, berechnet und nicht gerundet.`,
    byHandSd: (size: number, figures: string) =>
      `Dasselbe wie x̿ ± A₃·s̄ und B₃·s̄ bis B₄·s̄ mit, für n = ${size}, ${figures}, berechnet und nicht gerundet.`,
    otherSizes: "Andere Umfänge",
    sizes: (count: number) =>
      `Die Stichproben haben ${count} verschiedene Umfänge; für jeden gelten eigene Grenzen nach denselben Formeln.`,
  },
  changed: {
    plan: "Karte oder Stichprobenumfang im Prüfplan haben sich geändert, seit diese Grenzen festgelegt wurden; ihr Vorlauf lässt sich also nicht mehr genauso bilden. Erwägen Sie, neue festzulegen.",
    none: "Ihr Vorlauf ergibt keine Grenzen mehr.",
    today: (centre: string, sigma: string) =>
      `Seit sie festgelegt wurden, haben sich Messwerte ihres Vorlaufs oder Auslassungen darin geändert: Heute ergäbe er eine Mittellinie von ${centre} und ein Sigma von ${sigma}. Festgelegte Grenzen bleiben, bis jemand neue festlegt.`,
  },
  rules: {
    title: (set: string) => `Geltende Regeln: ${set}`,
    look: "Sie sehen z = (Punkt − Mittellinie) / sein Sigma an, neu mit jeder Fassung der Grenzen. Unterschiede unter einem Milliardstel Sigma gelten als gleich.",
    noneBelow: "Keine von ihnen gilt auf der unteren Karte, deren Punkte schief verteilt sind.",
    below: (statements: string) =>
      `Auf der unteren Karte, deren Punkte schief verteilt sind, nur: ${statements}`,
  },
  leftOut: {
    title: "Ausgelassen",
    none: "Nichts: Jede Stichprobe zählt.",
    is: "{cause}: {numbers}, seit {when}",
    isBy: "{cause}: {numbers}, seit {when} durch {by}",
  },
  versions: {
    title: "Alle Fassungen der Grenzen",
    is: (row) =>
      `Grenzen ${row.version}: Mittellinie ${row.centre}, Sigma ${row.sigma} aus ${whole(row.subgroups)} Stichproben.`,
  },
  each: {
    title: "Derselbe Vorlauf, auf jede Art geschätzt",
    caption: "Sigma des Vorlaufs nach jeder Schätzung",
    ofLots: "MR̄ der Losmittelwerte, siehe Losmittelwerte",
    within: (within: string, between: string) => `${within} innerhalb, ${between} zwischen`,
    heads: { estimator: "Schätzung", formula: "Formel", sigma: "Sigma", freedom: "Freiheitsgrade" },
    differ:
      "Schätzungen desselben Sigma, die sich stärker unterscheiden, als ihre Freiheitsgrade erlauben (etwa 1/√(2ν) davon), sagen, dass der Vorlauf nicht ein einziger Prozess war oder Ausreißer enthält.",
  },
  lots: {
    title: (version: number) => `Grenzen ${version}, für Losmittelwerte`,
    within: "Innerhalb der Lose",
    withinIs: (figure: string) => `σ̂ innerhalb = ${figure}`,
    between: "Zwischen den Losen",
    betweenIs: (figure: string) => `σ̂ zwischen = √((MR̄/d₂)² − σ̂²innerhalb·Mittelwert von 1/n) = ${figure}`,
    mean: (size: number) => `Ein Mittelwert aus ${size}`,
    meanIs: (size: number, figure: string) => `√(σ̂²zwischen + σ̂²innerhalb/${size}) = ${figure}`,
    limits: "Grenzen",
    baseline: "Vorlauf",
    baselineIs: (lots: number, by: string | null, reason: string) =>
      `${whole(lots)} Lose; festgelegt${by ? ` von ${by}` : ""}: ${reason}`,
    source:
      "W. H. Woodall und E. V. Thomas, IIE Transactions 27 (1995) 757–764 (aus dem Gedächtnis). Die untere Karte richtet sich wie sonst nach σ̂ innerhalb. Eine Stichprobe muss ein Los sein, sonst werden Mittelwerte eines Loses beurteilt, als stammten sie aus mehreren.",
  },
  runLength: {
    title: "Wie oft sie ein Signal geben",
    counts:
      "Wie oft Zählwerte durch Zufall ein Signal geben, ist bei der Karte ausgerechnet, exakt, für Grenzen allein.",
    alsoWatched: (chart: string) => `Auch beobachtet durch ${chart}.`,
    source:
      "Mittlere Lauflängen bei bekannten Grenzen und unabhängigen, normalverteilten Punkten, die Verschiebung von deren erstem an: C. W. Champ und W. H. Woodall, Technometrics 29 (1987) 393–399 (aus dem Gedächtnis), über Markow-Kette oder Integralgleichung; „≈“ ist simuliert.",
    often: (subgroups: string) =>
      `Beide Karten zusammen geben im Mittel einen Fehlalarm in ${subgroups} Stichproben.`,
    hardly: "Fehlalarme kommen so gut wie nie.",
    shift: (shift: string, subgroups: string) => `${shift} Sigma des Punktes in ${subgroups}`,
    found: (shifts: string) =>
      `Eine bleibende Verschiebung wird im Mittel bemerkt, gezählt in Stichproben: ${shifts}.`,
    million: "über eine Million",
    memory: (inControl: string, found: readonly { shift: string; points: string }[]) => {
      const shifts = found.map(({ shift, points }, i) =>
        i === 0
          ? `eine Verschiebung um ${shift} Sigma des Punktes wird in ${points} Punkten bemerkt`
          : `${shift} in ${points}`,
      );
      return `Im Mittel ${inControl} Punkte je Fehlalarm; ${shifts.join(", ")}.`;
    },
  },
  temperature: {
    asMeasured: "Die Messwerte sind eingezeichnet wie gemessen, bei der Temperatur, die das Teil hatte.",
    reduced: (reference: number, expansion: string, length: number) =>
      `Die Messwerte sind eingezeichnet, wie sie bei ${reference} °C wären (ISO 1): x₂₀ = x − α·L·(T − ${reference} °C), mit α = ${expansion}·10⁻⁶ je Kelvin und L = ${length} mm.`,
    missing: (count: number, all: number) =>
      ` ${whole(count)} von ${whole(all)} Messwerten nennen keine Teiletemperatur und sind eingezeichnet wie gemessen.`,
    example: (example) =>
      `Zum Beispiel: ${example.measured}, gemessen bei ${example.at} °C, sind ${example.reduced} bei ${example.reference} °C.`,
    coefficient: (figure: string, isHandbook: boolean) =>
      `u(α) = ${figure}·10⁻⁶ je Kelvin (${isHandbook ? "Handbuchwert, ± 10 %" : "Prüfplan"})`,
    correction: (figure: string) => `Davon sind ${figure} die Umrechnung.`,
    atLeast: (coefficient: string, figure: string, coverage: number) =>
      `Mit ${coefficient} allein ist sie um mindestens ±${figure} unsicher (k = ${coverage}); wie genau die Teiletemperatur bekannt ist, nennt der Prüfplan nicht.`,
    uncertain: (said) =>
      `Mit u(T) = ${said.temperature} K und ${said.coefficient} ist sie um ±${said.figure} unsicher (erweitert, k = ${said.coverage}): L·α·u(T) = ${said.parts.temperature}, L·ΔT·u(α) = ${said.parts.expansion}, L·u(α)·u(T) = ${said.parts.together}, quadratisch addiert.`,
    notTheGauge:
      "Die Unsicherheit des Messmittels selbst ist nicht darin enthalten (JCGM 100, aus dem Gedächtnis).",
  },
} satisfies typeof english;
