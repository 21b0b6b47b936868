"use client";

import { useRouter } from "next/navigation";
import { type PointerEvent, type ReactNode, useEffect, useRef, useState, useTransition } from "react";
import { centredAt, movedBy, windowAddress, withFirst, withLast } from "../../../lib/chart/overview-window";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { numberOf } from "./chart-view";
import styles from "./panels.module.css";

/** Pixels at either side of an edge in which it is taken by a pointer. */
const GRIP = 9;
/** How long the keys of a slider must rest before the chart is fetched. */
const REST_MS = 350;

type Drag = { part: "first" | "last" | "whole"; x: number; window: ShownWindow };

/**
 * The frame over the strip, to be dragged by its middle or its edges; a press elsewhere brings it there. Two
 * sliders do the same from the keyboard. The chart follows once the hand is off.
 */
export function OverviewWindow({
  count,
  window,
  address,
  labels,
  days,
  children,
}: {
  count: number;
  window: ShownWindow;
  address: string;
  /** Of the two sliders. */
  labels: { first: string; last: string };
  /** The axis under the strip. */
  days: ReactNode;
  children: ReactNode;
}) {
  const router = useRouter();
  const [isFetching, startFetching] = useTransition();
  const [chosen, setChosen] = useState(window);
  const [shown, setShown] = useState(window);
  const strip = useRef<HTMLDivElement>(null);
  const drag = useRef<Drag | null>(null);
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);
  const history = { count };

  // The links beside the strip move the window as well.
  if (shown.from !== window.from || shown.to !== window.to) {
    setShown(window);
    setChosen(window);
  }

  useEffect(() => () => clearTimeout(rest.current), []);

  function show(next: ShownWindow): void {
    clearTimeout(rest.current);
    if (next.from === window.from && next.to === window.to) return;
    startFetching(() => router.replace(windowAddress(address, next), { scroll: false }));
  }

  function slideTo(next: ShownWindow): void {
    setChosen(next);
    clearTimeout(rest.current);
    rest.current = setTimeout(() => show(next), REST_MS);
  }

  /** Subgroups for so many pixels. */
  function subgroups(pixels: number): number {
    const width = strip.current?.getBoundingClientRect().width ?? 1;
    return (pixels / width) * count;
  }

  function take(event: PointerEvent<HTMLDivElement>): void {
    if (event.button !== 0) return;
    const { left } = event.currentTarget.getBoundingClientRect();
    const at = subgroups(event.clientX - left);
    const grip = subgroups(GRIP);
    const isNear = (edge: number) => Math.abs(at - edge) <= grip;
    let start = chosen;
    let part: Drag["part"] = "whole";
    if (isNear(chosen.to + 1)) part = "last";
    else if (isNear(chosen.from)) part = "first";
    else if (at < chosen.from || at > chosen.to + 1) start = centredAt(chosen, Math.floor(at), history);
    drag.current = { part, x: event.clientX, window: start };
    setChosen(start);
    event.currentTarget.setPointerCapture(event.pointerId);
  }

  function pull(event: PointerEvent<HTMLDivElement>): void {
    const held = drag.current;
    if (!held) return;
    const by = Math.round(subgroups(event.clientX - held.x));
    if (held.part === "whole") setChosen(movedBy(held.window, by, history));
    else if (held.part === "first") setChosen(withFirst(held.window, held.window.from + by, history));
    else setChosen(withLast(held.window, held.window.to + by, history));
  }

  function release(): void {
    if (!drag.current) return;
    drag.current = null;
    show(chosen);
  }

  const share = (subgroup: number) => `${(100 * subgroup) / count}%`;
  return (
    <div className={styles.windowed} aria-busy={isFetching}>
      <div
        ref={strip}
        className={styles.ground}
        onPointerDown={take}
        onPointerMove={pull}
        onPointerUp={release}
        onPointerCancel={release}
      >
        {children}
        <div
          className={styles.frame}
          style={{ left: share(chosen.from), width: share(chosen.to - chosen.from + 1) }}
        />
      </div>
      {days}
      <div className={styles.sliders}>
        <Slider
          label={labels.first}
          count={count}
          value={chosen.from}
          onSlide={(first) => slideTo(withFirst(chosen, first, history))}
        />
        <Slider
          label={labels.last}
          count={count}
          value={chosen.to}
          onSlide={(last) => slideTo(withLast(chosen, last, history))}
        />
      </div>
    </div>
  );
}

function Slider({
  label,
  count,
  value,
  onSlide,
}: {
  label: string;
  count: number;
  value: number;
  onSlide: (subgroup: number) => void;
}) {
  return (
    <label className={styles.slider}>
      <span>
        {label} <output>{numberOf(value)}</output>
      </span>
      <input
        type="range"
        aria-label={label}
        min={1}
        max={count}
        value={numberOf(value)}
        onChange={(event) => onSlide(Number(event.target.value) - 1)}
      />
    </label>
  );
}
