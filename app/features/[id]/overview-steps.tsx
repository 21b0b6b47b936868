"use client";

import type { MouseEvent } from "react";
import { windowAddress, windowSteps } from "../../../lib/chart/overview-window";
import { MOST_SHOWN, type ShownWindow } from "../../../lib/chart/shown-window";
import { whole } from "../../../lib/format/numbers";
import { fill } from "../../../lib/words/fill";
import { Button } from "../../fittings/controls";
import { Link } from "../../fittings/link";
import { numberOf } from "./chart-view";
import styles from "./panels.module.css";
import { useShownHistory } from "./shown-history";

/** Which part of the history is shown, and links to its neighbours; links, so that they lead there without scripts too. */
export function OverviewSteps() {
  const { count, address, words, wanted, shown, fault, go, again } = useShownHistory();
  const { earlier, later, latest, widest } = windowSteps(wanted, { count });
  const isShown = ({ from, to }: ShownWindow) => from === wanted.from && to === wanted.to;
  const steps: { name: string; to: ShownWindow | null; asked: ShownWindow | null }[] = [
    { name: words.earlier, to: earlier, asked: earlier },
    { name: words.later, to: later, asked: later },
    { name: words.latest, to: isShown(latest) ? null : latest, asked: hasMoment(address) ? latest : null },
    {
      name: count <= MOST_SHOWN ? words.all : fill(words.allAtMost, { most: MOST_SHOWN }),
      to: isShown(widest) ? null : widest,
      asked: widest,
    },
  ];
  const where = { first: numberOf(shown.from), last: numberOf(shown.to), count: whole(count) };

  function follow(event: MouseEvent, to: ShownWindow, asked: ShownWindow | null): void {
    // Another tab or window is the browser's business.
    if (event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    go(to, { asked, isEntry: true });
  }

  return (
    <>
      <nav className={styles.steps} aria-label={words.label}>
        <span className={styles.soft}>{fill(words.where, where)}</span>
        {steps.map(({ name, to, asked }) =>
          to === null ? (
            <span key={name} className={styles.still}>
              {name}
            </span>
          ) : (
            <Link
              key={name}
              href={windowAddress(address, asked)}
              scroll={false}
              onClick={(event) => follow(event, to, asked)}
            >
              {name}
            </Link>
          ),
        )}
      </nav>
      <p className={styles.notShown} role="status">
        {fault === null ? null : (
          <>
            {fill(words.notShown, { first: numberOf(wanted.from), last: numberOf(wanted.to), why: fault })}{" "}
            <Button kind="quiet" size="dense" onClick={again}>
              {words.again}
            </Button>
          </>
        )}
      </p>
    </>
  );
}

/** An address that names a moment but no window leads to that moment, not to the latest. */
function hasMoment(address: string): boolean {
  return new URLSearchParams(address.split("?")[1]).has("from");
}
