import type { signIn as english } from "../en/sign-in";

export const signIn = {
  title: "Anmelden",
  purpose: "Damit jede Änderung den Namen der Person trägt, die sie gemacht hat.",
  already: (name: string) =>
    `Sie sind als ${name} angemeldet. Wer sich neu anmeldet, ändert, wer auf diesem Gerät handelt.`,
  nobody: "Noch hat niemand ein Konto",
  firstLink:
    "Das erste entsteht über einen einmaligen Link. Der Befehl {command} gibt ihn im Terminal der Maschine aus, auf der das Programm läuft.",
  demo: {
    title: "In der Demo umsehen",
    purpose:
      "Ein erfundenes Werk mit dreizehn Wochen Messungen und fünf eingebauten Fehlern. Ein Druck meldet Sie an; wer zu den Fehlern geführt werden will, beginnt mit dem Lehrgang.",
    continueAs: (name: string) => `Weiter als ${name}`,
    promises: {
      viewer: "sieht alles, ändert nichts",
      "shift-lead": "beantwortet Alarme, trägt ein, was an Quellen getan wurde",
      engineer: "nimmt Dateien an, legt Grenzen, Regeln und Toleranzen fest",
      quality: "stellt Fähigkeitsnachweise für Kunden auf",
      admin: "nimmt Personen auf, sichert die Daten",
    },
  },
  own: "Mit dem eigenen Konto",
  form: {
    login: "Anmeldename",
    password: "Passwort",
    signIn: "Anmelden",
    working: "Anmeldung läuft …",
  },
  not: {
    enter: "Nicht angemeldet: Geben Sie Anmeldename und Passwort ein.",
    wait: (time: string) =>
      `Nicht angemeldet: Für diesen Anmeldenamen kamen mehrere falsche Passwörter; warten Sie ${time} bis zum nächsten Versuch. Ein Browser, in dem Sie schon angemeldet waren, wartet nicht wegen der Fehler anderer.`,
    wrong:
      "Nicht angemeldet: Anmeldename und Passwort gehören nicht zusammen. Prüfen Sie beide und versuchen Sie es noch einmal.",
  },
  wall: {
    tab: "Wand",
    title: "Ein Bildschirm an der Wand",
    purpose:
      "Mit einem Schlüssel zeigt dieser Bildschirm die Schichttafel von selbst, solange der Schlüssel gilt. Ändern kann er nichts. Den Schlüssel macht die Verwaltung unter Personen, Schlüssel; angemeldet bleibt hier niemand.",
    form: {
      key: "Schlüssel dieses Bildschirms",
      show: "Die Tafel hier zeigen",
      working: "Wird geprüft …",
    },
    look: "Um zu sehen, wie es aussieht, {link} – als die Person, die angemeldet ist.",
    open: "öffnen Sie die Wandtafel",
    noKey:
      "Nichts gespeichert: Geben Sie den Schlüssel ein, den die Verwaltung auf der Seite Schlüssel gemacht hat.",
    unknown:
      "Nichts gespeichert: Dieser Schlüssel ist hier nicht bekannt. Vergleichen Sie ihn mit dem, der gezeigt wurde.",
    ended: (name: string) =>
      `Nichts gespeichert: Der Schlüssel „${name}“ lässt niemanden mehr ein. Die Verwaltung macht auf der Seite Schlüssel einen anderen.`,
    mayNot: (name: string) =>
      `Nichts gespeichert: Der Schlüssel „${name}“ darf die Wandtafel nicht zeigen. Die Verwaltung macht einen, der es darf.`,
  },
} satisfies typeof english;
