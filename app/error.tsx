"use client";

import { Button, LinkButton } from "./fittings/controls";
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
  const isNotStored = error.digest?.startsWith("Nothing saved: ") ?? false;
  if (isNotStored) {
    return (
      <PageFrame title="Nothing saved">
        <Note
          kind="broken"
          title="The place where the data lies does not take it"
          actions={<Button onClick={reset}>Back to the page</Button>}
        >
          <p>{error.digest}</p>
          <p>What you had entered has to be sent once more when that is mended.</p>
        </Note>
      </PageFrame>
    );
  }
  return (
    <PageFrame title="This page could not be shown">
      <Note
        kind="broken"
        title="A fault of the program, not of your data"
        actions={
          <>
            <Button kind="main" onClick={reset}>
              Try again
            </Button>
            <LinkButton href="/">To the shift board</LinkButton>
          </>
        }
      >
        <p>
          Showing a page saves nothing; if you had just sent a form, look at its page before you send it
          again: a change is stored whole or not at all.
        </p>
        {error.digest ? (
          <p>
            Tell whoever looks after the server this number, under which the reason is in its log:{" "}
            <code>{error.digest}</code>
          </p>
        ) : null}
      </Note>
    </PageFrame>
  );
}
