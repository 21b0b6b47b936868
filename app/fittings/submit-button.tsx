"use client";

import type { ReactNode } from "react";
import { useFormStatus } from "react-dom";
import { useCommonWords } from "#common-words";
import { Button, type ButtonKind, type ButtonSize } from "./controls";

/** Sends its form once: while the answer is awaited it says so and takes no second press. */
export function SubmitButton({
  children,
  working,
  kind = "main",
  size = "touch",
}: {
  children: ReactNode;
  working?: string;
  kind?: ButtonKind;
  size?: ButtonSize;
}) {
  const { fittings } = useCommonWords();
  const { pending } = useFormStatus();
  return (
    <Button type="submit" kind={kind} size={size} aria-disabled={pending} disabled={pending}>
      {pending ? (working ?? fittings.working) : children}
    </Button>
  );
}
