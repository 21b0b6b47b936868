/** Who may do what, where a person is refused. */
export const access = {
  signInEnded:
    "Nothing saved: your sign-in has ended. Sign in again in another tab, come back here and send this once more.",
  notSaved: (roles: string, name: string, has: string) =>
    `Nothing saved: this takes the role ${roles}, and ${name} has ${has}. Ask an admin for it.`,
  notRead: (roles: string, name: string, has: string) =>
    `Nothing was read or saved: this takes the role ${roles}, and ${name} has ${has}. Ask an admin for it.`,
  noRole: "none",
  signInFirst: "Nothing was read or saved: sign in first.",
  otherSite: "Nothing saved: the request came from another site.",
  signWithPin: (roles: string) =>
    `Nothing saved: this takes the role ${roles}. Choose your name and enter your PIN at the top of the page, or ask an admin for the role.`,
  cannotSign: (roles: string, name: string) =>
    `Nothing saved: this takes the role ${roles}, and ${name} has none of them. Ask an admin for it.`,
};
