import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { onTestFinished } from "vitest";
import { type Database, openDatabase } from "../../db/connection";
import { type IntakeOutcome, importFile } from "../../db/intake/import-file";
import { previewFile } from "../../db/intake/read-file";
import { migrate } from "../../db/migrate";
import type { Mapping } from "../../lib/intake/mapping";
import { untimedStart } from "../../lib/intake/untimed";
import { utc } from "../../lib/intake/zone";

/** Somebody without an account, at a fixed time. */
export const SOMEBODY = { accountId: null, at: Date.UTC(2026, 0, 5, 8) };

/** An empty, migrated database that is closed when the test ends. */
export async function emptyPlant(): Promise<Database> {
  const database = await openDatabase(":memory:");
  onTestFinished(() => database.close());
  await migrate(database);
  return database;
}

export type Row = {
  piece?: string;
  takenAt: number;
  feature?: string;
  value: number | string;
  lot?: string;
  fixture?: string;
  subgroup?: string;
  unit?: string;
};

/** Rows as a tidy file of the part P-1. */
export function tidyFile(rows: readonly Row[]): string {
  const lines = rows.map(
    ({ piece = "", takenAt, feature = "bore", value, lot = "", fixture = "", subgroup = "", unit = "mm" }) =>
      [
        piece,
        new Date(takenAt).toISOString(),
        "P-1",
        feature,
        "10",
        "9.9",
        "10.1",
        unit,
        value,
        lot,
        fixture,
        subgroup,
      ].join(","),
  );
  return `piece,taken_at,part,feature,nominal,lower_tolerance,upper_tolerance,unit,value,lot,fixture,subgroup\n${lines.join("\n")}\n`;
}

/** Brings a text in as a file, like a person who accepts what is suggested or gives a mapping. */
export async function bringIn(
  database: Database,
  text: string | Uint8Array,
  {
    name = "measurements.csv",
    mapping,
    subgroupSize = null,
    at = SOMEBODY.at,
  }: { name?: string; mapping?: Mapping; subgroupSize?: number | null; at?: number } = {},
): Promise<IntakeOutcome> {
  const folder = mkdtempSync(path.join(tmpdir(), "steadyrest-test-"));
  try {
    const file = { path: path.join(folder, "file"), name };
    writeFileSync(file.path, text);
    const chosen = mapping ?? (await previewFile(file, { zone: utc, mapping: null, rows: 0 })).mapping;
    return await importFile(database, {
      path: file.path,
      fileName: name,
      mapping: untimedStart(chosen, at),
      zone: utc,
      newFeatures: { subgroupSize },
      actor: { accountId: null, at },
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
