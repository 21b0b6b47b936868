"use client";

import { usePathname } from "next/navigation";
import { Link } from "../fittings/link";
import { ROOMS } from "../rooms";
import styles from "./frame.module.css";

/** The navigation. On a narrow screen it folds behind one button that names the room. */
export function RoomLinks() {
  const path = usePathname();
  const current = ROOMS.find(({ href }) => isWithin(path, href));
  return (
    <>
      <details className={styles.folded} key={path}>
        <summary>
          <span className={styles.foldedWord}>Rooms</span>{" "}
          <span className={styles.foldedRoom}>{current?.name ?? ""}</span>
        </summary>
        <nav aria-label="Rooms">
          <Links current={current?.href} />
        </nav>
      </details>
      <nav aria-label="Rooms" className={styles.unfolded}>
        <Links current={current?.href} />
      </nav>
    </>
  );
}

function Links({ current }: { current: string | undefined }) {
  return (
    <ul className={styles.rooms}>
      {ROOMS.map(({ href, name }) => (
        <li key={href}>
          <Link href={href} aria-current={href === current ? "page" : undefined}>
            {name}
          </Link>
        </li>
      ))}
    </ul>
  );
}

function isWithin(path: string, href: string): boolean {
  return href === "/" ? path === "/" : path === href || path.startsWith(`${href}/`);
}
