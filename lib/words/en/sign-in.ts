/** Signing in, and giving a screen on the wall its key. */
export const signIn = {
  title: "Sign in",
  purpose: "So that every change carries the name of the person who made it.",
  already: (name: string): string =>
    `You are signed in as ${name}. Signing in again changes who you are on this device.`,
  nobody: "Nobody has an account yet",
  /** {command} is what to type. */
  firstLink:
    "The first one is made with a one-time link. The command {command} prints it in the terminal of the machine on which the program runs.",
  demo: {
    title: "Look around in the demo",
    purpose:
      "A fictional plant with thirteen weeks of measurements and five faults planted in it. One press signs you in; to be led to the faults, begin with the lesson.",
    continueAs: (name: string): string => `Continue as ${name}`,
    /** What each role of the demo is good for, said to somebody who sees it for the first time. */
    promises: {
      viewer: "sees everything, changes nothing",
      "shift-lead": "answers alarms, logs what was done to sources",
      engineer: "takes files in, sets limits, rules and tolerances",
      quality: "prepares capability statements for customers",
      admin: "adds people, keeps backups",
    },
  },
  own: "With your own account",
  form: { login: "Login", password: "Password", signIn: "Sign in", working: "Signing in …" },
  not: {
    enter: "Not signed in: enter your login and your password.",
    wait: (time: string): string =>
      `Not signed in: after several wrong passwords for this login, wait ${time} before the next try. A browser in which you have signed in before does not wait for others' mistakes.`,
    wrong: "Not signed in: login and password do not belong together. Check both and try again.",
  },
  wall: {
    tab: "Wall",
    title: "A screen on the wall",
    purpose:
      "With a key this screen shows the shift board by itself for as long as the key stands. It can change nothing. An admin makes the key on People, Keys; nobody stays signed in here.",
    form: { key: "Key of this screen", show: "Show the board here", working: "Looking …" },
    look: "To see how it looks, {link} as the person who is signed in.",
    open: "open the wall board",
    noKey: "Nothing saved: type or paste the key that an admin made on the page Keys.",
    unknown: "Nothing saved: this key is not known here. Compare it with the one that was shown.",
    ended: (name: string): string =>
      `Nothing saved: the key “${name}” lets nobody in any more. An admin makes another on the page Keys.`,
    mayNot: (name: string): string =>
      `Nothing saved: the key “${name}” may not show the wall board. An admin makes one that may.`,
  },
};
