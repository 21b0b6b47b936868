import { counted } from "../../format/numbers";
import type { formulas as english } from "../en/formulas";

export const formulas = {
  fold: "Wie das berechnet ist",
  lead: "Jede Zeile ist mit den Zahlen dieses Zeitraums gerechnet. Gezeigt sind sie gerundet, gerechnet wird mit allen Stellen; wer auf Papier nachrechnet, kann daher in der letzten Stelle abweichen.",
  assumes: "Setzt voraus",
  holds: "gilt",
  fails: "gilt nicht",
  notKnown: "nicht bekannt",
  notComputed: "nicht berechnet",
  from: (low: string, high: string) => `${low} bis ${high}`,
  intervals: {
    figure: "Vertrauensbereiche",
    line: (confidence: string) =>
      `Zweiseitig ${confidence}: Cp, Pp und Cpm mit Chi-Quadrat, Cpk und Ppk mit der Näherung von Bissell, die einseitigen Indizes exakt mit der nichtzentralen t-Verteilung.`,
    source: "NIST/SEMATECH e-Handbook 6.1.6; Bissell 1990; Owen 1962 (die beiden letzten aus dem Gedächtnis)",
  },
  normality: {
    figure: "Normalverteilung",
    source: "D'Agostino und Stephens, Goodness-of-Fit Techniques (1986), Tabelle 4.9 (aus dem Gedächtnis)",
  },
  pictures: {
    figure: "Bilder",
    line: "Klassen so breit wie der doppelte Quartilsabstand durch ∛n, auf ganze Schritte der Messwerte gebracht. Die Plätze im Wahrscheinlichkeitsnetz sind Mediane der Ordnungsstatistiken, mᵢ = (i − 0,3175) / (n + 0,365); das Band ist deren Betaverteilung.",
    source:
      "Freedman und Diaconis 1981 (aus dem Gedächtnis); Filliben 1975, wie im NIST/SEMATECH e-Handbook 1.3.3.21",
  },
  mean: {
    figure: "Mittelwert",
    numbers: (count: number, mean: string) => `über ${counted(count, "Messwert", "Messwerte")}: ${mean}`,
    source: "in zwei Durchgängen, nach Chan, Golub und LeVeque 1983 (aus dem Gedächtnis)",
  },
  overall: {
    figure: "Sigma insgesamt",
    numbers: (freedom: number, sigma: string) => `mit n − 1 = ${freedom}: ${sigma}`,
    source: "ISO 22514-2 (aus dem Gedächtnis): die Standardabweichung der Stichprobe, ohne c₄",
  },
  within: {
    figure: "Sigma innerhalb",
    movingRange: "mittlere gleitende Spannweite",
    source: (freedom: string) =>
      `Freiheitsgrade ν = ${freedom} (Näherung von Patnaik, für die zusammengefasste Form exakt); ISO 7870-2 (aus dem Gedächtnis)`,
  },
  atLeast: (index: string) => `${index}, mindestens`,
  nearer: (formula: string, isUpper: boolean) =>
    `${formula}; die ${isUpper ? "obere" : "untere"} Grenze ist die nähere`,
  indexSource: "ISO 22514-2 und ISO 22514-4 (aus dem Gedächtnis); NIST/SEMATECH e-Handbook 6.1.6",
  widthBoundSource: "NIST/SEMATECH e-Handbook 6.1.6 und 3.5.1.2",
  nearerBoundSource:
    "Bissell, Applied Statistics 39 (1990) 331-340 (aus dem Gedächtnis); NIST/SEMATECH e-Handbook 3.5.1.2",
  expected: {
    below: "Erwartet darunter",
    above: "Erwartet darüber",
    source: "die Normalverteilung; weit außen mit erfc, nie als eins minus dem anderen Ende",
  },
  model: {
    distribution: "Verteilung",
    distributionSource: "Maximum Likelihood; ISO 22514-2 nennt die Familien (aus dem Gedächtnis)",
    percentiles: "Quantile",
    ofThat: "X₀,₁₃₅, X₅₀ und X₉₉,₈₆₅ dieser Verteilung",
    source: "ISO 22514-2 (aus dem Gedächtnis); NIST/SEMATECH e-Handbook 6.1.6 und 3.5.1.2",
    quantile: (share: string, repetitions: number) =>
      `${share}-Quantil des Index in ${repetitions} Wiederholungen eines parametrischen Bootstraps mit festem Startwert`,
    bootstrapSource:
      "Efron und Tibshirani, An Introduction to the Bootstrap (1993), 6.5 (aus dem Gedächtnis)",
  },
  cpmSource: "Chan, Cheng und Spiring, J. Quality Technology 20 (1988); NIST/SEMATECH e-Handbook 6.1.6",
  counted: {
    below: "Gezählt darunter",
    above: "Gezählt darüber",
    formula: (level: string) =>
      `vom Beta-Quantil(${level}; k, n − k + 1) bis zum Beta-Quantil(1 − ${level}; k + 1, n − k)`,
    numbers: (seen: number, count: number, low: string, high: string) =>
      `k = ${seen} von n = ${count}: ${low} bis ${high}`,
    source: "Clopper und Pearson, Biometrika 26 (1934) 404-413 (aus dem Gedächtnis)",
  },
  pieces: {
    figure: "Teile, die es zeigen",
    freedom: (perPiece: string) => `${perPiece}·n, wie die jetzige Schätzung je Teil hat`,
    byBound: (name: string) => `n′ = n·((${name} − Grenze) / (${name} − Ziel))²`,
    oneSided: (freedom: string) =>
      `das kleinste n, dessen exakte untere Grenze nach der nichtzentralen t-Verteilung das Ziel erreicht, mit ν = ${freedom}`,
    byIndex: (name: string, freedom: string) =>
      `das kleinste n mit ${name} − z·√(1/(9n) + ${name}²/(2ν)) ≥ Ziel, mit ν = ${freedom}`,
    numbers: (name: string, index: string, target: string, pieces: number) =>
      `${name} ${index}, Ziel ${target}: n = ${pieces}`,
    source: "die Grenzen darüber, umgekehrt; sie gelten, sobald derselbe Wert wieder gefunden ist",
  },
  gauge: {
    figure: "Prozess ohne sein Messmittel",
    formula: "σ² Prozess = σ² beobachtet − σ² Messmittel, für s und für σw gleichermaßen",
    all: (sigma: string) => `σ Messmittel ${sigma} ist das ganze s`,
    numbers: (sigma: string, process: string, share: string) =>
      `s² − ${sigma}² = ${process}²; Messmittel ${share} der Varianz`,
    source: "AIAG, Measurement Systems Analysis, 4. Ausgabe, Kapitel I (aus dem Gedächtnis)",
  },
  conformity: {
    figure: "Übereinstimmung",
    formula: "bewiesen von L + U bis U₀ − U; widerlegt unter L − U und über U₀ + U",
    source: "ISO 14253-1 (aus dem Gedächtnis); über den Faktor von U einigen sich beide Seiten",
  },
} satisfies typeof english;
