"use client";

import { lazy } from "react";

/** The plain chart with a script of its own, which who looks at the control chart alone never fetches. */
export const PlainChart = lazy(async () => ({ default: (await import("./plain-chart")).PlainChart }));
