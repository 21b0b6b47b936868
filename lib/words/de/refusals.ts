import { counted, whole } from "../../format/numbers";
import { durationWords } from "../../format/times";
import type { refusals as english } from "../en/refusals";
import { planRefusals } from "./plan-refusals";
import { times } from "./times";

export const refusals = {
  ...planRefusals,
  "alarm-unknown": (id: number) => `Nichts gespeichert: Den Alarm ${id} gibt es nicht.`,
  "alarm-changed": "Nichts gespeichert: An diesem Alarm hat sich inzwischen etwas geändert.",
  "alarm-closed": "Nichts gespeichert: Dieser Alarm ist geschlossen. Öffnen Sie ihn zuerst wieder.",
  "alarm-not-closed": "Nichts gespeichert: Dieser Alarm ist nicht geschlossen.",
  "alarm-acknowledged": "Nichts gespeichert: Dieser Alarm ist schon quittiert.",
  "alarm-without-feature": "Nichts gespeichert: Sein Merkmal steht nicht mehr im Prüfplan.",
  "step-unknown": (step: number) => `Nichts gespeichert: Sein Reaktionsplan hat keinen Schritt ${step}.`,
  "step-so-already": (step: number, isTicked: boolean) =>
    `Nichts gespeichert: Schritt ${step} ist ${isTicked ? "schon abgehakt" : "nicht abgehakt"}.`,
  "pieces-none": "Nichts gespeichert: Wählen Sie mindestens ein Teil.",
  "pieces-many": (most: number, count: number) =>
    `Nichts gespeichert: höchstens ${most} Teile auf einmal; das sind ${count}.`,
  "pieces-foreign":
    "Nichts gespeichert: Eines dieser Stücke gehört nicht zu diesem Teil. Laden Sie die Seite neu.",
  "pieces-held": (count: number) =>
    `Nichts gespeichert: ${count === 1 ? "Dieses Teil ist" : "Diese Teile sind"} schon gesperrt.`,
  "pieces-not-held": (count: number) =>
    `Nichts gespeichert: ${counted(count, "Teil davon ist", "Teile davon sind")} nicht gesperrt; nur Gesperrtes kann freigegeben oder verschrottet werden.`,
  "pieces-why": (decision: "release" | "scrap") =>
    `Nichts gespeichert: Schreiben Sie den Grund und wer es entschieden hat, bevor Sie ${decision === "release" ? "freigeben" : "verschrotten"}.`,
  "cause-empty": "Nichts gespeichert: Wählen Sie eine Ursache, oder schreiben Sie eine neue.",
  "shelved-already": "Nichts gespeichert: Dieser Alarm ist schon zurückgestellt.",
  "shelving-past": "Nichts gespeichert: Das Ende der Zurückstellung liegt in der Vergangenheit.",
  "shelving-long": (mostMs: number) =>
    `Nichts gespeichert: Ein Alarm wird höchstens für ${durationWords(mostMs, times)} zurückgestellt.`,
  "not-shelved": "Nichts gespeichert: Dieser Alarm ist nicht mehr zurückgestellt.",
  "not-normal": "Nichts gespeichert: Das Merkmal ist noch nicht wieder normal.",
  "no-cause": "Nichts gespeichert: Nennen Sie zuerst eine Ursache, und sei es „Keine Ursache gefunden“.",
  "no-action": "Nichts gespeichert: Schreiben Sie zuerst auf, was getan wurde, und sei es „nichts“.",
  "not-verified": (good: number, wanted: number) =>
    `Nichts gespeichert: Seit der Maßnahme ${good} von ${counted(wanted, "guter Stichprobe", "guten Stichproben")}. Warten Sie die anderen ab, oder schreiben Sie, warum der Alarm jetzt geschlossen werden kann.`,
  "say-what-done": "Nichts gespeichert: Schreiben Sie auf, was getan wurde.",
  "say-remark": "Nichts gespeichert: Schreiben Sie die Bemerkung auf.",
  "say-why-wait": "Nichts gespeichert: Schreiben Sie auf, warum er warten kann.",
  "say-why-early": "Nichts gespeichert: Schreiben Sie auf, warum er früher zurückkommt.",
  "say-why-changed": "Nichts gespeichert: Schreiben Sie auf, warum die Messungen geändert wurden.",
  "say-why-reopened": "Nichts gespeichert: Schreiben Sie auf, warum er wieder geöffnet wird.",

  "shift-ahead": "Nichts gespeichert: Diese Schicht hat noch nicht begonnen.",
  "handover-signed": (by: string | null) =>
    `Nichts gespeichert: ${by === null ? "Jemand" : by} hat diese Übergabe schon unterschrieben. Schreiben Sie Ihre Bemerkungen in die nächste.`,
  "source-unknown": (id: number) => `Nichts gespeichert: Die Quelle ${id} gibt es nicht.`,
  "flag-closed": "Nichts gespeichert: Diese Meldung ist schon geschlossen. Laden Sie die Seite neu.",

  "account-gone": "Nichts gespeichert: Dieses Konto gibt es nicht mehr.",
  "account-inactive": "Nichts gespeichert: Dieses Konto ist nicht aktiv.",
  "login-taken": (login: string) =>
    `Nichts gespeichert: Der Anmeldename „${login}“ ist vergeben. Wählen Sie einen anderen.`,
  "login-letters":
    "Nichts gespeichert: Ein Anmeldename hat 1 bis 40 Zeichen: Buchstaben ohne Umlaute, Ziffern, Punkte, Binde- oder Unterstriche; er beginnt mit einem Buchstaben oder einer Ziffer.",
  "name-length": "Nichts gespeichert: Ein Name hat 1 bis 80 Zeichen.",
  "roles-none": "Nichts gespeichert: Wählen Sie mindestens eine Rolle.",
  "roles-none-left": "Nichts gespeichert: Wählen Sie mindestens eine Rolle, oder legen Sie das Konto still.",
  "only-admin":
    "Nichts gespeichert: Niemand sonst hat ein aktives Konto mit der Rolle Verwaltung. Geben Sie sie zuerst jemand anderem.",
  "password-short": (characters: number, least: number) =>
    `Nichts gespeichert: Das Passwort hat ${characters} Zeichen; mindestens ${least} sind nötig.`,
  "password-long": (most: number) => `Nichts gespeichert: Das Passwort hat mehr als ${most} Zeichen.`,
  "set-up-ended":
    "Nichts gespeichert: Dieser Link zum Einrichten wurde schon benutzt, ist älter als ein Tag, oder ein neuerer wurde ausgegeben. Wo es noch kein Konto gibt, gibt `npm run cli -- set-up` einen neuen aus.",
  "invitation-ended":
    "Nichts gespeichert: Dieser Link wurde schon benutzt, ist abgelaufen, oder ein neuerer ist an seine Stelle getreten. Die Verwaltung gibt Ihnen einen neuen.",
  "pin-digits": (least: number, most: number) =>
    `Nichts gespeichert: Eine PIN hat ${least} bis ${most} Ziffern und sonst nichts.`,
  "pin-even":
    "Nichts gespeichert: Diese PIN versucht jeder als eine der ersten. Wählen Sie Ziffern ohne Muster.",
  "pin-in-login": "Nichts gespeichert: Eine PIN ist kein Teil des Anmeldenamens.",
  "pin-password":
    "Nichts gespeichert: Das ist nicht Ihr Passwort. Geben Sie es noch einmal ein; ohne es kann niemand sonst Ihre PIN setzen.",
  "pin-wait": (ms: number) =>
    `Nichts gespeichert: Für diese Person kamen mehrere falsche PINs; warten Sie ${durationWords(ms, times)} bis zum nächsten Versuch, oder melden Sie sich mit dem Passwort an.`,
  "pin-wrong":
    "Nichts gespeichert: Name und PIN gehören nicht zusammen. Prüfen Sie beide; eine PIN setzt man auf der eigenen Seite.",
  "key-name":
    "Nichts gespeichert: Ein Schlüssel hat einen Namen von 1 bis 80 Zeichen, der die Maschine nennt, die ihn benutzt.",
  "key-scopes": "Nichts gespeichert: Wählen Sie mindestens etwas, das der Schlüssel darf.",
  "key-past": "Nichts gespeichert: Der Tag, an dem der Schlüssel endet, ist schon vorbei.",
  "key-name-taken": (name: string) =>
    `Nichts gespeichert: Einen Schlüssel „${name}“ gibt es schon. Wählen Sie einen anderen Namen, oder beenden Sie zuerst jenen.`,
  "key-ended": "Nichts gespeichert: Dieser Schlüssel wurde schon beendet. Laden Sie die Seite neu.",
  "receiver-there": "Nichts gespeichert: Diesen Empfänger gibt es schon.",
  "receiver-gone": "Nichts gespeichert: Dieser Empfänger wurde schon entfernt. Laden Sie die Seite neu.",

  "statement-title":
    "Nichts gespeichert: Geben Sie dem Nachweis einen Namen, etwa den Kunden und wofür er ist.",
  "statement-empty": "Nichts gespeichert: Wählen Sie mindestens ein Merkmal.",
  "statement-features": (count: number, most: number) =>
    `Nichts gespeichert: ${count} Merkmale sind zu viele für einen Nachweis; höchstens ${most}.`,
  "statement-readings": (most: number) =>
    `Nichts gespeichert: Hinter diesen Merkmalen liegen mehr als ${whole(most)} Messwerte. Wählen Sie weniger, oder einen kürzeren Zeitraum.`,
  "statement-part": "Nichts gespeichert: Dieses Teil steht nicht mehr im Prüfplan.",
  "statement-feature": "Nichts gespeichert: Eines der Merkmale steht nicht mehr im Prüfplan dieses Teils.",
  "statement-lots": (codes: string) => `Nichts gespeichert: Ein Los ${codes} gibt es nicht.`,
  "statement-other-part": (id: number) =>
    `Nichts gespeichert: Der Nachweis ${id} gehört nicht zu diesem Teil.`,
  "statement-superseded": (id: number, by: number) =>
    `Nichts gespeichert: Den Nachweis ${id} ersetzt schon der Nachweis ${by}. Ersetzen Sie diesen.`,
  "statement-unknown": "Nichts gespeichert: Diesen Nachweis gibt es nicht.",
  "share-recipient": "Nichts gespeichert: Nennen Sie, wer den Link bekommt; das Protokoll behält es.",
  "share-past": "Nichts gespeichert: Der Link wäre schon abgelaufen.",
  "share-ended": "Nichts gespeichert: Dieser Link ist schon widerrufen, oder es gibt ihn nicht.",
} satisfies typeof english;
