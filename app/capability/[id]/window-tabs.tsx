import { use } from "react";
import { Button, ControlRow, LinkTabs } from "../../fittings/controls";
import { TextField } from "../../fittings/fields";
import { Note } from "../../fittings/note";
import { words } from "../../language/language";
import { type Asked, paramsOf, queryOf } from "../asked";
import { BETWEEN, WINDOWS } from "../chosen-window";
import styles from "./detail.module.css";

/** Which stretch of the history is studied: one of the usual, or from one day to another. */
export function WindowTabs({ id, asked }: { id: number; asked: Asked }) {
  const { capability } = use(words());
  const { window: said } = capability;
  const { window, windowFault } = asked;
  const days = "first" in window ? window : null;
  return (
    <>
      <LinkTabs
        label={said.label}
        links={[
          ...WINDOWS.map((each) => ({ ...each, words: said.names[each.slug] })),
          ...(days ? [days] : []),
        ].map((each) => ({
          href: `/capability/${id}${queryOf({ ...asked, window: each })}`,
          label: each.words,
          isCurrent: each.slug === window.slug,
        }))}
      />
      <details className={styles.days} open={days !== null || windowFault !== null}>
        <summary>{said.betweenFold}</summary>
        <form action={`/capability/${id}`} key={window.slug}>
          {[...paramsOf(asked)]
            .filter(([name]) => name !== "window")
            .map(([name, value]) => (
              <input key={name} type="hidden" name={name} value={value} />
            ))}
          <input type="hidden" name="window" value={BETWEEN} />
          <ControlRow>
            <TextField
              label={said.first}
              name="first"
              type="date"
              required
              defaultValue={days?.first ?? ""}
            />
            <TextField label={said.last} name="last" type="date" required defaultValue={days?.last ?? ""} />
            <Button type="submit">{capability.show}</Button>
          </ControlRow>
        </form>
      </details>
      {windowFault ? <Note kind="remark">{windowFault}</Note> : null}
    </>
  );
}
