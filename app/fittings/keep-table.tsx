"use client";

import type { MouseEvent } from "react";
import { useCommonWords } from "#common-words";
import { csvText } from "../../lib/format/csv";
import { fileName } from "../../lib/format/file-name";
import { Button } from "./controls";
import { saveFile } from "./save-file";
import { CSV, contentOf } from "./table-content";

/**
 * Saves the table beside it as CSV, with the rows and columns that it shows. Figures come with all their digits and
 * a point (`<data>`), moments as UTC (`<time>`), and no text is run as a formula.
 */
export function KeepTable({ caption }: { caption: string }) {
  const { tableOf } = useCommonWords().fittings.keep;
  function keep(event: MouseEvent<HTMLButtonElement>): void {
    const table = event.currentTarget.closest("[data-table]")?.querySelector("table");
    if (!table) return;
    const rows = [...table.rows].map((row) => [...row.cells].map(contentOf));
    saveFile(new Blob([csvText(rows)], { type: "text/csv" }), `${fileName(caption)}.csv`);
  }
  return (
    <Button kind="quiet" size="dense" aria-label={tableOf(caption)} title={tableOf(caption)} onClick={keep}>
      {CSV}
    </Button>
  );
}
