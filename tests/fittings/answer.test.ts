import { UnrecognizedActionError } from "next/dist/client/components/unrecognized-action-error";
import { expect, test } from "vitest";
import { whyUnanswered } from "../../app/fittings/answer";
import { NotStored } from "../../db/connection";
import { COMMON } from "../../lib/words/common";

/** As an error of a server action reaches the browser in production: its digest is all that is left of it. */
function received(error: { digest: string }): Error {
  return Object.assign(new Error("An error occurred in the Server Components render."), {
    digest: error.digest,
  });
}

test("what could not be stored is a matter of the form, in the words of the database", () => {
  const full = new NotStored("full", { path: "a.db", cause: null });
  expect(whyUnanswered(received(full), COMMON.en.fittings)).toBe(
    "Nothing saved: the disk is full. Make room there; everything that was saved before is kept. What you entered is still here; send it then.",
  );
  expect(whyUnanswered(received(full), COMMON.de.fittings)).toMatch(
    /^Nichts gespeichert: Der Datenträger ist voll\..* Ihre Eingabe steht noch hier/,
  );
});

test("so is a server that does not answer, as fetch tells it", async () => {
  // Port 9 discards by RFC 863 and nothing listens on it here.
  const error = await fetch("http://127.0.0.1:9/").catch((reason: unknown) => reason);
  expect(whyUnanswered(error, COMMON.en.fittings)).toMatch(
    /^No answer from the server, so it is not known whether/,
  );
});

test("a fault of the program keeps the form too, with the number under which the log has its reason", () => {
  expect(whyUnanswered(received({ digest: "1234567890" }), COMMON.en.fittings)).toMatch(
    /it is not known whether this was saved\. What you entered is still here: .* under 1234567890\.$/,
  );
});

test("an action of an older version of the program is told from one that failed", () => {
  const error = new UnrecognizedActionError("Server Action was not found on the server.");
  expect(whyUnanswered(error, COMMON.en.fittings)).toMatch(/^Nothing saved: the program was renewed/);
});

test("redirects and refusals go their usual way", () => {
  for (const digest of ["NEXT_REDIRECT;replace;/plan;307;", "NEXT_HTTP_ERROR_FALLBACK;403"]) {
    expect(whyUnanswered(received({ digest }), COMMON.en.fittings)).toBeNull();
  }
});
