import type { ComponentProps, ReactNode } from "react";
import styles from "./controls.module.css";
import { Link } from "./link";

/** main: the one thing to do here · plain: everything else · quiet: beside text · grave: cannot be taken back. */
export type ButtonKind = "main" | "plain" | "quiet" | "grave";
/** dense where people compare, touch (44 px) where they act on the shop floor. */
export type ButtonSize = "dense" | "touch";

type Looks = { kind?: ButtonKind; size?: ButtonSize };

export function buttonClass({ kind = "plain", size = "touch" }: Looks): string {
  return `${styles.button} ${styles[kind]} ${styles[size]}`;
}

export function Button({
  kind,
  size,
  className,
  type = "button",
  ...rest
}: Looks & ComponentProps<"button">) {
  const looks = buttonClass({ ...(kind && { kind }), ...(size && { size }) });
  return <button type={type} className={className ? `${looks} ${className}` : looks} {...rest} />;
}

export function LinkButton({ kind, size, ...rest }: Looks & ComponentProps<typeof Link>) {
  return <Link className={buttonClass({ ...(kind && { kind }), ...(size && { size }) })} {...rest} />;
}

/** Links between views of one thing; the current one is marked by weight, a bar and `aria-current`. */
export function LinkTabs({
  label,
  links,
}: {
  label: string;
  links: readonly { href: string; label: ReactNode; isCurrent: boolean }[];
}) {
  return (
    <nav aria-label={label} className={styles.tabs}>
      {links.map(({ href, label: text, isCurrent }) => (
        <Link key={href} href={href} aria-current={isCurrent ? "page" : undefined}>
          {text}
        </Link>
      ))}
    </nav>
  );
}

/** Controls in a row that wraps: filters above a table, buttons below a form. */
export function ControlRow({ children }: { children: ReactNode }) {
  return <div className={styles.row}>{children}</div>;
}
