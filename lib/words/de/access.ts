import type { access as english } from "../en/access";

export const access = {
  signInEnded:
    "Nichts gespeichert: Ihre Anmeldung ist abgelaufen. Melden Sie sich in einem anderen Tab neu an, kommen Sie hierher zurück und senden Sie dies noch einmal.",
  notSaved: (roles: string, name: string, has: string) =>
    `Nichts gespeichert: Dafür braucht man die Rolle ${roles}; ${name} hat ${has}. Die Verwaltung vergibt sie.`,
  notRead: (roles: string, name: string, has: string) =>
    `Nichts wurde gelesen oder gespeichert: Dafür braucht man die Rolle ${roles}; ${name} hat ${has}. Die Verwaltung vergibt sie.`,
  noRole: "keine",
  signInFirst: "Nichts wurde gelesen oder gespeichert: Melden Sie sich zuerst an.",
  otherSite: "Nichts gespeichert: Die Anfrage kam von einer anderen Website.",
  signWithPin: (roles: string) =>
    `Nichts gespeichert: Dafür braucht man die Rolle ${roles}. Wählen Sie oben auf der Seite Ihren Namen und geben Sie Ihre PIN ein; die Rolle vergibt die Verwaltung.`,
  cannotSign: (roles: string, name: string) =>
    `Nichts gespeichert: Dafür braucht man die Rolle ${roles}; ${name} hat sie nicht. Die Verwaltung vergibt sie.`,
} satisfies typeof english;
