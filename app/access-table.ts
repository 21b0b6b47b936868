import type { Role } from "../lib/people/roles";
import type { Scope } from "../lib/people/scopes";

/*
 * Who may open which page, call which endpoint, run which action: the one place that says so.
 *
 * To add one: a line here, and the matching guard of access.ts in the page, route or action. A house check
 * compares the two.
 */

const READERS: readonly Role[] = ["viewer", "shift-lead", "engineer", "quality", "admin"];
const ENGINEERS: readonly Role[] = ["engineer"];
const SHIFT_LEADS: readonly Role[] = ["shift-lead", "engineer"];

const QUALITY: readonly Role[] = ["quality"];
const ADMINS: readonly Role[] = ["admin"];

/**
 * On a tablet that a shift shares, another person than the one signed in may put their name to an act, by a PIN.
 * Whoever does needs one of these roles.
 */
export const SIGNERS: readonly Role[] = SHIFT_LEADS;

/** "anyone" needs no sign-in; `key` lets in no person but a machine whose key has that scope. */
export type Allowed = "anyone" | readonly Role[] | { key: Scope };

export const ACCESS = {
  /** By address, as in the folders of app/. */
  pages: {
    "/": READERS,
    "/alarms": READERS,
    "/alarms/[id]": READERS,
    "/alarms/performance": READERS,
    "/capability": READERS,
    "/capability/[id]": READERS,
    "/capability/statements": READERS,
    "/capability/statements/[id]": READERS,
    "/capability/statements/new": QUALITY,
    "/drift": READERS,
    "/features": READERS,
    "/features/[id]": READERS,
    "/glossary": READERS,
    "/handover": READERS,
    "/gauges": READERS,
    "/gauges/[id]": READERS,
    "/gauges/[id]/studies/new": ENGINEERS,
    "/gauges/new": ENGINEERS,
    "/gauges/studies/[id]": READERS,
    "/intake": READERS,
    "/intake/[id]": READERS,
    "/intake/bench": SHIFT_LEADS,
    "/lesson": READERS,
    "/plan": READERS,
    "/plan/budget": READERS,
    "/plan/features/[id]": READERS,
    "/plan/features/new": ENGINEERS,
    "/plan/parts/[id]": READERS,
    "/plan/parts/new": ENGINEERS,
    "/plan/reactions": READERS,
    "/people": READERS,
    "/people/keys": ADMINS,
    "/people/plant": ADMINS,
    "/record": READERS,
    "/people/messages": ADMINS,
    "/set-up": "anyone",
    "/statement/[token]": "anyone",
    "/sign-in": "anyone",
    "/welcome": "anyone",
    "/wall": "anyone",
  },
  /** By method and address. */
  endpoints: {
    "DELETE /api/intake/jobs/[id]": ENGINEERS,
    "DELETE /api/intake/upload/[id]": ENGINEERS,
    "GET /api/board": READERS,
    "GET /api/features/[id]/points": READERS,
    "GET /api/features/[id]/readings": READERS,
    "GET /api/gauges/studies/[id]/readings": READERS,
    "GET /api/capability/statements/[id]/sheet": READERS,
    "GET /api/intake/[id]/features": READERS,
    "GET /api/intake/[id]/refusals": READERS,
    "GET /api/intake/files-to-try/[name]": READERS,
    "GET /api/intake/jobs": READERS,
    "GET /api/intake/sample": READERS,
    "GET /api/intake/upload/[id]/look": ENGINEERS,
    "GET /api/news": READERS,
    "GET /api/statement/[token]/sheet": "anyone",
    "GET /api/awaited/[id]": READERS,
    "DELETE /api/awaited/[id]": READERS,
    "GET /api/wall/news": { key: "show-wall" },
    "GET /api/backup": ADMINS,
    "GET /api/health": "anyone",
    "GET /api/metrics": { key: "read-metrics" },
    "GET /api/ready": "anyone",
    "GET /api/record": READERS,
    "POST /api/intake/[id]/undo": ENGINEERS,
    "POST /api/intake/upload": ENGINEERS,
    "POST /api/intake/upload/[id]/commit": ENGINEERS,
    "POST /api/intake/upload/[id]/look": ENGINEERS,
    "POST /api/v1/measurements": { key: "post-measurements" },
  },
  /** By the name of the exported function. */
  actions: {
    addPerson: ADMINS,
    changePassword: READERS,
    changePerson: ADMINS,
    choosePin: READERS,
    choosePlantDisplay: ADMINS,
    endSession: READERS,
    welcome: "anyone",
    addReceiver: ADMINS,
    endReceiver: ADMINS,
    saveMailServer: ADMINS,
    sendAgain: ADMINS,
    beginScan: SHIFT_LEADS,
    cancelScan: SHIFT_LEADS,
    answerAlarm: READERS, // Who puts their name to it is asked for in signer.ts.
    chooseTheme: "anyone",
    chooseLanguage: "anyone",
    closeDriftFlag: SHIFT_LEADS,
    continueInDemo: "anyone",
    costOfRules: READERS,
    endKey: ADMINS,
    enterGaugeStudy: ENGINEERS,
    freezeChartLimits: ENGINEERS,
    leave: "anyone",
    leaveOutSubgroups: ENGINEERS,
    logEvent: SHIFT_LEADS,
    makeKey: ADMINS,
    recomputeSigned: READERS,
    revokeLink: QUALITY,
    saveFeature: ENGINEERS,
    savePart: ENGINEERS,
    saveReactions: ENGINEERS,
    saveGaugeRecord: ENGINEERS,
    setUpFirstAccount: "anyone",
    signInWithPassword: "anyone",
    storeBenchSheet: SHIFT_LEADS,
    shareSigned: QUALITY,
    signShift: READERS, // As answerAlarm.
    signStatement: QUALITY,
    showOnWall: "anyone",
    takeSubgroupsBackIn: ENGINEERS,
    withdrawGaugeStudy: ENGINEERS,
  },
} as const satisfies Record<"pages" | "endpoints" | "actions", Record<string, Allowed>>;

export type PageAddress = keyof typeof ACCESS.pages;
export type Endpoint = keyof typeof ACCESS.endpoints;
export type ActionName = keyof typeof ACCESS.actions;
