/** The rooms of the product, in the order in which the navigation shows them. */
export const ROOMS = [
  { href: "/", name: "Shift board" },
  { href: "/alarms", name: "Alarms" },
  { href: "/handover", name: "Handover" },
  { href: "/features", name: "Features" },
  { href: "/drift", name: "Drift" },
  { href: "/capability", name: "Capability" },
  { href: "/gauges", name: "Gauges" },
  { href: "/intake", name: "Intake" },
  { href: "/plan", name: "Control plan" },
  { href: "/record", name: "Record" },
  { href: "/people", name: "People" },
] as const;
