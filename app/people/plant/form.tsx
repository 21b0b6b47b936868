"use client";

import { DECIMAL_MARKS, GROUPINGS } from "../../../lib/format/marks";
import { LENGTH_DISPLAYS } from "../../../lib/units/length";
import { LANGUAGES } from "../../../lib/words/language";
import type { Words } from "../../../lib/words/words";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { FieldGroup, SelectField } from "../../fittings/fields";
import { SubmitButton } from "../../fittings/submit-button";
import styles from "../keys/keys.module.css";
import { choosePlantDisplay } from "./actions";
import type { PlantChoices } from "./entry";

/** Unit of lengths, marks of figures and language, all at once. */
export function PlantForm({ chosen, words }: { chosen: PlantChoices; words: Words["plant"] }) {
  const [answer, action] = useAnswer(choosePlantDisplay, { done: false, message: "" });
  const { lengths, figures, language } = words;
  // A form that was sent is emptied to what it began with: it begins anew with what is in force now.
  return (
    <form action={action} className={styles.form} key={JSON.stringify(chosen)}>
      <AnswerNote answer={answer} />
      <FieldGroup legend={lengths.legend} hint={lengths.hint}>
        <SelectField
          label={lengths.label}
          name="lengths"
          choices={choicesOf(LENGTH_DISPLAYS, lengths.choices)}
          defaultValue={chosen.lengths}
        />
      </FieldGroup>
      <FieldGroup legend={figures.legend} hint={figures.hint}>
        <SelectField
          label={figures.decimal}
          name="decimal"
          choices={choicesOf(DECIMAL_MARKS, figures.decimals)}
          defaultValue={chosen.decimal}
        />
        <SelectField
          label={figures.grouping}
          name="grouping"
          choices={choicesOf(GROUPINGS, figures.groupings)}
          defaultValue={chosen.grouping}
        />
      </FieldGroup>
      <FieldGroup legend={language.legend} hint={language.hint}>
        <SelectField
          label={language.label}
          name="language"
          choices={choicesOf(LANGUAGES, language.choices)}
          defaultValue={chosen.language}
        />
      </FieldGroup>
      <div>
        <SubmitButton working={words.saving}>{words.save}</SubmitButton>
      </div>
    </form>
  );
}

function choicesOf<Value extends string>(values: readonly Value[], names: Record<Value, string>) {
  return values.map((value) => ({ value, label: names[value] }));
}
