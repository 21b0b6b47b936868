"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useTransition } from "react";
import type { News } from "../../db/queries/news";
import { concerns, isCalm } from "../news/concerns";
import { refreshSchedule } from "../news/refresh-schedule";
import { lineOfThisTab, NEWS, type NewsAddress } from "../news/this-tab";

/**
 * Shows a page anew when news concern it; server components are read again, what a person has typed or opened
 * stays. `since` is the id of the latest news when the page was made (`latestNewsId`, asked before anything
 * else), so that what happened between then and now is not missed.
 *
 * Measurements may come many times a second, and alarms must not wait for them: `calmMs` is the least time
 * between two looks that only such news ask for.
 */
export function FollowNews({
  since,
  kinds,
  featureId,
  calmMs = 2000,
  stream = NEWS,
}: {
  since: number;
  kinds: readonly News["kind"][];
  /** Only news of this feature, where a page shows a single one. */
  featureId?: number;
  calmMs?: number;
  /** Another stream than that of signed-in people. */
  stream?: NewsAddress;
}) {
  const router = useRouter();
  const [isLooking, startLooking] = useTransition();
  const known = useRef(since);
  const schedule = useRef<ReturnType<typeof refreshSchedule> | null>(null);
  const kindsText = kinds.join(" ");

  useEffect(() => {
    const line = lineOfThisTab(stream);
    const looks = refreshSchedule({
      calmMs,
      look: () => startLooking(() => router.refresh()),
      mayLook: () => line.state().is === "open",
    });
    schedule.current = looks;
    line.begin(known.current);
    const stop = line.listen(known.current, (heard) => {
      if (heard.gap) return looks.want(false);
      const { item } = heard;
      const shown = kindsText.split(" ");
      if (item.id <= known.current || !concerns(item, { kinds: shown, featureId })) return;
      looks.want(isCalm(item, shown));
    });
    return () => {
      stop();
      looks.stop();
    };
  }, [kindsText, featureId, calmMs, stream, router]);

  useEffect(() => {
    known.current = Math.max(known.current, since);
  }, [since]);

  useEffect(() => {
    if (!isLooking) schedule.current?.done();
  }, [isLooking]);

  return null;
}
