import { useState } from "react";
import { inField, typedNumber } from "../../../lib/format/typed-number";

/**
 * The text of a field in which a number is typed, with a point or a comma for the decimals. A field of the browser's own
 * kind for numbers reads "20,5" as 205 where the browser's language has a comma between thousands.
 *
 * What is no number is `none` for the mapping, and stays in the field until it is one.
 */
export function useTypedNumber<None extends null | number>(
  value: number | None,
  { none, onChange }: { none: None; onChange: (value: number | None) => void },
): { text: string; isFault: boolean; type: (text: string) => void } {
  const [typed, setTyped] = useState<{ text: string; value: number | None } | undefined>();
  // Unless somebody else has changed the value since, such as a saved mapping that was chosen.
  const own = typed?.value === value ? typed : undefined;
  return {
    text: own ? own.text : value === null ? "" : inField(value),
    isFault: own !== undefined && typedNumber(own.text) === undefined,
    type: (text) => {
      const read: number | None = typedNumber(text) ?? none;
      setTyped({ text, value: read });
      onChange(read);
    },
  };
}
