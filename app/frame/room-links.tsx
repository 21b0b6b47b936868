"use client";

import { usePathname } from "next/navigation";
import { Link } from "../fittings/link";
import { ROOMS } from "../rooms";
import styles from "./frame.module.css";

type RoomNames = Record<(typeof ROOMS)[number], string>;

/** The navigation. On a narrow screen it folds behind one button that names the room. */
export function RoomLinks({ label, names }: { label: string; names: RoomNames }) {
  const path = usePathname();
  const current = ROOMS.find((href) => isWithin(path, href));
  return (
    <>
      <details className={styles.folded} key={path}>
        <summary>
          <span className={styles.foldedWord}>{label}</span>{" "}
          <span className={styles.foldedRoom}>{current ? names[current] : ""}</span>
        </summary>
        <nav aria-label={label}>
          <Links current={current} names={names} />
        </nav>
      </details>
      <nav aria-label={label} className={styles.unfolded}>
        <Links current={current} names={names} />
      </nav>
    </>
  );
}

function Links({ current, names }: { current: string | undefined; names: RoomNames }) {
  return (
    <ul className={styles.rooms}>
      {ROOMS.map((href) => (
        <li key={href}>
          <Link href={href} aria-current={href === current ? "page" : undefined}>
            {names[href]}
          </Link>
        </li>
      ))}
    </ul>
  );
}

function isWithin(path: string, href: string): boolean {
  return href === "/" ? path === "/" : path === href || path.startsWith(`${href}/`);
}
