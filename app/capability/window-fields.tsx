"use client";

import { useState } from "react";
import { SelectField, TextField } from "../fittings/fields";
import { BETWEEN, type ChosenWindow, WINDOWS } from "./chosen-window";

/** Which stretch of the history counts: one of the usual, or from one day to another. */
export function WindowFields({ window }: { window: ChosenWindow }) {
  const days = "first" in window ? window : null;
  const [slug, setSlug] = useState(days ? BETWEEN : window.slug);
  return (
    <>
      <SelectField
        label="Window"
        name="window"
        choices={[
          ...WINDOWS.map(({ slug, words }) => ({ value: slug, label: words })),
          { value: BETWEEN, label: "from one day to another" },
        ]}
        value={slug}
        onChange={(event) => setSlug(event.target.value)}
      />
      {slug === BETWEEN ? (
        <>
          <TextField label="First day" name="first" type="date" required defaultValue={days?.first ?? ""} />
          <TextField label="Last day" name="last" type="date" required defaultValue={days?.last ?? ""} />
        </>
      ) : null}
    </>
  );
}
