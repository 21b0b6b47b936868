"use client";

import { useState } from "react";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
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
  words,
}: {
  alarmId: number;
  seen: number;
  causes: readonly string[];
  /** The cause that stands; empty while there is none. */
  named: string;
  isWanted: boolean;
  words: Words["alarms"]["find"];
}) {
  const [isAnother, setAnother] = useState(false);
  return (
    <ActForm
      alarmId={alarmId}
      seen={seen}
      isWanted={isWanted}
      onEmptied={() => setAnother(false)}
      buttons={[{ does: "find", label: words.save, kind: named === "" ? "main" : "plain" }]}
    >
      <SelectField
        label={named === "" ? words.label : words.another}
        name="cause"
        onChange={(event) => setAnother(event.target.value === ANOTHER_CAUSE)}
        choices={[
          { value: "", label: named === "" ? words.unknown : fill(words.leave, { cause: named }) },
          ...causes.map((text) => ({ value: text, label: text })),
          { value: ANOTHER_CAUSE, label: words.written },
        ]}
      />
      {isAnother ? (
        <TextField label={words.newCause} name="newCause" maxLength={120} hint={words.newCauseHint} />
      ) : null}
      <TextArea label={words.done} name="note" rows={3} maxLength={2000} hint={words.doneHint} />
    </ActForm>
  );
}
