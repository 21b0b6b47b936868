"use client";

import { unstable_isUnrecognizedActionError } from "next/navigation";
import { useActionState } from "react";

/** What every server action answers to a form. */
export type Answer = { done: boolean; message: string };

/** What was sent without being answered; on an answer that this hook made up. */
export type Unanswered = { typed?: FormData };

/** How the message begins when the place of the data did not take a change; see `NotStored` in db/connection.ts. */
const NOT_STORED = "Nothing saved: ";

const UNHEARD =
  "No answer from the server, so it is not known whether this was saved. What you entered is still here: see whether the server is reached, look whether it is there, and send it again if not.";

const RENEWED =
  "Nothing saved: the program was renewed since this page was opened. What you entered is still here: copy what took long to type, load the page anew, and enter it there.";

/**
 * `useActionState`, for a form that must not lose what a person has typed.
 *
 * When the disk is full, the line to the server is down or the program has a fault, an action does not answer but
 * fails, and React would put a page about that in place of the form. Here the form stays, says why, and `AnswerNote`
 * within it puts back what was typed. What Next tells by an error, such as a redirect, goes its usual way.
 */
export function useAnswer<State extends Answer>(
  action: (before: State, form: FormData) => Promise<State>,
  atFirst: State,
) {
  return useActionState<State & Unanswered, FormData>(
    async (before, form) => {
      try {
        return await action({ ...before, typed: undefined }, form);
      } catch (error) {
        const message = whyUnanswered(error);
        if (message === null) throw error;
        return { ...before, done: false, message, typed: form };
      }
    },
    atFirst as Awaited<State & Unanswered>,
  );
}

/** In words for the form; null where it is no matter of the form. */
export function whyUnanswered(error: unknown): string | null {
  const digest = (error as { digest?: unknown } | null)?.digest;
  if (typeof digest === "string") {
    if (digest.startsWith(NOT_STORED)) return `${digest} What you entered is still here; send it then.`;
    return digest.startsWith("NEXT_") ? null : brokenWords(digest);
  }
  if (unstable_isUnrecognizedActionError(error)) return RENEWED;
  // What fetch throws when nobody answers; a fault of the program comes with a digest.
  return error instanceof TypeError ? UNHEARD : null;
}

function brokenWords(digest: string): string {
  return `A fault of the program, not of your data, and it is not known whether this was saved. What you entered is still here: look whether it is there, and send it again if not. Whoever looks after the server finds the reason in its log under ${digest}.`;
}

/** Puts what was sent back into the fields of a form, which React has emptied. */
export function putBack(form: HTMLFormElement, typed: FormData): void {
  for (const field of form.elements) {
    if (field instanceof HTMLInputElement && (field.type === "checkbox" || field.type === "radio")) {
      field.checked = typed.getAll(field.name).includes(field.value);
    } else if (field instanceof HTMLSelectElement && field.multiple) {
      const chosen = typed.getAll(field.name);
      for (const option of field.options) option.selected = chosen.includes(option.value);
    } else if (isTyped(field)) {
      const text = typed.get(field.name);
      if (typeof text === "string") field.value = text;
    }
  }
}

function isTyped(field: Element): field is HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement {
  if (field instanceof HTMLInputElement) return field.type !== "file" && field.type !== "hidden";
  return field instanceof HTMLTextAreaElement || field instanceof HTMLSelectElement;
}
