import type { estimators as english } from "../en/estimators";

const STANDARDS = "ASTM E2587 und ISO 7870-2 (aus dem Gedächtnis)";

export const estimators: typeof english = {
  within: {
    "mean-range": {
      name: "die mittlere Spannweite",
      formula: "σ̂ = R̄ / d₂(n)",
      quotient: { spread: "R̄", spreadName: "Mittlere Spannweite", divisor: "d₂" },
      because: "Sie lässt sich von Hand nachrechnen, und bis etwa neun Messwerte verliert sie wenig.",
      source: STANDARDS,
    },
    "weighted-range": {
      name: "die Spannweiten, gewichtet nach Stichprobenumfang",
      formula: "σ̂ = Σ w·R/d₂(n) / Σ w,  w = (d₂/d₃)²",
      quotient: null,
      because: "Die Stichproben sind verschieden groß, und diese Gewichte geben die kleinste Varianz.",
      source: "I. W. Burr, Journal of Quality Technology 1 (1969) 163–167 (aus dem Gedächtnis)",
    },
    "mean-sd": {
      name: "die mittlere Standardabweichung",
      formula: "σ̂ = s̄ / c₄(n)",
      quotient: { spread: "s̄", spreadName: "Mittlere Standardabweichung", divisor: "c₄" },
      because:
        "Eine einzelne gestörte Stichprobe wiegt in ihr weniger als in der zusammengefassten Schätzung.",
      source: STANDARDS,
    },
    "pooled-sd": {
      name: "die zusammengefasste Standardabweichung",
      formula: "σ̂ = √( Σ (n−1)·s² / Σ (n−1) )",
      quotient: null,
      because: "Die Stichproben dürfen verschieden groß sein, und ihre Freiheitsgrade sind exakt.",
      source:
        "ASTM E2587; NIST/SEMATECH e-Handbook, zusammengefasste Standardabweichung (aus dem Gedächtnis)",
    },
    "mean-moving-range": {
      name: "die mittlere gleitende Spannweite",
      formula: "σ̂ = MR̄ / d₂(2)",
      quotient: { spread: "MR̄", spreadName: "Mittlere gleitende Spannweite", divisor: "d₂" },
      because:
        "Benachbarte Messwerte teilen die kurzzeitige Streuung; sie sieht also den Prozess zwischen Störungen und nicht die Verschiebungen, die die Karte zeigen soll.",
      source: "NIST/SEMATECH e-Handbook, 6.3.2.2 (aus dem Gedächtnis)",
    },
    "median-moving-range": {
      name: "der Median der gleitenden Spannweiten",
      formula: "σ̂ = Median MR / 0,9539",
      quotient: {
        spread: "Median MR",
        spreadName: "Median der gleitenden Spannweiten",
        divisor: "der Median der Spannweite aus zweien",
      },
      because: "Einige Ausreißer im Vorlauf bewegen einen Median kaum.",
      source:
        "Der Teiler ist der Median der Spannweite aus zwei normalverteilten Messwerten; die Schätzung ist übliche Praxis, ohne Quelle",
    },
  },
  other: {
    "between-lots": "Losmittelwerte: Was sich von Los zu Los ändert, gehört zum Prozess",
    binomial: "die Binomialverteilung der Anzahlen",
    poisson: "die Poisson-Verteilung der Anzahlen",
  },
};
