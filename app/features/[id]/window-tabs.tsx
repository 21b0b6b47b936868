"use client";

import type { ComponentProps } from "react";
import { LinkTabs } from "../../fittings/controls";
import { useHereAddress } from "./shown-history";

/** Tabs that lead to the window which is shown now, not to that with which the page was made. */
export function WindowTabs({ label, links }: ComponentProps<typeof LinkTabs>) {
  const here = useHereAddress();
  return <LinkTabs label={label} links={links.map((link) => ({ ...link, href: here(link.href) }))} />;
}
