"use client";

import { useEffect, useState } from "react";
import { useFormStatus } from "react-dom";
import { useCommonWords } from "#common-words";
import styles from "./awaited-work.module.css";
import { Button } from "./controls";

const ASK_EVERY_MS = 400;

type Share = { done: number; total: number };

/**
 * Within a form whose action takes a while: says how far it has come, and lets it be given up. The action names the
 * form's field "ticket" to `askWorker`, under which the progress is asked for.
 */
export function AwaitedWork({ unit }: { unit: string }) {
  const { pending } = useFormStatus();
  const [ticket, setTicket] = useState("");
  // Made in the browser only, so that the first picture is the same in both places.
  useEffect(() => setTicket(`${Date.now().toString(36)}-${Math.random().toString(36).slice(2)}`), []);
  return (
    <>
      <input type="hidden" name="ticket" value={ticket} />
      {pending ? <Awaited ticket={ticket} unit={unit} /> : null}
    </>
  );
}

function Awaited({ ticket, unit }: { ticket: string; unit: string }) {
  const { fittings } = useCommonWords();
  const [share, setShare] = useState<Share | null>(null);
  const [isGivenUp, setGivenUp] = useState(false);

  useEffect(() => {
    const timer = setInterval(async () => {
      const answer = await fetch(`/api/awaited/${ticket}`).catch(() => null);
      if (answer?.ok) setShare(await answer.json());
    }, ASK_EVERY_MS);
    return () => clearInterval(timer);
  }, [ticket]);

  const isCounted = share !== null && share.total > 0;
  const words = isGivenUp
    ? fittings.givingUp
    : isCounted
      ? `${fittings.doneOf(share.done, share.total)} ${unit}`
      : fittings.beginning;
  return (
    <div className={styles.work} role="status">
      <progress
        aria-label={fittings.howFar}
        {...(isCounted ? { max: share.total, value: share.done } : {})}
      />
      <span>{words}</span>
      <Button
        onClick={() => {
          setGivenUp(true);
          // Refused when it has not begun yet, or the line is down: then it can be pressed again.
          fetch(`/api/awaited/${ticket}`, { method: "DELETE" }).then(
            ({ ok }) => ok || setGivenUp(false),
            () => setGivenUp(false),
          );
        }}
        disabled={isGivenUp}
      >
        {fittings.giveUp}
      </Button>
    </div>
  );
}
