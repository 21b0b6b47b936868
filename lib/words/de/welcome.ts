import type { welcome as english } from "../en/welcome";

export const welcome = {
  title: "Willkommen",
  purpose: "Wählen Sie das Passwort, mit dem Sie sich von jetzt an anmelden.",
  form: { saving: "Wird gespeichert …", choose: "Dieses Passwort wählen" },
  answers: {
    fillBoth: "Nichts gespeichert: Füllen Sie beide Felder aus.",
    differ: "Nichts gespeichert: Die beiden Passwörter sind verschieden. Geben Sie beide noch einmal ein.",
  },
  setUp: {
    tab: "Einrichten",
    title: "Das erste Konto",
    purpose:
      "Es darf Personen aufnehmen und ihnen Rollen geben, und es hat die Rechte der Technik: den Prüfplan eingeben und Dateien annehmen.",
    ended: "Dieser Link gilt nicht mehr",
    endedWhy:
      "Er gilt einmal, einen Tag lang, und ein neuerer tritt an seine Stelle. Hat noch niemand ein Konto, so gibt der Befehl {command} im Terminal der Maschine, auf der das Programm läuft, einen neuen Link aus.",
    signIn: "Anmelden",
    form: {
      name: "Ihr Name",
      login: "Anmeldename",
      loginHint: "Kurz, in Kleinbuchstaben, etwa jr oder j.rossi.",
      creating: "Wird angelegt …",
      create: "Konto anlegen",
    },
    fillAll: "Nichts gespeichert: Füllen Sie alle Felder aus.",
  },
} satisfies typeof english;
