"use client";

import { type PointerEvent, type ReactNode, useRef } from "react";
import { centredAt, isSameWindow, movedBy, withFirst, withLast } from "../../../lib/chart/overview-window";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { numberOf } from "./chart-view";
import styles from "./panels.module.css";
import { useShownHistory } from "./shown-history";

/** Pixels at either side of an edge in which it is taken by a pointer. */
const GRIP = 9;

type Drag = { part: "first" | "last" | "whole"; x: number; window: ShownWindow; before: ShownWindow };

/**
 * The frame over the strip, to be dragged by its middle or its edges; a press elsewhere brings it there. Two
 * sliders do the same from the keyboard. The chart follows as fast as its points are there.
 */
export function OverviewWindow({
  days,
  children,
}: {
  /** The axis under the strip. */
  days: ReactNode;
  children: ReactNode;
}) {
  const { count, words, wanted: chosen, isFetching, go, warm } = useShownHistory();
  const strip = useRef<HTMLDivElement>(null);
  const drag = useRef<Drag | null>(null);
  const history = { count };
  const move = (next: ShownWindow) => go(next, { asked: next, isMoving: true });

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
    drag.current = { part, x: event.clientX, window: start, before: chosen };
    if (start !== chosen) move(start);
    event.currentTarget.setPointerCapture(event.pointerId);
  }

  function pull(event: PointerEvent<HTMLDivElement>): void {
    const held = drag.current;
    if (!held) return;
    const by = Math.round(subgroups(event.clientX - held.x));
    if (held.part === "whole") move(movedBy(held.window, by, history));
    else if (held.part === "first") move(withFirst(held.window, held.window.from + by, history));
    else move(withLast(held.window, held.window.to + by, history));
  }

  function release(): void {
    const held = drag.current;
    drag.current = null;
    if (held && !isSameWindow(held.before, chosen)) go(chosen, { asked: chosen });
  }

  const share = (subgroup: number) => `${(100 * subgroup) / count}%`;
  return (
    <div className={styles.windowed} aria-busy={isFetching} onPointerEnter={warm}>
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
          label={words.first}
          count={count}
          value={chosen.from}
          onNear={warm}
          onSlide={(first) => move(withFirst(chosen, first, history))}
        />
        <Slider
          label={words.last}
          count={count}
          value={chosen.to}
          onNear={warm}
          onSlide={(last) => move(withLast(chosen, last, history))}
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
  onNear,
}: {
  label: string;
  count: number;
  value: number;
  onSlide: (subgroup: number) => void;
  onNear: () => void;
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
        onFocus={onNear}
        onChange={(event) => onSlide(Number(event.target.value) - 1)}
      />
    </label>
  );
}
