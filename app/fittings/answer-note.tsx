"use client";

import { useEffect, useRef } from "react";
import { type Answer, putBack, type Unanswered } from "./answer";
import { Note } from "./note";

/** The message of a server action, once there is one. It stands within the form that was sent. */
export function AnswerNote({ answer }: { answer: Answer & Unanswered }) {
  const place = useRef<HTMLDivElement>(null);
  const { typed } = answer;

  useEffect(() => {
    const form = place.current?.closest("form");
    if (form && typed) putBack(form, typed);
  }, [typed]);

  if (answer.message === "") return null;
  return (
    <div ref={place}>
      <Note kind={answer.done ? "saved" : "refused"}>{answer.message}</Note>
    </div>
  );
}
