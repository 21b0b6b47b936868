import type { Role } from "../lib/people/roles";

/*
 * Who may open which page, call which endpoint, run which action: the one place that says so.
 *
 * To add one: a line here, and the matching guard of access.ts in the page, route or action. A house check
 * compares the two.
 */

const READERS: readonly Role[] = ["viewer", "shift-lead", "engineer", "quality", "admin"];
const ENGINEERS: readonly Role[] = ["engineer"];
const SHIFT_LEADS: readonly Role[] = ["shift-lead", "engineer"];

/** "anyone" needs no sign-in. */
export type Allowed = "anyone" | readonly Role[];

export const ACCESS = {
  /** By address, as in the folders of app/. */
  pages: {
    "/": READERS,
    "/capability": READERS,
    "/capability/[id]": READERS,
    "/drift": READERS,
    "/features": READERS,
    "/features/[id]": READERS,
    "/plan": READERS,
    "/plan/features/[id]": READERS,
    "/plan/features/new": ENGINEERS,
    "/plan/parts/[id]": READERS,
    "/plan/parts/new": ENGINEERS,
    "/set-up": "anyone",
    "/sign-in": "anyone",
  },
  /** By method and address. */
  endpoints: {},
  /** By the name of the exported function. */
  actions: {
    chooseTheme: "anyone",
    continueInDemo: "anyone",
    freezeChartLimits: ENGINEERS,
    leave: "anyone",
    leaveOutSubgroups: ENGINEERS,
    logEvent: SHIFT_LEADS,
    saveFeature: ENGINEERS,
    savePart: ENGINEERS,
    setUpFirstAccount: "anyone",
    signInWithPassword: "anyone",
    takeSubgroupsBackIn: ENGINEERS,
  },
} as const satisfies Record<"pages" | "endpoints" | "actions", Record<string, Allowed>>;

export type PageAddress = keyof typeof ACCESS.pages;
export type Endpoint = keyof typeof ACCESS.endpoints;
export type ActionName = keyof typeof ACCESS.actions;
