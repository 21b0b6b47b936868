"use client";

import { type ComponentProps, lazy } from "react";

const Fetched = lazy(async () => ({ default: (await import("./plain-chart")).PlainChart }));

/**
 * The plain chart with a script of its own, which who looks at the control chart alone never fetches. A component of its
 * own, for what a page of the server names is fetched already, and React takes no promise of a promise.
 */
export function PlainChart(props: ComponentProps<typeof Fetched>) {
  return <Fetched {...props} />;
}
