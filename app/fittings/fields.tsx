import { type ComponentProps, type ReactNode, useId } from "react";
import styles from "./fields.module.css";

type Around = {
  label: ReactNode;
  /** What to enter, and in what form; always shown, never a placeholder that vanishes. */
  hint?: ReactNode;
  /** Why what was entered could not be taken. */
  fault?: ReactNode;
};

/** One line of text or a number with its label, hint and fault. `unit` stands after it. */
export function TextField({
  label,
  hint,
  fault,
  unit,
  ...input
}: Around & { unit?: string | undefined } & ComponentProps<"input">) {
  const id = useId();
  return (
    <Around id={id} {...{ label, hint, fault }}>
      <span className={styles.withUnit}>
        <input
          type="text"
          autoComplete="off"
          {...input}
          id={id}
          className={styles.input}
          aria-describedby={describedBy(id, { hint, fault })}
          aria-invalid={fault ? true : undefined}
        />
        {unit ? <span className={styles.unit}>{unit}</span> : null}
      </span>
    </Around>
  );
}

/** Several lines of text. */
export function TextArea({ label, hint, fault, ...area }: Around & ComponentProps<"textarea">) {
  const id = useId();
  return (
    <Around id={id} {...{ label, hint, fault }}>
      <textarea
        rows={3}
        {...area}
        id={id}
        className={styles.input}
        aria-describedby={describedBy(id, { hint, fault })}
        aria-invalid={fault ? true : undefined}
      />
    </Around>
  );
}

export type Choice = { value: string; label: string };

/** One of several; the native list, which every device knows how to open. */
export function SelectField({
  label,
  hint,
  fault,
  choices,
  ...select
}: Around & { choices: readonly Choice[] } & ComponentProps<"select">) {
  const id = useId();
  return (
    <Around id={id} {...{ label, hint, fault }}>
      <select
        {...select}
        id={id}
        className={styles.input}
        aria-describedby={describedBy(id, { hint, fault })}
        aria-invalid={fault ? true : undefined}
      >
        {choices.map(({ value, label: text }) => (
          <option key={value} value={value}>
            {text}
          </option>
        ))}
      </select>
    </Around>
  );
}

/** Yes or no, or one of several that may be chosen together. */
export function CheckField({
  label,
  hint,
  ...input
}: { label: ReactNode; hint?: ReactNode } & ComponentProps<"input">) {
  const id = useId();
  return (
    <div className={styles.check}>
      <input type="checkbox" {...input} id={id} aria-describedby={hint ? `${id}-hint` : undefined} />
      <div>
        <label htmlFor={id}>{label}</label>
        {hint ? (
          <p id={`${id}-hint`} className={styles.hint}>
            {hint}
          </p>
        ) : null}
      </div>
    </div>
  );
}

/** Fields that belong together, under one heading that a screen reader says with each of them. */
export function FieldGroup({
  legend,
  hint,
  fault,
  isStacked = false,
  children,
}: {
  legend: ReactNode;
  hint?: ReactNode;
  fault?: ReactNode;
  /** One below the other instead of side by side. */
  isStacked?: boolean;
  children: ReactNode;
}) {
  return (
    <fieldset className={styles.group}>
      <legend className={styles.legend}>{legend}</legend>
      {hint ? <p className={styles.hint}>{hint}</p> : null}
      {fault ? <p className={styles.fault}>{fault}</p> : null}
      <div className={isStacked ? styles.stacked : styles.sideBySide}>{children}</div>
    </fieldset>
  );
}

function Around({ id, label, hint, fault, children }: Around & { id: string; children: ReactNode }) {
  return (
    <div className={styles.field}>
      <label htmlFor={id} className={styles.label}>
        {label}
      </label>
      {children}
      {fault ? (
        <p id={`${id}-fault`} className={styles.fault}>
          {fault}
        </p>
      ) : null}
      {hint ? (
        <p id={`${id}-hint`} className={styles.hint}>
          {hint}
        </p>
      ) : null}
    </div>
  );
}

function describedBy(id: string, { hint, fault }: Pick<Around, "hint" | "fault">): string | undefined {
  const ids = [fault ? `${id}-fault` : "", hint ? `${id}-hint` : ""].filter((part) => part !== "");
  return ids.length > 0 ? ids.join(" ") : undefined;
}
