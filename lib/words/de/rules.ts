import type { Direction, RulePattern } from "../../rules/pattern";
import type { rules as english } from "../en/rules";

type Zone = RulePattern & { kind: "zone" };

function zonePlace({ where, distance, of }: Zone): string {
  if (where === "within") return `innerhalb von ${distance} Sigma um die Mittellinie`;
  if (where === "beyond any side")
    return `mehr als ${distance} Sigma von der Mittellinie entfernt, gleich auf welcher Seite`;
  const side = of === 1 ? "" : ", auf derselben Seite";
  if (distance === 0) return of === 1 ? "neben der Mittellinie" : "auf einer Seite der Mittellinie";
  return `mehr als ${distance} Sigma von der Mittellinie entfernt${side}`;
}

function zoneSubject({ count, of }: Zone): string {
  if (of === 1) return "Ein Punkt liegt";
  return count === of
    ? `${of} Punkte in Folge liegen`
    : `Mindestens ${count} der letzten ${of} Punkte, darunter der neueste, liegen`;
}

function zonePhrase({ where, distance, count, of }: Zone, direction: Direction): string {
  const many = of === 1 ? "" : count === of ? `${of} ` : `${count} von ${of} `;
  const side = direction === "up" ? "über" : direction === "down" ? "unter" : "";
  if (where === "within") return `${many}innerhalb ${distance} Sigma`;
  if (where === "beyond any side") return `${many}außerhalb ${distance} Sigma`;
  if (distance === 0) return side === "" ? `${many}auf einer Seite` : `${many}${side} der Mittellinie`;
  const beyond = `${many}jenseits ${distance} Sigma`;
  return side === "" ? beyond : `${beyond} ${direction === "up" ? "oben" : "unten"}`;
}

export const rules = {
  statement: (pattern: RulePattern) => {
    switch (pattern.kind) {
      case "trend":
        return `${pattern.of} Punkte in Folge steigen, oder ${pattern.of} in Folge fallen.`;
      case "alternation":
        return `${pattern.of} Punkte in Folge gehen abwechselnd auf und ab.`;
      case "zone":
        return `${zoneSubject(pattern)} ${zonePlace(pattern)}.`;
    }
  },
  phrase: (pattern: RulePattern, direction: Direction) => {
    switch (pattern.kind) {
      case "trend":
        return `${pattern.of} ${direction === "down" ? "fallend" : direction === "up" ? "steigend" : "steigend oder fallend"}`;
      case "alternation":
        return `${pattern.of} abwechselnd`;
      case "zone":
        return zonePhrase(pattern, direction);
    }
  },
  memory: { "ewma-limit": "gewichteter Mittelwert", "cusum-limit": "kumulierte Summe" },
  memoryStatement: (what: string) => `Außerhalb der eigenen Grenze: ${what}.`,
  memoryPhrase: (what: string, direction: Direction) =>
    `${what} jenseits der Grenze${direction === "up" ? " oben" : direction === "down" ? " unten" : ""}`,
  source: (citation: string) =>
    citation
      .replaceAll("both from memory", "beide aus dem Gedächtnis")
      .replaceAll("from memory", "aus dem Gedächtnis"),
  spread: { "xbar-r": "Spannweite", "xbar-s": "Standardabweichung", "i-mr": "gleitende Spannweite" },
} satisfies typeof english;
