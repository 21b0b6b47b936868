export type DemoAccount = {
  login: string;
  name: string;
  roles: ("viewer" | "shift-lead" | "engineer" | "quality" | "admin")[];
  /** Printed on the demo's sign-in page; an account marked as demo is refused outside demo mode. */
  password: string;
  /** For acting by name on a tablet that somebody else is signed in on. */
  pin?: string;
};

/** One account for each role. */
export const DEMO_ACCOUNTS: DemoAccount[] = [
  { login: "viewer", name: "Demo viewer", roles: ["viewer"], password: "look-around" },
  { login: "lead", name: "Demo shift lead", roles: ["shift-lead"], password: "night-shift", pin: "274105" },
  { login: "engineer", name: "Demo engineer", roles: ["engineer"], password: "steady-bore", pin: "830462" },
  { login: "quality", name: "Demo quality", roles: ["quality"], password: "what-we-claim" },
  { login: "admin", name: "Demo admin", roles: ["admin"], password: "keys-and-copies" },
];
