"use client";

import { unstable_isUnrecognizedActionError } from "next/navigation";
import { useActionState } from "react";
import { useCommonWords } from "#common-words";
import type { CommonWords } from "../../lib/words/common";
import { notStoredIn } from "./not-stored";

/** What every server action answers to a form. */
export type Answer = { done: boolean; message: string };

/** What was sent without being answered; on an answer that this hook made up. */
export type Unanswered = { typed?: FormData };

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
  const { fittings } = useCommonWords();
  return useActionState<State & Unanswered, FormData>(
    async (before, form) => {
      try {
        return await action({ ...before, typed: undefined }, form);
      } catch (error) {
        const message = whyUnanswered(error, fittings);
        if (message === null) throw error;
        return { ...before, done: false, message, typed: form };
      }
    },
    atFirst as Awaited<State & Unanswered>,
  );
}

/** In words for the form; null where it is no matter of the form. */
export function whyUnanswered(error: unknown, words: CommonWords["fittings"]): string | null {
  const { unanswered } = words;
  const digest = (error as { digest?: unknown } | null)?.digest;
  if (typeof digest === "string") {
    const notStored = notStoredIn(digest, words);
    if (notStored !== null) return unanswered.notStored(notStored);
    return digest.startsWith("NEXT_") ? null : unanswered.broken(digest);
  }
  if (unstable_isUnrecognizedActionError(error)) return unanswered.renewed;
  // What fetch throws when nobody answers; a fault of the program comes with a digest.
  return error instanceof TypeError ? unanswered.unheard : null;
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
