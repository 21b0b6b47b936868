"use client";

import { useState } from "react";
import { SelectField, TextField } from "../fittings/fields";
import { BETWEEN, type ChosenWindow, WINDOWS, type WindowWords } from "./chosen-window";

type WindowFieldWords = Pick<
  WindowWords["capability"]["window"],
  "label" | "names" | "between" | "first" | "last"
>;

/** Which stretch of the history counts: one of the usual, or from one day to another. */
export function WindowFields({ window, words }: { window: ChosenWindow; words: WindowFieldWords }) {
  const days = "first" in window ? window : null;
  const [slug, setSlug] = useState(days ? BETWEEN : window.slug);
  return (
    <>
      <SelectField
        label={words.label}
        name="window"
        choices={[
          ...WINDOWS.map(({ slug }) => ({ value: slug, label: words.names[slug] })),
          { value: BETWEEN, label: words.between },
        ]}
        value={slug}
        onChange={(event) => setSlug(event.target.value)}
      />
      {slug === BETWEEN ? (
        <>
          <TextField label={words.first} name="first" type="date" required defaultValue={days?.first ?? ""} />
          <TextField label={words.last} name="last" type="date" required defaultValue={days?.last ?? ""} />
        </>
      ) : null}
    </>
  );
}
