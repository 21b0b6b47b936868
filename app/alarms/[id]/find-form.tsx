"use client";

import { useState } from "react";
import { SelectField, TextArea, TextField } from "../../fittings/fields";
import { ActForm } from "../act-form";
import { ANOTHER_CAUSE } from "../answer";

/** What it was and what was done about it; either may come first. */
export function FindForm({
  alarmId,
  seen,
  causes,
  named,
  isWanted,
}: {
  alarmId: number;
  seen: number;
  causes: readonly string[];
  /** The cause that stands; empty while there is none. */
  named: string;
  isWanted: boolean;
}) {
  const [isAnother, setAnother] = useState(false);
  return (
    <ActForm
      alarmId={alarmId}
      seen={seen}
      isWanted={isWanted}
      onEmptied={() => setAnother(false)}
      buttons={[{ does: "find", label: "Save cause and action", kind: named === "" ? "main" : "plain" }]}
    >
      <SelectField
        label={named === "" ? "Assigned cause" : "Another cause than the one named"}
        name="cause"
        onChange={(event) => setAnother(event.target.value === ANOTHER_CAUSE)}
        choices={[
          { value: "", label: named === "" ? "not known yet" : `leave it: ${named}` },
          ...causes.map((text) => ({ value: text, label: text })),
          { value: ANOTHER_CAUSE, label: "another, written below" },
        ]}
      />
      {isAnother ? (
        <TextField
          label="The new cause"
          name="newCause"
          maxLength={120}
          hint="A few words; it joins the list for everybody."
        />
      ) : null}
      <TextArea
        label="What was done"
        name="note"
        rows={3}
        maxLength={2000}
        hint="For example: locator pin cleaned and reseated, five pieces measured good."
      />
    </ActForm>
  );
}
