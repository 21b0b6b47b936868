"use client";

import { useCommonWords } from "#common-words";
import { Button, LinkButton } from "./fittings/controls";
import { notStoredIn } from "./fittings/not-stored";
import { Note } from "./fittings/note";
import { PageFrame } from "./fittings/page-frame";

/**
 * A fault of the program while a page was put together. Pages only read, and actions store all or nothing,
 * so nothing can have been half saved.
 */
export default function PageFault({
  error,
  reset,
}: {
  error: Error & { digest?: string };
  reset: () => void;
}) {
  const { fittings } = useCommonWords();
  const { fault } = fittings;
  const notStored = error.digest === undefined ? null : notStoredIn(error.digest, fittings);
  if (notStored !== null) {
    return (
      <PageFrame title={fault.notSaved}>
        <Note kind="broken" title={fault.notTaken} actions={<Button onClick={reset}>{fault.back}</Button>}>
          <p>{notStored}</p>
          <p>{fault.sendAgain}</p>
        </Note>
      </PageFrame>
    );
  }
  return (
    <PageFrame title={fault.title}>
      <Note
        kind="broken"
        title={fault.ours}
        actions={
          <>
            <Button kind="main" onClick={reset}>
              {fault.again}
            </Button>
            <LinkButton href="/">{fault.toBoard}</LinkButton>
          </>
        }
      >
        <p>{fault.whole}</p>
        {error.digest ? (
          <p>
            {fault.number} <code>{error.digest}</code>
          </p>
        ) : null}
      </Note>
    </PageFrame>
  );
}
