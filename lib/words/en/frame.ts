/** What stands around every page, and the pages for who comes to a wrong address. */
export const frame = {
  description: "Which features are stable and capable, what is moving them, and what to do about it.",
  skip: "Skip to the page",
  demo: (moment: string): string => `Demo: a fictional plant. Its clock stands at ${moment}.`,
  lesson: "Lesson: find what is wrong in it",
  glossary: "Glossary",
  notice:
    "A signal is a prompt to look, not a disposition. Acceptance of product follows the drawing, the customer's requirements and the shop's nonconformance procedure under its qualified people. Statistical capability is no proof of safety or airworthiness.",
  signOut: "Sign out",
  language: "Language of the pages in this browser",
  theme: "Light or dark pages",
  themes: { system: "System", light: "Light", dark: "Dark" },
  rooms: "Rooms",
  roomNames: {
    "/": "Shift board",
    "/alarms": "Alarms",
    "/handover": "Handover",
    "/features": "Features",
    "/drift": "Drift",
    "/capability": "Capability",
    "/gauges": "Gauges",
    "/intake": "Intake",
    "/plan": "Control plan",
    "/record": "Record",
    "/people": "People",
  },
  connection: {
    gone: "No connection since {time}. What is shown may be old. It is tried again by itself; nothing that was saved is lost.",
    signedOut: "Your sign-in has ended, so this page no longer changes.",
    signInAgain: "Sign in again",
  },
  toBoard: "To the shift board",
  notHere: {
    tab: "Not here",
    title: "Nothing is at this address",
    purpose: "The link may be old, or what it named was never entered. Nothing was lost by coming here.",
    search: "Search the features",
  },
  notYours: {
    tab: "Not for your role",
    title: "This page is not for your role",
    purpose: (name: string, roles: string): string =>
      `You are signed in as ${name} (${roles}). Nothing was shown or changed. An admin can give you the role it takes, or you can sign in with another account.`,
    noRole: "no role",
    another: "Sign in as somebody else",
  },
};
