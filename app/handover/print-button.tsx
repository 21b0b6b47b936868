"use client";

import { Button } from "../fittings/controls";
import styles from "./handover.module.css";

export function PrintButton() {
  return (
    <Button className={styles.screenOnly} onClick={() => window.print()}>
      Print on one page
    </Button>
  );
}
