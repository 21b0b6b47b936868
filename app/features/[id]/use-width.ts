"use client";

import { type RefObject, useEffect, useState } from "react";

/** Drawn before the width is known, and where no script runs. */
const USUAL_WIDTH = 960;
const NARROWEST = 280;

/** How wide an element is drawn, in pixels; followed while it changes. */
export function useWidth(frame: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(USUAL_WIDTH);
  useEffect(() => {
    const element = frame.current;
    if (!element) return;
    const observer = new ResizeObserver(([entry]) => {
      if (entry) setWidth(Math.max(NARROWEST, Math.floor(entry.contentRect.width)));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, [frame]);
  return width;
}
