"use client";

import { Button } from "../fittings/controls";
import styles from "./handover.module.css";

export function PrintButton({ label }: { label: string }) {
  return (
    <Button className={styles.screenOnly} onClick={() => window.print()}>
      {label}
    </Button>
  );
}
