/** The rooms of the product, in the order in which the navigation shows them; their names are words of the frame. */
export const ROOMS = [
  "/",
  "/alarms",
  "/handover",
  "/features",
  "/drift",
  "/capability",
  "/gauges",
  "/intake",
  "/plan",
  "/record",
  "/people",
] as const;
