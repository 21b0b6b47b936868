"use client";

import { memo } from "react";

/**
 * Marks of one shape along a strip, written as "12.5,40.1 13,38": per cent across, pixels down. A text is compared at
 * once, so that a step to other points of the chart draws none of some hundred marks anew.
 */
export const StripMarks = memo(function StripMarks({ shape, places }: { shape: string; places: string }) {
  return [...new Set(places.split(" "))].map((place) => {
    const [x, y] = place.split(",");
    return y === undefined ? null : <use key={place} href={`#${shape}`} x={`${x}%`} y={y} />;
  });
});
